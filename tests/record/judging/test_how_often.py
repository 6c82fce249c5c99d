"""What happened once and what happened several times is told so, wherever a verdict counts."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

import numpy as np
import pytest

from hts.record.judging import MET, NOT_MET, NOT_SHOWN, judge
from hts.record.judging.coverage import _rarer, _slower
from hts.record.record import Jump
from tests.record.judging.made import GOOD, MINUTE, Points, course, every, record, run, spec_plan
from tests.record.judging.made import verdict as of
from tests.rows import each_row

#: Times of 20 min at 240 degC/h, twice what is allowed, on the way up and on the way down.
UP: dict[int, Points] = {
    1: (*GOOD[:2], (50.0, 335.0), (70.0, 415.0), *GOOD[2:]),
    2: (*GOOD[:2], (50.0, 335.0), (70.0, 415.0), (130.0, 475.0), (150.0, 555.0), (300.0, 705.0),
        (440.0, 705.0), (680.0, 290.0)),
}  # fmt: skip
DOWN: dict[int, Points] = {
    1: (*GOOD[:4], (420.0, 625.0), (660.0, 290.0)),
    2: (*GOOD[:4], (420.0, 625.0), (480.0, 575.0), (500.0, 495.0), (660.0, 290.0)),
}


@pytest.mark.parametrize(("times", "word"), [(1, "once"), (2, "2 times")])
def test_too_fast(times: int, word: str) -> None:
    judgement = run(spec_plan("on over-rate resume at the allowed rate"), points=UP[times])
    assert of(judgement, "over-rate").actual == f"too fast {word}"
    assert of(judgement, "over-rate").verdict == MET
    assert len(of(judgement, "heating rate").failures) == 3 * times
    plan = spec_plan("on cooling fault cool on at the allowed rate")
    judgement = run(plan, points=DOWN[times])
    assert of(judgement, "cooling fault").actual == f"cooling at fault {word}"
    assert len(of(judgement, "cooling rate").failures) == 3 * times


@pytest.mark.parametrize("times", [1, 2])
def test_too_fast_within_the_allowance(times: int) -> None:
    plan = spec_plan("rate excursion at most 30 min each")
    found = of(run(plan, {"T2": UP[times]}, points=UP[2] if times == 2 else GOOD), "heating rate")
    assert found.verdict == MET
    of_all = 3 * times if times == 2 else 1
    counted = "once" if of_all == 1 else f"{of_all} times"
    assert found.actual.endswith(f"; {counted} beyond the limit within the allowance")


@each_row(("gaps", "said"), [(0, ""), (1, ", 1 gap"), (2, ", 2 gaps"), (3, ", 3 gaps")])
def test_gaps(gaps: int, said: str) -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    for at in range(gaps):
        begin = (300 + 20 * at) * MINUTE
        times = times[(times <= begin) | (times >= begin + 10 * MINUTE)]
    judgement = judge(record({o.tag: course(GOOD, times) for o in plan.watched}, times), plan)
    found = of(judgement, "readings")
    assert found.actual == f"every 1 min{said}"
    assert found.verdict == (NOT_SHOWN if gaps else MET)
    assert [one.sentence[:26] for one in found.failures] == ["no readings for 10 min fro"] * gaps


@pytest.mark.parametrize(
    ("heats", "said"), [(0, "never hot"), (1, "heated once"), (2, "heated 2 times")]
)
def test_heats(heats: int, said: str) -> None:
    cycle = np.array(GOOD)
    points = [(0.0, 250.0), (640.0, 250.0)] if not heats else []
    for number in range(heats):
        points += [(minute + 700 * number, degrees) for minute, degrees in cycle.tolist()]
        points.append((690.0 + 700 * number, 20.0))
    found = of(run(spec_plan(), points=points), "run of the record")
    assert found.actual == f"2026-11-21, {said}"
    assert found.verdict == (MET if heats == 1 else NOT_SHOWN)


def test_pieces_lapses_and_clocks() -> None:
    dips: list[tuple[float, float]] = []
    for at in (300.0, 340.0):
        dips += [(at, 705.0), (at + 5, 680.0), (at + 10, 705.0)]
    points = (*GOOD[:3], *dips, (460.0, 705.0), (700.0, 290.0))
    found = of(run(spec_plan("interrupted hold adds up"), points=points), "hold time")
    assert " in 3 pieces, " in found.actual
    outside = of(run(spec_plan(), points=points), "time outside the hold range")
    assert outside.verdict == NOT_MET or "none" in outside.actual
    made = run(spec_plan())
    one = judge(made.record._replace(jumps=(Jump(600.0, 60.0),)), made.plan)
    assert of(one, "clock of the record").actual == "set once"


@pytest.mark.parametrize(
    ("read_at", "own_file", "apart"),
    [
        # Rows every 60 s; of these seconds it has readings. Two are enough to tell.
        ((0, 300), True, 300.0),
        ((0, 60, 120, 420), True, None),
        ((0, 120, 240, 420), True, 120.0),
        ((0,), True, None),
        ((), True, None),
        ((0, 300), False, None),
    ],
)
def test_thermocouples_of_files_of_their_own(
    read_at: tuple[int, ...], own_file: bool, apart: float | None
) -> None:
    times = np.arange(0.0, 480.0, 60.0)
    values = np.where(np.isin(times, read_at), 700.0, np.nan)
    series = Stub(rows=values if own_file else None, measured=np.isfinite(values), as_read=values)
    evidence: Any = Stub(times=times, record=Stub(series={"T2": series}, interval=60.0))
    assert _rarer(evidence, 60.0) == ([] if apart is None else [(["T2"], apart)])
    # Asked for less often, or where all are read less often: then it comes often enough.
    for asked, each_row_s in ((300.0, 60.0), (60.0, 300.0)):
        evidence.record.interval = each_row_s
        assert _rarer(evidence, asked) == []
    evidence.record.interval = 60.0
    # A blank that was filled in is no reading.
    series.measured = np.ones(len(times), dtype=bool)
    assert _rarer(evidence, 60.0) == ([] if apart is None else [(["T2"], apart)])


def test_a_stretch_that_is_read_less_often() -> None:
    """More than half of twelve rows on end are late; a few that are make none, nor rows that are
    late by a tenth of the interval and half a second."""
    apart = [60.0] * 30 + [120.0] * 20 + [60.0] * 30
    times = np.concatenate([[0.0], np.cumsum(apart)])
    ((stretch, every_s),) = _slower(times, 60.0)
    assert (stretch.start, stretch.end, every_s) == (1800.0, 1800.0 + 2400.0, 120.0)
    for few in ([60.0] * 30 + [120.0] * 6 + [60.0] * 30, [66.5] * 80, [60.0, 120.0] * 6):
        assert _slower(np.concatenate([[0.0], np.cumsum(few)]), 60.0) == []
    ((whole, late),) = _slower(np.concatenate([[0.0], np.cumsum([66.6] * 80)]), 60.0)
    assert (whole.start, round(whole.end, 3), round(late, 3)) == (0.0, 5328.0, 66.6)
