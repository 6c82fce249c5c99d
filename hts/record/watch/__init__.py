"""A run while it goes on: the growing record, looked at again and again.

Growing   follows a file through growth, truncation and rotation
Follow    reads and looks at it each time it has grown
look      what the record says now: readings, rates, distances, hold clock, alarms
"""

from hts.record.watch.follow import Follow
from hts.record.watch.growing import Growing
from hts.record.watch.look import look
from hts.record.watch.view import Row, View

__all__ = ["Follow", "Growing", "Row", "View", "look"]
