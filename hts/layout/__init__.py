"""The one canonical layout of a specification: white space and comments, never meaning."""

from hts.layout.guard import settled
from hts.layout.layout import laid_out

__all__ = ["laid_out", "settled"]
