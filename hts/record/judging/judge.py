"""One record against one plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from hts.record.judging import (
    beyond_readings,
    cooling_faults,
    coverage,
    excursions,
    hold_verdicts,
    hydrogen,
    instruments,
    interruptions,
    kept_hot,
    mean_of_hold,
    measurement,
    preheating,
    rates,
    right_run,
    shares,
    slowest,
    spreads,
    temperatures,
    time_at_temperature,
)
from hts.record.judging.evidence import Evidence
from hts.record.judging.guard import Guard, guard
from hts.record.judging.hold_clocks import clocks, held, segments
from hts.record.judging.judgement import Judgement
from hts.record.judging.moving import Moved, all_moved
from hts.record.judging.verdict import HoldClock, Verdict
from hts.record.plan import COOL, HEAT, Plan
from hts.record.record import Record

if TYPE_CHECKING:
    from hts.record.faults import Fault


def judge(
    record: Record,
    plan: Plan,
    faults: tuple[Fault, ...] = (),
    today: str | None = None,
    against: tuple[str, ...] = (),
) -> Judgement:
    """Every requirement of the plan that a record can speak to.

    `record` is without the readings that `faults` set aside (hts.record.faults.apply). `today`
    (ISO date) stands for the day of a record that has none. `against` are sentences on what the
    logs say of another document or revision (hts.record.belonging).
    """
    return judged(Evidence(record, plan, faults), today, against)


def judged(
    evidence: Evidence, today: str | None = None, against: tuple[str, ...] = ()
) -> Judgement:
    """The same of the evidence of a run."""
    return next(judged_together([evidence], today, [against]))


def judged_together(
    runs: Sequence[Evidence], today: str | None, against: Sequence[tuple[str, ...]]
) -> Iterator[Judgement]:
    """The same of several runs, in their order: what their rates hang on is made out for all at
    once, which takes a third of the time it takes one by one."""
    running = [clocks(run, held(run.plan)) for run in runs]
    moved = all_moved(list(zip(runs, running, strict=True)))
    for run, its_clocks, its_moved, said in zip(runs, running, moved, against, strict=True):
        yield _judged(run, today, its_clocks, its_moved, said)


def _judged(
    evidence: Evidence,
    today: str | None,
    running: list[HoldClock],
    moved: Moved,
    against: tuple[str, ...],
) -> Judgement:
    record, plan = evidence.record, evidence.plan
    band = guard(plan)
    holds = held(plan)
    drawn_in = clocks(evidence, holds, band.width) if band.width else running
    top = max((hold.high for hold in holds), default=None)
    hot = excursions.above_range(evidence, top) if top is not None else []
    changing = rates.verdicts(evidence, running, moved)
    at_fault = cooling_faults.found(evidence, running, rates.too_fast(changing, COOL))
    verdicts: list[Verdict | None] = [
        right_run.verdict(evidence, holds, against),
        *coverage.verdicts(evidence),
        measurement.verdict(evidence),
        *changing,
        *slowest.verdicts(evidence),
        *hold_verdicts.verdicts(evidence, holds, running, drawn_in, band),
        *mean_of_hold.verdicts(evidence, running, band),
        excursions.verdict(evidence, running, hot),
        temperatures.highest(evidence, running, hot, band),
        *temperatures.critical(evidence, band),
        *spreads.verdicts(evidence, running),
        *shares.verdicts(evidence, running),
        *preheating.verdicts(evidence, running),
        *kept_hot.verdicts(evidence, running),
        *hydrogen.verdicts(evidence),
        *temperatures.nearby(evidence),
        *interruptions.verdicts(evidence, running, rates.too_fast(changing, HEAT), at_fault),
        *cooling_faults.verdicts(evidence, running, at_fault),
        *time_at_temperature.verdicts(evidence, running),
        *instruments.verdicts(evidence, today),
        *beyond_readings.verdicts(evidence),
    ]
    return Judgement(
        record,
        plan,
        evidence.faults,
        tuple(verdict for verdict in verdicts if verdict is not None),
        tuple(running),
        tuple(segments(evidence, plan, running)),
        _assumed(record, plan, band),
        evidence,
    )


def _assumed(record: Record, plan: Plan, band: Guard) -> tuple[str, ...]:
    """What judging supposes where the specification is silent."""
    found = []
    if plan.window.why.basis == "practice":
        found.append(
            f"rates are judged over {plan.window.written}, common practice without a source: "
            "the specification states no window"
        )
    if any(span.limit is not None for span in plan.spans):
        found.append(
            "rates are those of the straight stretches the readings lie on, with corners where "
            "they bend by more than their noise: noise is not a rate"
        )
    if plan.stated("interrupted_hold") is None and plan.holds:
        found.append("an interrupted hold starts again: the specification does not say it adds up")
    if plan.stated("hold_count") is None and plan.holds:
        found.append("the hold counts while all required are in range: the specification is silent")
    if band.lacks:
        lacks = " and ".join(band.lacks)
        found.append(f"there is no guard band: the specification gives no error of the {lacks}")
    elif band.rule is not None:
        found.append(f"limits of temperature are drawn in by {band.width:.2f} K ({band.rule})")
    return tuple(found)
