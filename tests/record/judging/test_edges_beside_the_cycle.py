"""The same of what lies beside the cycle: welding, insulation, power, readings."""

from __future__ import annotations

import pytest

from hts.record.judging import MET, NOT_MET, NOT_SHOWN, Judgement, judge
from hts.record.record import (
    INSULATION_OPENED,
    NOTE,
    POWER_BACK,
    POWER_LOST,
    Event,
    Jump,
)
from tests.record.judging.made import (
    GOOD,
    HOUR,
    MINUTE,
    Points,
    course,
    every,
    record,
    run,
    spec_plan,
    verdict,
)
from tests.record.judging.test_edges import DAY, Case, check
from tests.record.judging.test_papers import PREHEAT, WITH_PREHEAT
from tests.rows import each_row

UNKNOWN = "the record does not tell"


@each_row(
    ("ended", "outcome", "actual", "says"),
    [
        (-24 * HOUR, MET, "24 h", ""),
        (-24 * HOUR - 0.3, NOT_MET, "86400.300 s",
         "heating began 86400.300 s after the end of welding"),
        (-25 * HOUR, NOT_MET, "25 h", "heating began 25 h after the end of welding"),
        (0.0, MET, "0 s", ""),
        # In the record: 300 degC, where control starts, is reached at 30 min.
        (10 * MINUTE, MET, "heating was under control 20 min after the end of welding", ""),
        (30 * MINUTE, MET, "heating was under control 0 s after the end of welding", ""),
        (31 * MINUTE, NOT_SHOWN, UNKNOWN, ""),
    ],
)  # fmt: skip
def test_delay(ended: float, outcome: str, actual: str, says: str) -> None:
    judgement = run(
        spec_plan("begin within 24 h"), events=[Event(NOTE, ended, text="end of welding")]
    )
    check(Case("delay before heat treatment", judgement, outcome, actual, says))


@pytest.mark.parametrize(("hours", "outcome"), [(20.0, MET), (25.0, NOT_MET)])
def test_what_a_procedure_says_of_the_wait_is_asked_where_the_cycle_is_silent(
    hours: float, outcome: str
) -> None:
    procedure = (
        "job ",
        'procedure P-1 "invented" {\n  revision 1 on 2026-01-01 status for construction\n'
        "  delay before heat treatment at most 24 h\n"
        "  temperature before heat treatment at most 280 degC\n}\njob ",
    )
    plan = spec_plan("", procedure, ("  governed by", "  follows P-1\n  governed by"))
    judgement = run(plan, events=[Event(NOTE, -hours * HOUR, text="End of welding")])
    assert verdict(judgement, "delay before heat treatment").verdict == outcome
    assert verdict(judgement, "cooled before heat treatment").verdict == MET


def test_a_long_wait_between_welding_and_heating_within_one_record_is_not_called_met() -> None:
    """Welding ended at 10 min, control starts at 600 min: 9 h 50 min, and when heating began in
    between nobody knows."""
    late = ((0.0, 20.0), (570.0, 20.0), *((570.0 + m, d) for m, d in GOOD[1:]))
    events = [Event(NOTE, 10 * MINUTE, text="end of welding")]
    for allowed, outcome in (("9 h 50 min", MET), ("9 h", NOT_SHOWN)):
        judgement = run(spec_plan(f"begin within {allowed}"), points=late, events=events)
        found = verdict(judgement, "delay before heat treatment")
        assert (found.verdict, found.elsewhere) == (outcome, outcome == NOT_SHOWN)


@pytest.mark.parametrize(
    ("first", "outcome", "actual"),
    [(79.96, MET, "begins at 79.96 degC"), (79.0, MET, "begins at 79.0 degC"),
     (80.0, NOT_SHOWN, UNKNOWN)],
)  # fmt: skip
def test_cooled_before(first: float, outcome: str, actual: str) -> None:
    judgement = run(spec_plan("first cool below 80 degC"), points=((0.0, first), *GOOD[1:]))
    check(Case("cooled before heat treatment", judgement, outcome, actual))


@each_row(
    ("at", "outcome", "actual"),
    [
        # 705 - 415/240 x 199 = 360.90 degC at 599 min, 359.17 at 600, 353.98 at 603 min.
        (599 * MINUTE, NOT_MET, "opened at 360.9 degC"),
        (600 * MINUTE - 1, NOT_MET, "opened at 360.9 degC"),  # the last reading before
        (600 * MINUTE, MET, "opened at 359.2 degC"),
        (603 * MINUTE + 59, MET, "opened at 354.0 degC"),
        (0.0, MET, "opened at 250.0 degC"),
        (1.0, MET, "opened at 250.0 degC"),
        (-1.0, NOT_SHOWN, UNKNOWN),
    ],
)
def test_insulation(at: float, outcome: str, actual: str) -> None:
    plan = spec_plan("remove insulation below 360 degC")
    earlier = [Event(INSULATION_OPENED, at - 60.0), Event(INSULATION_OPENED, at)]
    says = {
        599.0: f"the insulation was opened at {DAY} 15:59:00 at 360.9 degC",
        600 - 1 / 60: f"the insulation was opened at {DAY} 15:59:59 at 360.9 degC",
    }.get(at / MINUTE, "")
    check(Case("insulation", run(plan, events=earlier), outcome, actual, says))


KEPT: Points = ((0.0, 20.0), (60.0, 160.0), (360.0, 160.0), (480.0, 40.0))
WELDED = Event(NOTE, 350 * MINUTE, text="end of welding")


