"""Events of the run held to their rules: which belong together, and what is said of them."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import HEATER_LOSS
from hts.record.judging import MET, NOT_MET, NOT_SHOWN, Judgement, judge
from hts.record.record import (
    HEATER_BACK,
    HEATER_LOST,
    POWER_BACK,
    POWER_LOST,
    REPLACED,
    Event,
)
from tests.record.judging.made import GOOD, MINUTE, Points, course, every, record, run, spec_plan
from tests.record.judging.made import verdict as of
from tests.rows import each_row

DAY = "2026-11-21"
ADJUST = "on heater loss adjust neighbouring heaters"
REPLACE = "on heater loss replace"


def seen(begin: float, end: float, *, over: bool = True, zone: str = "top") -> Fault:
    """The readings tell of a zone without heat, from and to in minutes."""
    return Fault(HEATER_LOSS.name, "T1", ("T3",), begin * MINUTE, end * MINUTE, "cooled", "high",
                 "kept", zone=zone, over=over)  # fmt: skip


def lost(
    begin: float, end: float | None = None, zone: str = "top", back: str = "top"
) -> list[Event]:
    events = [Event(HEATER_LOST, begin * MINUTE, zone=zone)]
    return events + ([Event(HEATER_BACK, end * MINUTE, zone=back)] if end is not None else [])


def heated(rule: str, events: list[Event], *faults: Fault) -> Judgement:
    plan, times = spec_plan(rule), every(60.0, 640.0)
    made = record({one.tag: course(GOOD, times) for one in plan.watched}, times, events)
    return judge(made, plan, faults)


SAID = f"zone top was without heaters at {DAY} 11:00:00"
SEEN = f"zone top lost its heat at {DAY} 11:00:00"


@each_row(
    ("rule", "events", "faults", "actual", "says"),
    [
        (ADJUST, lost(300, 310), [], f"{SAID} for 10 min", []),
        (ADJUST, lost(300), [], SAID, []),
        (REPLACE, lost(300, 310), [], f"{SAID} for 10 min", []),
        (REPLACE, lost(300), [], SAID, [f"{SAID}, and no event says that it was replaced"]),
        ("", lost(300), [], SAID, [f"{SAID}, and the specification declares no rule for it"]),
        # Back without a zone, or of another: it can only be of the one that is lost.
        (REPLACE, lost(300, 310, back=""), [], f"{SAID} for 10 min", []),
        (ADJUST, lost(300, zone="left", back="left"), [],
         f"zone left was without heaters at {DAY} 11:00:00",
         ["a heater of zone left was noted as lost, and there is no such zone"]),
        # Readings that tell of one nobody noted.
        (ADJUST, [], [seen(300, 310)], f"{SEEN} for 10 min", []),
        (REPLACE, [], [seen(300, 310)], f"{SEEN} for 10 min",
         [f"{SEEN} for 10 min, and no event says what was done"]),
        (ADJUST, [], [seen(300, 640, over=False)], SEEN,
         [f"{SEEN}, cooled without it, and no event says so"]),
        ("", [], [seen(300, 640, over=False)], SEEN,
         [f"{SEEN}, cooled without it, and no event says so"]),
        # Of two, one noted: the other one is still open.
        (REPLACE, lost(300, 310), [seen(300, 310), seen(400, 410)], f"{SAID} for 10 min",
         [f"zone top lost its heat at {DAY} 12:40:00 for 10 min, and no event says what was done"]),
        # Noted as lost for half an hour before the readings tell of it at the most, and so after.
        (REPLACE, lost(300, 310), [seen(340, 350)], f"{SAID} for 10 min", []),
        (REPLACE, lost(300, 310), [seen(260, 270)], f"{SAID} for 10 min", []),
        (REPLACE, lost(300, 310), [seen(341, 350)], f"{SAID} for 10 min",
         [f"zone top lost its heat at {DAY} 11:41:00 for 9 min, and no event says what was done"]),
        (REPLACE, lost(300, 310), [seen(300, 310, zone="bottom")], f"{SAID} for 10 min",
         [f"zone bottom lost its heat at {DAY} 11:00:00 for 10 min, and no event says what was "
          "done"]),
        (ADJUST, lost(300), [seen(300, 640, over=False)], SAID,
         [f"{SAID}, and its neighbours did not keep it warm"]),
    ],
)  # fmt: skip
def test_heaters(
    rule: str, events: list[Event], faults: list[Fault], actual: str, says: list[str]
) -> None:
    found = of(heated(rule, events, *faults), "heater loss")
    assert (found.actual, [one.sentence for one in found.failures]) == (actual, says)
    assert found.verdict == (NOT_SHOWN if says else MET)


def test_heaters_of_which_nothing_is_asked() -> None:
    """No rule and heat again; and a loss of power, which has a rule of its own."""
    names = [one.requirement for one in heated("", [], seen(300, 310)).verdicts]
    assert "heater loss" not in names
    power = [Event(POWER_LOST, 300 * MINUTE), Event(POWER_BACK, 310 * MINUTE)]
    cut = heated(REPLACE, power, seen(300, 310))
    assert of(cut, "heater loss").failures == ()
    apart = heated(REPLACE, power, seen(311, 320))
    assert len(of(apart, "heater loss").failures) == 1


@each_row(("down", "outcome"), [(300.0, MET), (300.5, NOT_MET)])
@each_row("rule", ["power loss", "over-rate"])
def test_begun_again_from_where_control_starts(rule: str, down: float, outcome: str) -> None:
    """20 min at 240 degC/h or a loss of power, then down to where the cycle begins, or nearly."""
    points: Points = (*GOOD[:2], (50.0, 335.0), (70.0, 415.0), (140.0, down), (400.0, 705.0),
                      (540.0, 705.0), (780.0, 290.0))  # fmt: skip
    events = [Event(POWER_LOST, 70 * MINUTE), Event(POWER_BACK, 80 * MINUTE)]
    judgement = run(
        spec_plan(f"on {rule} restart the cycle"),
        points=points, events=events if rule == "power loss" else [],
    )  # fmt: skip
    found = of(judgement, rule)
    assert found.verdict == outcome
    for one in found.failures:
        assert one.sentence.endswith("; the cycle was not begun again at 300 degC or below")


def test_several_cuts_are_judged_by_the_worst_and_told_by_the_longest() -> None:
    cuts = [(100, 160), (200, 330), (400, 410)]
    events = [
        Event(kind, at * MINUTE)
        for cut in cuts for kind, at in zip((POWER_LOST, POWER_BACK), cut, strict=True)
    ]  # fmt: skip
    found = of(run(spec_plan("on power loss resume at the present temperature within 2 h"),
                   events=events), "power loss")  # fmt: skip
    assert (found.verdict, found.actual) == (NOT_MET, "3 noted, longest 2 h 10 min")
    (one,) = found.failures
    assert (one.start, one.end) == (200 * MINUTE, 330 * MINUTE)
    found = of(run(spec_plan(), events=events), "power loss")
    assert (found.verdict, found.actual) == (NOT_SHOWN, "3 noted")
    assert found.failures[0].sentence == (
        f"power loss at {DAY} 07:40:00, and the specification declares no rule for it"
    )


def test_thermocouples_that_were_lost_and_replaced() -> None:
    plan, times = spec_plan("on thermocouple loss change to the spare"), every(60.0, 640.0)
    courses = {one.tag: course(GOOD, times) for one in plan.watched}
    away = (times >= 300 * MINUTE) & (times <= 310 * MINUTE)
    courses["T2"] = np.where(away, np.nan, courses["T2"])
    found = of(judge(record(courses, times), plan), "thermocouple loss")
    # The last reading is that of 299 min and the next that of 311.
    assert (found.verdict, found.actual) == (NOT_SHOWN, "T2 lost")
    assert found.failures[0].sentence == (
        f"T2 was lost for 12 min from {DAY} 10:59:00 to {DAY} 11:11:00 and no event says that "
        "anything took its place"
    )
    for by, says in (("T1S", ""), ("T4", ", but is not its spare")):
        event = Event(REPLACED, 200 * MINUTE, "T1", by)
        found = of(run(plan, events=[event]), "thermocouple loss")
        told = f"{by} took over from T1 at {DAY} 09:20:00"
        assert found.actual == told
        assert [one.sentence for one in found.failures] == ([told + says] if says else [])
