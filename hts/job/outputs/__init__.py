"""The compiled job written out: tables for programs, sheets for people, one file with everything.

files    the name and bytes of every output of a compiled job
write    puts them into a folder, all or none
"""

from hts.job.outputs.job_files import files
from hts.job.outputs.write import write

__all__ = ["files", "write"]