def test_preheat_maintained() -> None:
    """160 to 140 degC and back in 10 min each: 150 is passed after 5 min each time."""
    plan, name = spec_plan("", (PREHEAT, WITH_PREHEAT), cycle="preheat"), "preheat maintained"

    def lapse(to: float) -> Judgement:
        dip = (*KEPT[:2], (200.0, 160.0), (210.0, to), (220.0, 160.0), *KEPT[2:])
        return run(plan, {"T2": dip}, events=[WELDED], points=KEPT)

    check(Case(name, lapse(150.0), MET, f"0 lapses to {DAY} 11:50:00"))
    says = f"T2 was below 150 degC for 10 min from {DAY} 09:25:00 to {DAY} 09:35:00"
    check(Case(name, lapse(140.0), NOT_MET, f"1 lapse to {DAY} 11:50:00", says, ("T2",)))
    assert verdict(lapse(149.9), name).verdict == NOT_MET


def test_greatest_preheat() -> None:
    """From 160 degC at 60 min to 252 at 90 min, back at 110 min: 250 degC is passed 39.1 s before
    90 min and 26.1 s after."""
    text = WITH_PREHEAT.replace("  interpass ", "  at most          250 degC\n  interpass ")
    plan, name = spec_plan("", (PREHEAT, text), cycle="preheat"), "greatest preheat"

    def hot(to: float, arc: float = 120.0) -> Judgement:
        points = (*KEPT[:2], (90.0, to), (110.0, 160.0), *KEPT[2:])
        notes = [Event(NOTE, arc * MINUTE, text="start of welding"), WELDED]
        return run(plan, {"T2": points}, events=notes, points=KEPT)

    none = "nothing above it before the first arc"
    check(Case(name, hot(250.0), MET, none))
    says = (
        f"T2 was up to 252.0 degC, the greatest preheat is 250 degC, for 1 min 5 s from "
        f"{DAY} 07:29:21 to {DAY} 07:30:26"
    )
    check(Case(name, hot(252.0), NOT_MET, says, says, ("T2",)))
    check(Case(name, hot(252.0, 89.0), MET, none))
    found = verdict(hot(250.04), name)
    assert found.verdict == NOT_MET and "250.04 degC" in found.actual


def test_kept_hot() -> None:
    """170 to 148 degC in 10 min, then 3.8 K/min: below 150 from 9 min 5 s to 10 min 32 s."""
    plan = spec_plan("begins from preheat", (PREHEAT, WITH_PREHEAT), cycle="stress-relief")

    def dip(to: float) -> Judgement:
        return run(plan, points=((0.0, 170.0), (10.0, to), (50.0, 300.0), *GOOD[2:]))

    name = "kept hot before"
    check(Case(name, dip(150.0), MET, f"never below from {DAY} 06:00:00 on"))
    says = f"T1 was below 150 degC for 1 min 26 s from {DAY} 06:09:05 to {DAY} 06:10:32"
    check(Case(name, dip(148.0), NOT_MET, says, says, ("T1",), 3))


@pytest.mark.parametrize(
    ("seconds", "outcome", "shown"),
    [(7200.0, MET, "2 h"), (7200.3, NOT_MET, "7200.300 s"), (7201.0, NOT_MET, "2 h 0 min 1 s")],
)
def test_power_loss(seconds: float, outcome: str, shown: str) -> None:
    start = 100 * MINUTE
    events = (Event(POWER_LOST, start), Event(POWER_BACK, start + seconds))
    plan = spec_plan("on power loss resume at the present temperature within 2 h")
    back = "09:40:01" if seconds > 7200.5 else "09:40:00"
    says = (
        f"the power was off for {shown} from {DAY} 07:40:00 to {DAY} {back}, 2 h is the most to "
        "resume after"
    )
    check(Case("power loss", run(plan, events=events), outcome, f"1 noted, longest {shown}",
               "" if outcome == MET else says))  # fmt: skip


def test_gaps_and_seldom_readings() -> None:
    plan, times = spec_plan(), every(1.0, 640.0)
    for gap, outcome in ((180.0, MET), (181.0, NOT_SHOWN)):
        kept = times[((times <= 1800.0) & (times % 60 == 0)) | ((times - 1800.0 - gap) % 60 == 0)]
        kept = kept[(kept <= 1800.0) | (kept >= 1800.0 + gap)]
        kept = kept[(kept > 1800.0) | (kept % 60 == 0)]
        judgement = judge(record({o.tag: course(GOOD, kept) for o in plan.watched}, kept), plan)
        says = (
            f"no readings for 3 min 1 s from {DAY} 06:30:00 to {DAY} 06:33:01: the recorder did "
            "not write, or its clock was set ahead"
        )
        bad = outcome != MET
        actual = "every 1 min, 1 gap" if bad else "every 1 min"
        check(Case("readings", judgement, outcome, actual, says if bad else ""))
    assert verdict(run(plan, seconds=60.5), "readings").verdict == MET  # stamps to the second
    judgement = run(plan, seconds=61.0)
    says = "readings come every 1 min 1 s, 1 min is asked for"
    check(Case("readings", judgement, NOT_MET, "every 1 min 1 s", says))


def test_a_clock_that_was_set() -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    made = record({one.tag: course(GOOD, times) for one in plan.watched}, times)
    both = (Jump(600.0, 60.0), Jump(900.0, -30.0))
    judgement = judge(made._replace(jumps=both), plan)
    # By the clock as it was after it was set: 10 min and the one it gained.
    says = f"the clock was set forward by 1 min at {DAY} 06:11:00"
    check(Case("clock of the record", judgement, NOT_SHOWN, "set 2 times", says, (), 2))
    judgement = judge(made._replace(jumps=both[1:]), plan)
    says = f"the clock was set back by 30 s at {DAY} 06:14:30"
    check(Case("clock of the record", judgement, NOT_SHOWN, "set once", says))
