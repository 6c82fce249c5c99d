"""Each limit just met and just passed: outcome, printed figure, time of day, who is named.

What fails must never be printed as the figure of its limit, and what is just at it is met. All
values are worked by hand from the straight lines of `made.py`; records begin at 06:00:00.
"""

from __future__ import annotations

from typing import NamedTuple

import pytest

from hts.record.judging import MET, NOT_MET, NOT_SHOWN, Judgement
from tests.record.judging.made import (
    GOOD,
    Points,
    file_plan,
    run,
    spec_plan,
    verdict,
)
from tests.record.judging.test_temperatures import bump, lower
from tests.rows import each_row

DAY = "2026-11-21"


class Case(NamedTuple):
    """What of a judgement is expected; `says` is the first failure, "" for none."""

    requirement: str
    judgement: Judgement
    outcome: str
    actual: str
    says: str = ""
    tags: tuple[str, ...] = ()
    failures: int = 1


def check(case: Case) -> None:
    found = verdict(case.judgement, case.requirement)
    assert (found.verdict, found.actual) == (case.outcome, case.actual)
    if not case.says:
        assert found.failures == ()
        return
    assert len(found.failures) == case.failures
    assert found.failures[0].sentence == case.says
    assert found.failures[0].tags == case.tags


def held(at: float) -> Points:
    return (*GOOD[:2], (260.0, at), (400.0, at), (640.0, 290.0))


#: T2 above the range for 3 min from 11:00 and for 6 min from 11:40.
TWICE = (*bump(3.0, 730.0)[:7], (340.0, 705.0), (340.01, 730.0), (346.01, 730.0),
         (346.02, 705.0), *GOOD[3:])  # fmt: skip
FIRST = (
    f"T2 was up to 730.0 degC, the top of the range is 720 degC, for 3 min from {DAY} 11:00:01 "
    f"to {DAY} 11:03:01"
)


@each_row(
    ("allowed", "outcome", "actual"),
    [
        ("6 min each", MET, "9 min in total, longest 6 min"),
        ("5 min 59 s each", NOT_MET, "9 min in total, longest 6 min"),
        ("359.8 s each", NOT_MET, "9 min in total, longest 360.000 s"),
        ("9 min in total", MET, "9 min in total, longest 6 min"),
        ("8 min 59 s in total", NOT_MET, "9 min in total, longest 6 min"),
        ("539.8 s in total", NOT_MET, "540.000 s in total, longest 6 min"),
        (None, NOT_MET, "9 min in total, longest 6 min"),
    ],
)
def test_time_outside_the_range(allowed: str | None, outcome: str, actual: str) -> None:
    plan = spec_plan(f"excursion at most {allowed}" if allowed else "")
    judgement = run(plan, {"T2": TWICE}, seconds=1.0)
    bad = outcome == NOT_MET
    name = "time outside the hold range"
    check(Case(name, judgement, outcome, actual, FIRST if bad else "", ("T2",), 2))
    within = "" if bad else ", above for 9 min, within the allowance"
    peak = f"730.0 degC (T2) at {DAY} 11:00:01{within}; above the alarm 717 degC"
    check(Case("highest temperature", judgement, outcome, peak, FIRST if bad else "", ("T2",), 2))


def test_a_hold_just_at_the_foot_of_its_range() -> None:
    """Readings exactly 690 degC from 260 to 400 min; the lines that lead there are no excursion."""
    judgement = run(spec_plan(), points=held(690.0))
    check(Case("hold time", judgement, MET, f"2 h 20 min, {DAY} 10:20:00 to {DAY} 12:40:00"))
    check(Case("time outside the hold range", judgement, MET, "none"))
    peak = f"690.0 degC (T1) at {DAY} 10:20:00"  # of several as hot the first, when it first was
    check(Case("highest temperature", judgement, MET, peak))


