"""Which pieces of a hold count and when it was complete, on pieces given by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from hts.record.judging.hold_clocks import counting, hold_end
from hts.record.judging.verdict import HoldClock, Stretch
from tests.record.judging.made import MINUTE, Points, run, spec_plan
from tests.rows import each_row

A, B, C = Stretch(0, 50), Stretch(60, 160), Stretch(200, 260)


@each_row(
    ("adds", "least", "end", "expected"),
    [
        (True, 1000.0, 500.0, (A, B, C)),
        (False, 40.0, 500.0, (A,)),  # the first that was long enough
        (False, 50.0, 500.0, (A,)),  # just long enough
        (False, 50.1, 500.0, (B,)),
        (False, 100.1, 500.0, (B,)),  # none was: the longest
        (False, 100.1, 260.0, (C,)),  # none was: the one that still goes on
        (False, 100.0, 260.0, (B,)),  # one was: what goes on since does not matter
        (False, None, 500.0, (A,)),
    ],
)
def test_counting(
    adds: bool, least: float | None, end: float, expected: tuple[Stretch, ...]
) -> None:
    evidence: Any = SimpleNamespace(
        plan=SimpleNamespace(adds_up=adds), record=SimpleNamespace(end=end)
    )
    assert counting(evidence, [A, B, C], least) == expected
    assert counting(evidence, [], least) == ()


@each_row(
    ("pieces", "least", "expected"),
    [
        ((A, B), 50.0, 50.0),  # complete with the first piece
        ((A, B), 60.0, 70.0),  # 50 s and 10 s of the second
        ((A, B), 150.0, 160.0),
        ((A, B), 151.0, 160.0),  # never complete: to the last moment that counted
        ((A, B), None, 160.0),
        ((), 10.0, None),
    ],
)
def test_hold_end(pieces: tuple[Stretch, ...], least: float | None, expected: float | None) -> None:
    lasted = sum(one.length for one in pieces)
    first, last = (pieces[0].start, pieces[-1].end) if pieces else (None, None)
    clock = HoldClock(0, 0, pieces, lasted, first, last, least, None, "", "")
    assert hold_end(clock) == expected


@pytest.mark.parametrize(
    ("late", "named"), [({"T2": 280.0}, "; T2 came last"), ({"T2": 280.0, "T3": 280.0}, "")]
)
def test_who_came_last(late: dict[str, float], named: str) -> None:
    """680 degC at 260 min, 690 at 280: one alone is named, two that come together are not."""
    courses: dict[str, Points] = {
        tag: ((0.0, 250.0), (30.0, 300.0), (260.0, 680.0), (at, 690.0), (300.0, 705.0),
              (420.0, 705.0), (640.0, 290.0))
        for tag, at in late.items()
    }  # fmt: skip
    points = ((0.0, 250.0), (30.0, 300.0), (260.0, 705.0), (420.0, 705.0), (640.0, 290.0))
    (hold,) = run(spec_plan(), courses, points=points).holds
    assert hold.arrived == pytest.approx(280 * MINUTE)
    assert hold.last == ("T2" if named else "")


@pytest.mark.parametrize(("foot", "cooled"), [(494.0, True), (496.0, False)])
def test_the_next_hold_begins_when_the_part_was_half_way_down(foot: float, cooled: bool) -> None:
    """Two holds of one range, the part cooled to 300 degC between: half way from 690 is 495."""
    again = "  cool to 300 degC  at most 120 degC/h\n  heat to 705 degC  at most 120 degC/h\n"
    change = ("for 2 h\n", f"for 2 h\n{again}  hold 690 .. 720 degC for 1 h\n")
    points = ((0.0, 250.0), (30.0, 300.0), (260.0, 705.0), (400.0, 705.0), (530.0, foot),
              (660.0, 705.0), (760.0, 705.0), (1000.0, 290.0))  # fmt: skip
    judgement = run(spec_plan("", change), points=points)
    first, second = judgement.holds
    assert first.total >= 140 * MINUTE
    assert (second.arrived is not None) == cooled


def test_nobody_came_last_into_a_hold_the_record_begins_in() -> None:
    """All are in range at the first reading; T2 is out of it at the second."""
    dips = ((0.0, 705.0), (1.0, 680.0), (2.0, 705.0), (150.0, 705.0), (390.0, 290.0))
    judgement = run(spec_plan(), {"T2": dips}, points=((0.0, 705.0), *dips[3:]))
    (hold,) = judgement.holds
    assert (hold.arrived, hold.last, hold.worst) == (0.0, "", "T2")
