"""Delimited text from any recorder, read to a record."""

from hts.record.reading.options import Options
from hts.record.reading.read import Wished, read, read_each

__all__ = ["Options", "Wished", "read", "read_each"]
