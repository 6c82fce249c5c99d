"""Delimited text from any recorder, read to a record."""

from hts.record.reading.options import Options
from hts.record.reading.read import read

__all__ = ["Options", "read"]
