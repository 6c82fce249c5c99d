"""What is told at one moment of a run along straight lines, each figure worked by hand: just at a
limit and just beyond it, by whom, and since when. Arithmetic, no source."""

from __future__ import annotations

from collections.abc import Mapping
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import OPEN_UPSCALE, SPIKES
from hts.record.record import POWER_BACK, POWER_LOST, REPLACED, Event, Gap, Jump
from hts.record.watch import View, look
from hts.record.watch.alarms import _not_written
from hts.record.watch.look import _hottest
from hts.record.watch.pace import Pace
from hts.record.watch.standing_in import standing_in
from tests.record.judging.made import GOOD, MINUTE, Points, course, every, record, spec_plan
from tests.rows import each_row

BLANK = ((0.0, np.nan),)
_AT = "2026-11-21"


def at(
    minutes: float,
    changes: Mapping[str, Points] = {},
    more: str = "",
    blank: Mapping[str, tuple[float, float]] = {},
    points: Points = GOOD,
    events: tuple[Event, ...] = (),
    faults: tuple[Fault, ...] = (),
    without: tuple[float, float] | None = None,
    jumps: tuple[Jump, ...] = (),
) -> View:
    """The desk after so many minutes; `blank` from and until, `without` rows in between."""
    plan, times = spec_plan(more), every(60.0, minutes)
    if without is not None:
        times = times[(times <= without[0] * MINUTE) | (times >= without[1] * MINUTE)]
    courses = {}
    for one in plan.watched:
        values = course(changes.get(one.tag, points), times)
        start, end = blank.get(one.tag, (np.inf, np.inf))
        values[(times >= start * MINUTE) & (times < end * MINUTE)] = np.nan
        courses[one.tag] = values
    return look(record(courses, times, events)._replace(jumps=jumps), plan, faults)


def held(to: float, since: float = 300.0) -> Points:
    """705 degC, and within a minute `to`."""
    return (*GOOD[:3], (since, 705.0), (since + 1, to), (400.0, to))


@each_row(
    ("to", "alarms"),
    [
        (717.0, []),
        (717.2, ["T2 717.2 degC, above the alarm of 717 degC"]),
        (720.0, ["T2 720.0 degC, above the alarm of 717 degC"]),
        (693.0, []),
        (692.9, ["T2 692.9 degC, below the alarm of 693 degC"]),
        (690.0, ["T2 690.0 degC, below the alarm of 693 degC"]),
    ],
)
def test_the_alarms_of_the_sheet_while_it_is_held(to: float, alarms: list[str]) -> None:
    """Twenty minutes after, so that no rate is over its limit."""
    view = at(320.0, {"T2": held(to)})
    assert list(view.alarms) == alarms
    assert view.counting and view.phase == "hold, step 3: the clock runs"
    row = next(one for one in view.rows if one.tag == "T2")
    assert row.below_top == pytest.approx(720 - to) and row.above_bottom == pytest.approx(to - 690)


def test_no_low_alarm_on_the_way_and_none_of_what_need_not_be_hot() -> None:
    low = {"T4": ((0.0, 250.0), (260.0, 500.0), (400.0, 500.0))}
    assert at(200.0, low).alarms == ()
    assert at(320.0, low).alarms == ()
    # Hot it may not be, beyond the band or not.
    (one,) = at(320.0, {"T3": held(717.5)}).alarms
    assert one == "T3 717.5 degC, above the alarm of 717 degC"


@pytest.mark.parametrize(
    ("tag", "to", "said"),
    [
        ("T2", 712.9, None),
        ("T2", 713.1, "T2 is 8.1 K above its setpoint, alarm at 8 K"),
        ("T2", 697.1, None),
        ("T2", 696.9, "T2 is 8.1 K below its setpoint, alarm at 8 K"),
        ("T3", 713.1, None),  # it does not control
    ],
)
def test_deviation_from_the_setpoint(tag: str, to: float, said: str | None) -> None:
    found = at(320.0, {tag: held(to)}, "deviation alarm 8 K").alarms
    assert list(found) == ([said] if said else [])
    assert at(200.0, more="deviation alarm 8 K").alarms == ()


