"""Where a step counts as gone through: common practice, no source; worked by hand."""

from __future__ import annotations

from hts.job.demands.gone_through import gone_through
from tests.rows import each_row


@each_row(
    ("start", "end", "low", "high", "at"),
    [
        # Up to 705 into 690 .. 720: at 690.
        (300, 705, 690, 720, 690),
        # Down to 500 into 480 .. 520: at 520.
        (705, 500, 480, 520, 520),
        # No hold follows, or its range lies beyond the end or begins before the step.
        (300, 705, None, None, 705),
        (300, 705, 710, 720, 705),
        (695, 705, 690, 720, 705),
        # A range that begins just at an end is none to come into.
        (300, 705, 705, 720, 705),
    ],
)
def test_to_the_end_or_into_the_range_that_follows(start, end, low, high, at):
    assert gone_through(start, end, low, high) == at
