"""Flags for thermocouple leads, a sheet of them as PDF.

files    the name and bytes of the sheet of a compiled job
Grid     how the flags lie on the sheet
"""

from hts.paper.labels.grid import Grid, GridError
from hts.paper.labels.label_sheet import NAME, files

__all__ = ["NAME", "Grid", "GridError", "files"]