@pytest.mark.parametrize(
    ("to", "edge", "farthest"),
    [(689.0, "below", "689.0 degC"), (721.0, "above", "721.0 degC")],
)
def test_out_of_the_range_the_clock_stands(to: float, edge: str, farthest: str) -> None:
    """In range from 30 + 390/405 x 230 = 251 min 29 s; 705 leaves it within the minute after 300,
    15 of 16 K: after 56 s. 300 min 56 s less 251 min 29 s are 49 min 28 s, rounded."""
    view = at(320.0, {"T2": held(to)})
    said = f"T2 {edge} the range of the hold (690 .. 720 degC), {farthest}: the clock stands at "
    assert sum(one.startswith(said) for one in view.alarms) == 1
    assert next(one for one in view.alarms if one.startswith(said)).removeprefix(said) in (
        "49 min 27 s", "49 min 28 s",
    )  # fmt: skip
    assert not view.counting and view.ends == ""
    word = "too cold" if edge == "below" else "too hot"
    assert view.stands == f"T2 is at {farthest}, {word}"
    assert view.phase == "hold, step 3: interrupted"
    both = at(320.0, {"T2": held(to), "T3": held(705 + 2 * (to - 705))})
    also = f"the farthest at {705 + 2 * (to - 705):.1f} degC"
    assert any(one.startswith(f"T2, T3 {edge} the range") and also in one for one in both.alarms)


@pytest.mark.parametrize(
    ("rate", "said"),
    [(120.0, ()), (126.0, ("T2 rises 126 degC/h, limit 120 degC/h above 300 degC",))],
)
def test_too_fast_over_the_window_that_ends_now(rate: float, said: tuple[str, ...]) -> None:
    """The last 15 min of 115, whatever went before: 100 degC/h."""
    before = 300 + 70 / 60 * 100
    fast = (*GOOD[:2], (100.0, before), (115.0, before + rate / 4))
    others = (*GOOD[:2], (115.0, 300 + 85 / 60 * 100))
    assert at(115.0, {"T2": fast}, points=others).alarms == said


def test_too_fast_by_one_that_began_late_or_has_ended() -> None:
    """240 degC/h for 15 min: told of one that has read for 10 of them; not of one that stopped."""
    fast = (*GOOD[:2], (100.0, 400.0), (115.0, 460.0), (130.0, 500.0))
    others = (*GOOD[:2], (130.0, 480.0))
    said = "T2 rises 240 degC/h, limit 120 degC/h above 300 degC"
    for minutes, blank, told in ((115.0, (0.0, 105.0), True), (130.0, (115.0, 200.0), False)):
        found = at(minutes, {"T2": fast}, points=others, blank={"T2": blank}).alarms
        assert (said in found) == told
        assert not any("rises" in one for one in found if one != said)


def test_too_fast_down_and_not_before_a_window_is_full() -> None:
    down = (*GOOD[:4], (430.0, 705 - 62.0))
    found = at(430.0, {"T3": down}, points=(*GOOD[:4], (430.0, 660.0))).alarms
    assert "T3 falls 124 degC/h, limit 120 degC/h above 300 degC" in found
    fast: Points = ((0.0, 310.0), (14.0, 345.0), (15.0, 347.5))  # 150 degC/h
    assert [any("rises 150" in one for one in at(end, points=fast).alarms) for end in (14, 15)] == [
        False, True,
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("moves", "said"),
    [
        # 30.1 K in 15 min, 120.4 K/h, up or down out of the range.
        (((284.0, 704.9), (300.0, 704.9), (315.0, 735.0)), "T2 rises 120.4 degC/h"),
        (((284.0, 705.0), (300.0, 705.0), (315.0, 674.9)), "T2 falls 120.4 degC/h"),
        # 29 K in 14 min, 124 K/h, within it.
        (((284.0, 705.0), (299.0, 690.5), (313.0, 719.5)), None),
    ],
)
def test_moving_within_the_range_of_a_hold_is_no_heating(moves: Points, said: str | None) -> None:
    found = at(moves[-1][0], {"T2": (*GOOD[:3], *moves)}).alarms
    assert [one for one in found if "rises" in one or "falls" in one] == (
        [f"{said}, limit 120 degC/h above 300 degC"] if said else []
    )


