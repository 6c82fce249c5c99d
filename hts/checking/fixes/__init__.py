"""What can be written where something was found: fixes of one finding, made from its text."""

from hts.checking.fixes.fixes import fixes_for, fixes_of

__all__ = ["fixes_for", "fixes_of"]
