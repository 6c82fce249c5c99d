"""The one canonical layout of a specification: white space and comments, never meaning."""

from hts.language.layout.guard import settled
from hts.language.layout.layout import laid_out

__all__ = ["laid_out", "settled"]
