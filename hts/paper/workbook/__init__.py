"""The compiled job as a spreadsheet workbook: real numbers, cells to fill in, no text taken for a
formula.

files    the name and bytes of the workbook of a compiled job
"""

from hts.paper.workbook.workbook_file import NAME, files

__all__ = ["NAME", "files"]