def test_the_rate_shown_is_over_the_window() -> None:
    row = next(one for one in at(115.0).rows if one.tag == "T1")
    assert row.rate == pytest.approx(405 / 230 * 60) and row.rate_limit == 120
    short = next(one for one in at(10.0).rows if one.tag == "T1")
    # 250 to 300 degC in 30 min, of which 10 are there; below 300 degC none is limited.
    assert short.rate == pytest.approx(100.0) and short.rate_limit is None
    none: Any = SimpleNamespace(values=np.empty((0, 3)), times=np.arange(3.0))
    assert _hottest(none) is None


@pytest.mark.parametrize(
    ("ago", "told"),
    [(0.0, (True, True)), (14.0, (True, False)), (16.0, (False, False))],
)
def test_how_long_a_fault_is_told(ago: float, told: tuple[bool, bool]) -> None:
    """One that lasts, or was within a quarter of an hour; spikes pass and are told while they are
    there."""
    end = (320.0 - ago) * MINUTE
    for kind, shown in zip((OPEN_UPSCALE, SPIKES), told, strict=True):
        fault = Fault(
            kind.name, "T2", (), 300 * MINUTE, end, "as the test says", "high", "left out"
        )
        alarms = at(320.0, faults=(fault,)).alarms
        assert any("as the test says, since" in one for one in alarms) == shown
        # Of a spare that nobody goes by nothing is told, nor of what another stands in for.
        assert at(320.0, faults=(fault._replace(tag="T1S"),)).alarms == ()
        # Nor of a column that is no thermocouple of the text, unless one of them is meant as well.
        assert at(320.0, faults=(fault._replace(tag="X9"),)).alarms == ()
        both = at(320.0, faults=(fault._replace(tag="X9", others=("T2",)),)).alarms
        assert any("as the test says" in one for one in both) == shown
        noted = (Event(REPLACED, 290 * MINUTE, "T2", "T1S"),)
        assert not any("T2" in one for one in at(320.0, faults=(fault,), events=noted).alarms)


def test_no_rows_and_a_clock_that_was_set() -> None:
    gap = f"no rows from {_AT} 11:00:00 to {_AT} 11:20:00: is the recorder writing, or was its"
    for minutes, told in ((335.0, True), (336.0, False)):
        found = at(minutes, without=(300.0, 320.0)).alarms
        assert any(one.startswith(gap) for one in found) == told
    jump = Jump(320 * MINUTE, -3600.0)
    said = f"the clock of the recorder was set by 1 h at {_AT} 10:20:00: note it"
    for minutes, told in ((335.0, True), (336.0, False)):
        assert (said in at(minutes, jumps=(jump,)).alarms) == told


def test_power() -> None:
    lost, back = Event(POWER_LOST, 310 * MINUTE), Event(POWER_BACK, 315 * MINUTE)
    assert f"no power since {_AT} 11:10:00" in at(320.0, events=(lost,)).alarms
    assert not any("power" in one for one in at(320.0, events=(lost, back)).alarms)


def test_who_stands_in() -> None:
    """For T1 its spare, where that reads now; else one of its zone; T2 has neither."""
    lost = {"T1": (300.0, 400.0)}
    go_over = "T1 has no reading (go over to T1S and note it as an event)"
    assert at(320.0, blank=lost).stands == go_over
    assert at(320.0, blank={**lost, "T1S": (320.0, 400.0)}).stands == "T1 has no reading"
    assert at(320.0, blank={"T2": (300.0, 400.0)}).stands == "T2 has no reading"
    assert at(320.0, blank={"T2": (300.0, 320.0)}).stands == ""


