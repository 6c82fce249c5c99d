"""What the text says is done: each action of each interruption, each guard band with each way a
hold counts. Expected outcomes are worked by hand from the courses; common practice, no source.
"""

from __future__ import annotations

import numpy as np
import pytest

from hts.record.judging import CONDITIONAL, MET, NOT_MET, NOT_SHOWN, judge
from hts.record.record import POWER_BACK, POWER_LOST, REPLACED, Event
from tests.record.judging.made import GOOD, MINUTE, Points, course, every, record, run, spec_plan
from tests.record.judging.made import verdict as verdict_on

#: From 335 degC 20 minutes at 240 degC/h, twice what is allowed, then on as GOOD goes.
FAST: Points = (*GOOD[:2], (50.0, 335.0), (70.0, 415.0), *GOOD[2:])
#: The same, then cooled to where control starts, and begun again.
AGAIN: Points = (*FAST[:4], (140.0, 290.0), (400.0, 705.0), (540.0, 705.0), (780.0, 290.0))
#: Fast to the last row.
TO_THE_END: Points = FAST[:4]


@pytest.mark.parametrize(
    ("action", "points", "outcome"),
    [
        ("resume at the allowed rate", FAST, MET),
        ("resume at the allowed rate", TO_THE_END, NOT_MET),
        ("stop and ask", FAST, NOT_SHOWN),
        ("restart the cycle", FAST, NOT_MET),
        ("restart the cycle", AGAIN, MET),
    ],
)
def test_over_rate(action: str, points: Points, outcome: str) -> None:
    judgement = run(spec_plan(f"on over-rate {action}"), points=points)
    assert verdict_on(judgement, "over-rate").verdict == outcome
    # Whatever is done then, the rate itself was over its limit.
    assert verdict_on(judgement, "heating rate").verdict == NOT_MET
    assert judgement.overall == NOT_MET


def test_no_over_rate_where_none_was_too_fast() -> None:
    judgement = run(spec_plan("on over-rate restart the cycle"))
    assert "over-rate" not in {one.requirement for one in judgement.verdicts}


#: Half an hour without power in the hold: down to 600 degC, back at 100 degC/h, held on.
CUT: Points = (*GOOD[:3], (320.0, 705.0), (350.0, 600.0), (413.0, 705.0), (560.0, 705.0),
               (800.0, 290.0))  # fmt: skip
#: The same, cooled to where control starts and begun again.
ANEW: Points = (*GOOD[:3], (320.0, 705.0), (350.0, 600.0), (530.0, 290.0), (780.0, 705.0),
                (920.0, 705.0), (1160.0, 290.0))  # fmt: skip
OFF = (Event(POWER_LOST, 320 * MINUTE), Event(POWER_BACK, 350 * MINUTE))


@pytest.mark.parametrize(
    ("rule", "points", "outcome"),
    [
        ("resume at the present temperature", CUT, MET),
        ("resume at the present temperature within 30 min", CUT, MET),
        ("resume at the present temperature within 29 min", CUT, NOT_MET),
        ("restart the cycle", CUT, NOT_MET),
        ("restart the cycle", ANEW, MET),
        ("ask the engineer", CUT, NOT_SHOWN),
        ("", CUT, NOT_SHOWN),
    ],
)
def test_power_loss(rule: str, points: Points, outcome: str) -> None:
    plan = spec_plan(f"on power loss {rule}" if rule else "")
    assert verdict_on(run(plan, points=points, events=OFF), "power loss").verdict == outcome


@pytest.mark.parametrize(
    ("rule", "by", "outcome"),
    [
        ("change to the spare", "T1S", MET),
        ("change to the spare", "T3", NOT_MET),  # not its spare
        ("stop and repair", "T1S", NOT_SHOWN),
        ("ask the engineer", "T1S", NOT_SHOWN),
        ("", "T1S", NOT_SHOWN),
    ],
)
def test_thermocouple_loss(rule: str, by: str, outcome: str) -> None:
    plan = spec_plan(f"on thermocouple loss {rule}" if rule else "")
    judgement = run(plan, events=[Event(REPLACED, 300 * MINUTE, "T1", by)])
    assert verdict_on(judgement, "thermocouple loss").verdict == outcome
    assert (judgement.overall == MET) == (outcome == MET)


@pytest.mark.parametrize("rule", ["change to the spare", "stop and repair", "ask the engineer"])
def test_lost_without_a_word(rule: str) -> None:
    """T1 blank for 40 minutes of the hold, and nothing noted: no rule makes that met."""
    plan = spec_plan(f"on thermocouple loss {rule}")
    times = every(60.0, GOOD[-1][0])
    courses = {one.tag: course(GOOD, times) for one in plan.watched}
    courses["T1"][(times > 300 * MINUTE) & (times < 340 * MINUTE)] = np.nan
    judgement = judge(record(courses, times), plan)
    assert verdict_on(judgement, "thermocouple loss").verdict == NOT_SHOWN
    assert judgement.overall != MET


#: 140 min of hold with 40 of them at 680 degC: 60 + 60 min less the ways down and up.
DIP: Points = (*GOOD[:3], (335.0, 705.0), (340.0, 680.0), (350.0, 680.0), (355.0, 705.0),
               (430.0, 705.0), (670.0, 290.0))  # fmt: skip
#: Held at 691.5 degC: in the range, but within the uncertainty of its lower limit.
LOW: Points = (*GOOD[:2], (260.0, 691.5), (400.0, 691.5), (640.0, 290.0))


@pytest.mark.parametrize(
    ("guard", "drawn_in"),
    [("none", None), ("expanded uncertainty", CONDITIONAL), ("one-sided 95 %", CONDITIONAL)],
)
@pytest.mark.parametrize(
    ("counts", "whole", "dipped"),
    [("adds up", MET, MET), ("starts again", MET, NOT_MET), ("", MET, NOT_MET)],
)
def test_the_hold_by_guard_band_and_how_it_counts(
    guard: str, drawn_in: str | None, counts: str, whole: str, dipped: str
) -> None:
    """2 h are asked for. GOOD is in the range for 157 min on end, far from its limits; DIP for 75
    and 75 min and some, with 17 min between; LOW for 140 min, 1.5 K above the limit, where 3.0 K
    (one-sided) and 3.7 K (expanded) are kept free."""
    words = f"guard band {guard}\n" + (f"interrupted hold {counts}\n" if counts else "")
    plan = spec_plan(words)
    for points, plain, strict in (
        (GOOD, whole, whole),
        (DIP, dipped, dipped),
        (LOW, MET, drawn_in),
    ):
        found = verdict_on(run(plan, points=points), "hold time")
        assert found.verdict == plain
        assert found.guarded == (None if drawn_in is None else strict)