@each_row(
    ("cold", "named"),
    [({"T2": 680.0, "T3": 680.0}, "680.0 degC (T2)"),
     ({"T2": 680.0, "T3": 679.0}, "679.0 degC (T3)"),
     ({"T2": 689.96}, "689.96 degC (T2)"), ({"T2": 690.0}, "")],
)  # fmt: skip
def test_the_lowest_of_a_hold_and_when(cold: dict[str, float], named: str) -> None:
    """Down for a minute each way from 300 min on, low from 301 to 304 min. In range from
    30 + 390/405 x 230 = 251 min 29 s to 560 + 15/415 x 240 = 568 min 40 s, less the time below."""
    long = (*GOOD[:3], (560.0, 705.0), (800.0, 290.0))
    courses = {
        tag: (*GOOD[:3], (300.0, 705.0), (301.0, to), (304.0, to), (305.0, 705.0), *long[3:])
        for tag, to in cold.items()
    }
    judgement = run(spec_plan("interrupted hold adds up"), courses, points=long)
    found = verdict(judgement, "hold time").actual
    assert found.count(f"{DAY} 10:11:29 to {DAY} 15:28:40") == 1
    assert found.endswith(f"; lowest {named} at {DAY} 11:01:00" if named else "15:28:40")
    assert (" in 2 pieces" in found) == bool(named)


def test_a_dip_is_told_with_its_times() -> None:
    """705 to 680 in a minute: 690 is passed after 36 s; back after 3 min, 24 s before 705 is."""
    dip = (*GOOD[:3], (300.0, 705.0), (301.0, 680.0), (304.0, 680.0), (305.0, 705.0), *GOOD[3:])
    more = "interrupted hold adds up\nexcursion at most "
    says = (
        f"T3 was down to 680.0 degC, range from 690 degC, for 3 min 48 s from {DAY} 11:00:36 to "
        f"{DAY} 11:04:24"
    )
    for allowed, outcome in (("3 min 48 s", MET), ("3 min 47 s", NOT_MET)):
        judgement = run(spec_plan(f"{more}{allowed} each"), {"T3": dip})
        actual = "3 min 48 s in total, longest 3 min 48 s"
        check(Case("time outside the hold range", judgement, outcome, actual,
                   says if outcome == NOT_MET else "", ("T3",)))  # fmt: skip


@pytest.mark.parametrize(
    ("to", "outcome", "shown"), [(775.0, MET, "775.0"), (775.04, NOT_MET, "775.04")]
)
def test_margin_below_critical(to: float, outcome: str, shown: str) -> None:
    plan = spec_plan("margin below lower critical 30 K\nexcursion at most 10 min in total")
    found = verdict(
        run(plan, {"T2": bump(2.0, to)}, seconds=1.0), "margin below lower critical temperature"
    )
    assert (found.verdict, found.actual) == (outcome, f"{shown} degC (T2) at {DAY} 11:00:01")
    assert [one.sentence.split(", for")[0] for one in found.failures] == (
        [] if outcome == MET
        else ["T2 was up to 775.04 degC, the limit by lower critical temperature is 775 degC"]
    )  # fmt: skip


@pytest.mark.parametrize(("to", "outcome"), [(720.0, MET), (720.04, NOT_MET)])
def test_top_of_the_range(to: float, outcome: str) -> None:
    found = verdict(run(spec_plan(), {"T2": held(to)}), "highest temperature")
    shown = "720.0" if outcome == MET else "720.04"
    assert found.verdict == outcome
    assert found.actual == f"{shown} degC (T2) at {DAY} 10:20:00; above the alarm 717 degC"


def test_spreads() -> None:
    """T1 is named before T3, which is as hot; zone top is T1 and T3, 50 mm apart."""
    plan, name = spec_plan("holding spread at most 10 K"), "spread during the hold"
    at = f"at {DAY} 10:18:00; zone top 0 K"
    check(Case(name, run(plan, {"T2": lower(10.0)}), MET, f"10.0 K (T1 to T2) {at}"))
    says = (
        "T1 was up to 10.04 K above T2, limit 10 K, for 2 h 24 min from "
        f"{DAY} 10:18:00 to {DAY} 12:42:00"
    )
    judgement = run(plan, {"T2": lower(10.04)})
    check(Case(name, judgement, NOT_MET, f"10.04 K (T1 to T2) {at}", says, ("T1", "T2")))
    plan = spec_plan("heating spread at most 20 K within 400 mm")
    name = "spread while heating and cooling"
    assert verdict(run(plan, {"T3": lower(20.0)}), name).verdict == MET
    found = verdict(run(plan, {"T3": lower(20.04)}), name)
    assert found.verdict == NOT_MET and found.specified == "at most 20 K within 400 mm"
    assert found.actual.startswith("20.04 K (T1 to T3) at ")
    assert found.actual.endswith("; zone top 20.04 K")


