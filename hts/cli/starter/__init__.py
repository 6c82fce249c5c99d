"""A first specification, written from a few answers."""

from hts.cli.starter.choices import AXES, BOOKS, FAMILIES, KINDS, METHODS, UNITS, Choices
from hts.cli.starter.start import CannotStart, started

__all__ = [
    "AXES",
    "BOOKS",
    "FAMILIES",
    "KINDS",
    "METHODS",
    "UNITS",
    "CannotStart",
    "Choices",
    "started",
]
