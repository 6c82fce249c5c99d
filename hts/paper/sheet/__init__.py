"""Sheets of paper: their sizes and the fonts on them, the same on every machine."""

from hts.paper.sheet.fonts import FAMILY, FOLDER
from hts.paper.sheet.needed import MissingPackage, needed
from hts.paper.sheet.size import A4, LETTER, SIZES, Size

__all__ = ["A4", "FAMILY", "FOLDER", "LETTER", "SIZES", "MissingPackage", "Size", "needed"]