def test_start_and_end_of_the_record() -> None:
    def ends(at: float) -> Judgement:
        return run(spec_plan(), {"T2": ((0.0, at), *GOOD[1:-1], (640.0, at))})

    start, end = "start of the record", "end of the record"
    check(Case(start, ends(300.0), MET, f"begins {DAY} 06:00:00: T2 300.0 degC"))
    check(Case(end, ends(300.0), MET, f"ends {DAY} 16:40:00: T2 300.0 degC"))
    hot, at = ends(300.04), "T2 300.04 degC"
    began = f"when the record began at {DAY} 06:00:00"
    says = f"{at} already {began}; it had to begin at 300 degC or below"
    check(Case(start, hot, NOT_MET, f"begins {DAY} 06:00:00: {at}", says))
    says = f"{at} still when the record ended at {DAY} 16:40:00; it had to go on to 300 degC"
    check(Case(end, hot, NOT_MET, f"ends {DAY} 16:40:00: {at}", says))


@pytest.mark.parametrize(("rate", "outcome"), [(120.0, MET), (120.3, NOT_MET)])
def test_heating_rate(rate: float, outcome: str) -> None:
    top = 30.0 + 405.0 / rate * 60.0
    points = (*GOOD[:2], (top, 705.0), (top + 140.0, 705.0), (top + 380.0, 290.0))
    found = verdict(run(spec_plan(), points=points), "heating rate")
    shown = "120" if outcome == MET else "120.3"
    assert found.verdict == outcome
    assert found.actual.startswith(f"fastest {shown} degC/h (T1) from {DAY} ")
    assert [one.tags for one in found.failures] == (
        [] if outcome == MET else [("T1",), ("T2",), ("T3",)]
    )
    for one in found.failures:
        assert one.sentence.startswith(
            f"{one.tags[0]} rose 120.3 degC/h over 15 min, limit 120 degC/h"
        )


def test_slowest_rate() -> None:
    """390 K in 234 min are 100 degC/h; in 235, by the first reading that has risen so far, 99.6."""
    says = (
        "T1 rose only 99.6 degC/h from 300 degC to 690 degC, at least 100 degC/h is asked for, "
        f"from {DAY} 06:30:00 to {DAY} 10:25:00"
    )
    change = ("at most 120 degC/h\n  hold", "at most 120 degC/h at least 100 degC/h\n  hold")
    for top, outcome, shown in ((273.0, MET, "100"), (273.5, NOT_MET, "99.6")):
        points = (*GOOD[:2], (top, 705.0), (413.0, 705.0), (653.0, 290.0))
        bad = outcome == NOT_MET
        check(Case("slowest rate, step 2", run(spec_plan("", change), points=points), outcome,
                   f"{shown} degC/h (T1)", says if bad else "", ("T1",), 3))  # fmt: skip


@each_row(
    ("asked", "share", "outcome", "shown"),
    [
        ("at least 50 %", 0.5, MET, "50 to 50"),
        ("at least 50 %", 0.4996, NOT_MET, "49.96 to 49.96"),
        ("at most 60 %", 0.6, MET, "60 to 60"),
        ("at most 60 %", 0.6004, NOT_MET, "60.04 to 60.04"),
    ],
)
def test_share_of_the_hold(asked: str, share: float, outcome: str, shown: str) -> None:
    part = tuple((minutes, degrees * share) for minutes, degrees in GOOD)
    judgement = run(spec_plan(f"share of hold {asked} at heated edge"), {"T4": part})
    says = "" if outcome == MET else f"T4 was at {shown} % of the lowest required reading"
    name = "share of the hold at the heated edge"
    check(Case(name, judgement, outcome, f"T4 {shown} %", says, ("T4",)))
    if says:  # from 30 + 390/405 x 230 min, when all were in range, to 400 + 15/415 x 240 min
        (one,) = verdict(judgement, name).failures
        assert one.start == pytest.approx(15088.9, abs=0.1)
        assert one.end == pytest.approx(24520.5, abs=0.1)


