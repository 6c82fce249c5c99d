"""A judged record on paper: report, chart and workbook to hand over.

files    the name and bytes of each
"""

from hts.record.handover.handover_files import KINDS, files

__all__ = ["KINDS", "files"]
