"""Sheets of paper: their sizes and the fonts on them, the same on every machine."""

from hts.paper.fonts import FAMILY, FOLDER
from hts.paper.needed import MissingPackage, needed
from hts.paper.size import A4, LETTER, SIZES, Size

__all__ = ["A4", "FAMILY", "FOLDER", "LETTER", "SIZES", "MissingPackage", "Size", "needed"]
