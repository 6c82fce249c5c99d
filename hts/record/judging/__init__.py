"""Every requirement of a run held against its record: specified, actual, verdict, and why.

Readings are joined by straight lines, as a ruler on the chart would; nothing is drawn across a
gap. What the record does not show is "not shown", never "met".
"""

from hts.record.judging.evidence import Evidence, draw_lines
from hts.record.judging.judge import judge, judged, judged_together
from hts.record.judging.judgement import Judgement
from hts.record.judging.verdict import (
    CONDITIONAL,
    MET,
    NOT_MET,
    NOT_SHOWN,
    Failure,
    HoldClock,
    Noted,
    Segment,
    Stretch,
    Verdict,
)

__all__ = [
    "CONDITIONAL",
    "MET",
    "NOT_MET",
    "NOT_SHOWN",
    "Evidence",
    "Failure",
    "HoldClock",
    "Judgement",
    "Noted",
    "Segment",
    "Stretch",
    "Verdict",
    "draw_lines",
    "judge",
    "judged",
    "judged_together",
]
