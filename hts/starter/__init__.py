"""A first specification, written from a few answers."""

from hts.starter.choices import AXES, BOOKS, FAMILIES, METHODS, UNITS, Choices
from hts.starter.start import CannotStart, started

__all__ = [
    "AXES",
    "BOOKS",
    "FAMILIES",
    "METHODS",
    "UNITS",
    "CannotStart",
    "Choices",
    "started",
]