def test_another_is_looked_at_from_the_first_row_without_a_reading() -> None:
    def one(tag: str, zone: str, values: list[float]) -> tuple[Any, Any]:
        watched = SimpleNamespace(tag=tag, zone=zone, spare_of="")
        return watched, SimpleNamespace(values=np.array(values))

    nan = np.nan
    its = [one("T1", "top", [1, 2, nan, nan]), one("T2", "bottom", [1, 2, 3, 4]),
           one("T3", "top", [1, 2, 3, 4]), one("T4", "top", [nan, nan, 3, nan]),
           one("T5", "top", [nan] * 4)]  # fmt: skip
    evidence: Any = SimpleNamespace(
        required=[watched for watched, _ in its],
        plan=SimpleNamespace(watched=[watched for watched, _ in its]),
        record=SimpleNamespace(series={watched.tag: series for watched, series in its}),
        times=np.arange(4) * 60.0,
        of=lambda tag: next(series.values for watched, series in its if watched.tag == tag),
    )
    assert [(found.tag, found.by, found.at) for found in standing_in(evidence)] == [
        ("T1", "T3", 120.0), ("T4", "T3", 180.0), ("T5", "T3", 0.0),
    ]  # fmt: skip


def _looked(end: float, *gaps: tuple[float, float]) -> Any:
    return SimpleNamespace(end=end, interval=60.0, gaps=[Gap(*one) for one in gaps])


@each_row(
    ("looks", "ahead"),
    [
        # Rows with time for a minute and more, then 37 min at once: later than a minute waited, the
        # longest wait before (60 s), two intervals and 10 s: 250 s.
        (((0, 0), (60, 60), (120, 120), (180, 2400)), True),
        (((0, 0), (60, 60), (120, 120), (180, 371)), True),
        (((0, 0), (60, 60), (120, 120), (180, 370)), False),
        # It kept whoever looks waiting for as long.
        (((0, 0), (60, 60), (120, 120), (2400, 2400)), False),
        # Not looked at for a minute yet; or rows come faster than time: an old log.
        (((0, 0), (59, 60), (119, 2400)), False),
        (((0, 0), (60, 101), (120, 2400)), False),
        (((0, 0), (60, 100), (120, 2400)), True),
    ],
)
def test_whether_the_clock_went_ahead(looks: tuple[tuple[int, int], ...], ahead: bool) -> None:
    pace, found = Pace(), ()
    before = 0.0
    for number, (now, end) in enumerate(looks):
        last = number == len(looks) - 1
        found = pace.ahead(_looked(end, *([(before, end)] if last else [])), float(now))
        before = float(end)
    assert bool(found) == ahead
    # Looked at again it is told again; another log, which ends earlier, begins anew.
    again = _looked(before, *found)
    assert pace.ahead(again, 5000.0) == found
    assert pace.ahead(_looked(before - 1), 5060.0) == ()


@each_row(
    ("note", "required", "faulty", "told"),
    [
        ("no reading", True, False, True), ("no reading", False, False, True),
        ("not recorded", True, False, True), ("not recorded", False, False, False),
        ("stands in for T1", True, False, False), ("no reading", True, True, False),
    ],
)  # fmt: skip
def test_who_is_told_to_be_without_a_reading(
    note: str, required: bool, faulty: bool, told: bool
) -> None:
    evidence: Any = SimpleNamespace(
        record=SimpleNamespace(jumps=(), end=0.0),
        faults=[SimpleNamespace(tag="T9", others=("T4",))] * faulty,
        plan=SimpleNamespace(by_tag={"T4": SimpleNamespace(required=required)}),
        row_gaps=(),
    )
    row: Any = SimpleNamespace(tag="T4", note=note)
    assert _not_written(evidence, (row,), ()) == [f"T4: {note}"] * told
