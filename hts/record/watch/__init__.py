"""A run while it goes on: the growing record, looked at again and again.

Growing   follows a file through growth, truncation and rotation
look      what the record says now: readings, rates, distances, hold clock, alarms
"""

from hts.record.watch.growing import Growing
from hts.record.watch.look import look
from hts.record.watch.view import Row, View

__all__ = ["Growing", "Row", "View", "look"]
