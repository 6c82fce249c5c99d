"""Many records judged, one line each: those of a folder that belong to the specifications of
another.

audit    the lines, specification by specification, as they are made
"""

from hts.record.archive.audit import audit
from hts.record.archive.line import ArchiveLine

__all__ = ["ArchiveLine", "audit"]
