"""What to load for a job: summed over its joints, as paper, CSV and workbook.

kit_files    the name and bytes of each
kit_rows     the lines of the list
"""

from hts.paper.kit.kit_files import files

__all__ = ["files"]