def test_mean_of_the_hold() -> None:
    """T3 at 692, the others at 705 degC: half their sum is 698.5. At 259 min, all in range, they
    were at 703.2 and 690.3. T1 and T2 at 719 and T3 at 705: a third of the sum is 714.33."""
    name = "mean of the hold, highest and lowest"
    for low, outcome, shown in (("698.5", MET, "2 h 20 min"), ("698.6", NOT_MET, "0 s")):
        plan = spec_plan(f"mean of hold {low} .. 715 degC of highest and lowest")
        says = f"the mean of highest and lowest was in {low} .. 715 degC for 0 s of 2 h"
        check(Case(name, run(plan, {"T3": held(692.0)}), outcome,
                   f"{shown}; between 696.8 degC and 698.5 degC",
                   "" if outcome == MET else says))  # fmt: skip
    plan = spec_plan("mean of hold 695 .. 714.3 degC of all")
    found = verdict(run(plan, {"T1": held(719.0), "T2": held(719.0)}), "mean of the hold, all")
    assert found.failures[0].sentence == (
        "the mean of all was up to 714.33 degC, at most 714.3 degC, for 2 h 20 min 2 s from "
        f"{DAY} 10:19:59 to {DAY} 12:40:01"
    )


def test_nearby() -> None:
    """To 450.04 degC in 300 min and to 20 in 340 min: above 450 for 1.7 and 1.9 s."""
    plan, name = file_plan("p22-header.hts"), "temperature of instrument tapping, NPS 1 (T12)"
    for to, outcome, shown in ((450.0, MET, "450.0"), (450.04, NOT_MET, "450.04")):
        judgement = run(plan, {"T12": ((0.0, 20.0), (300.0, to), (640.0, 20.0))})
        says = (
            "T12 was up to 450.04 degC, the limit for instrument tapping, NPS 1 is 450 degC, for "
            f"4 s from {DAY} 10:59:58 to {DAY} 11:00:02"
        )
        check(Case(name, judgement, outcome, f"{shown} degC (T12) at {DAY} 11:00:00",
                   "" if outcome == MET else says, ("T12",)))  # fmt: skip


def test_one_the_clock_does_not_hang_on_keeps_the_range_all_the_same() -> None:
    """T3 only watches the edge where the controlling ones count: the clock goes on, and the range
    is that of every required one."""
    dip = (*GOOD[:3], (300.0, 705.0), (301.0, 680.0), (304.0, 680.0), (305.0, 705.0), *GOOD[3:])
    judgement = run(spec_plan("hold counts while controlling in range"), {"T3": dip})
    # 3 min and, either side, 10 of the 25 K of a minute.
    says = (
        f"T3 was down to 680.0 degC, range from 690 degC, for 3 min 48 s from {DAY} 11:00:36 "
        f"to {DAY} 11:04:24"
    )
    actual = "3 min 48 s in total, longest 3 min 48 s"
    check(Case("time outside the hold range", judgement, NOT_MET, actual, says, ("T3",)))
    # From 30 + 390/405 x 230 to 400 + 15/415 x 240 min, on end.
    check(Case("hold time", judgement, MET, f"2 h 37 min 12 s, {DAY} 10:11:29 to {DAY} 12:48:40"))


@pytest.mark.parametrize(("comes", "outcome"), [(20.0, MET), (100.0, MET), (1000.0, NOT_MET)])
def test_one_the_clock_does_not_hang_on_may_come_late_but_has_to_come(
    comes: float, outcome: str
) -> None:
    """So many minutes after the controlling ones, or never."""
    late = (*GOOD[:2], (260.0, 680.0), (260.0 + comes, 680.0), (270.0 + comes, 700.0), *GOOD[3:])
    plan = spec_plan("hold counts while controlling in range")
    course = late if comes < 500 else (*GOOD[:2], (260.0, 680.0), (400.0, 680.0), GOOD[-1])
    found = verdict(run(plan, {"T3": course}), "time outside the hold range")
    assert found.verdict == outcome


@pytest.mark.parametrize(
    ("nearby", "judged"),
    [
        ("at most 200 degC", True),
        ("at most 200 degC removed", False),  # taken away before heating
        ("removed", False),
    ],
)
def test_only_what_is_there_and_limited_is_judged_nearby(nearby: str, judged: bool) -> None:
    line = f'  nearby "valve" 1 m upstream {nearby}\n'
    found = run(spec_plan("", ("  axis horizontal\n", f"  axis horizontal\n{line}"))).verdicts
    mine = [one for one in found if one.requirement == "temperature of valve"]
    assert [(one.verdict, one.actual) for one in mine] == (
        [(NOT_SHOWN, "nothing recorded watches it")] if judged else []
    )
