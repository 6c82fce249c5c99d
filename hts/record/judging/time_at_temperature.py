"""Time at temperature against what the qualification covers, and what the whole run was worth."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import Quantity
from hts.job.compiler.program import CYCLE
from hts.job.compiler.steps import HOLD
from hts.job.compiler.why import Why, stated
from hts.job.demands.asked import Asked
from hts.language.vocabulary.joint import Qualified
from hts.record.judging.evidence import Evidence
from hts.record.judging.figures_without_limit import worth_of
from hts.record.judging.hold_verdicts import at_temperature
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    SAME_TIME,
    Failure,
    HoldClock,
    Outcome,
    Verdict,
)
from hts.record.judging.words import apart, time
from hts.science.metallurgy.qualification import ORIGIN, longest_production
from hts.science.metallurgy.tempering import hours_at, total

_HOUR = 3600


def verdicts(evidence: Evidence, clocks: list[HoldClock]) -> list[Verdict]:
    """All treatments together against each qualification with toughness, and against a book."""
    plan = evidence.plan
    if plan.kind != "cycle" or not clocks:
        return []
    found = [
        _verdict(
            evidence, clocks, _covered(test), f"{test.record} with {test.hold} / 0.8", _by(test)
        )
        for test in plan.sheet.joint.entry.qualified
        if test.hold is not None and test.toughness
    ]
    ruled = plan.ruled("total hold")
    if not found and ruled is not None and isinstance(ruled.value, Quantity):
        bound = float(ruled.value.value)
        found.append(_verdict(evidence, clocks, bound, str(ruled.value), ruled.why))
    tempered = plan.ruled("tempering parameter")
    if tempered is not None and isinstance(tempered.value, Fraction):
        found.append(_tempered(evidence, clocks, float(tempered.value), tempered.why))
    return found


def been_through(plan: Asked) -> list[tuple[float | None, float]]:
    """degC (None: not stated) and s of what the joint has been through: what the text says of
    earlier treatments, and each cycle written before this one, as hot and long as it may be."""
    found = [
        (None if one.at is None else float(one.at.value), float(one.time.value))
        for one in plan.sheet.joint.entry.earlier
    ]
    for run in plan.sheet.runs:
        if run is plan.run:
            break
        for step in run.program.steps if run.program.kind == CYCLE else ():
            time = step.longest or step.least
            if step.action == HOLD and step.window is not None and time is not None:
                high = step.window.high
                found.append((None if high is None else float(high.value), float(time.value)))
    return found


def _tempered(evidence: Evidence, clocks: list[HoldClock], most: float, why: Why) -> Verdict:
    """The parameter of the hottest required thermocouple, the treatments before added."""
    plan = evidence.plan
    worth = max(worth_of(evidence, clocks), default=None)
    known = been_through(plan)
    earlier = [(at, seconds / _HOUR) for at, seconds in known if at is not None and seconds]
    outcome: Outcome = NOT_SHOWN
    actual = "no reading"
    failures: tuple[Failure, ...] = ()
    target = plan.run.program.target
    if worth is not None and target is not None:
        celsius = float(target.value)
        spent, tag = worth[0], worth[1]
        treatments = [(celsius, hours_at(celsius, spent)), *earlier]
        reached = total(treatments, celsius).parameter / 1000
        before = ", with the treatments before" if earlier else ""
        actual = f"{apart(reached, most, 2)} ({tag}){before}"
        outcome = MET if reached <= most else NOT_MET
        if outcome == NOT_MET:
            span = max(clocks, key=lambda clock: clock.high)
            sentence = (
                f"{tag} reached a parameter of {apart(reached, most, 2)}{before}; limit {most:g}"
            )
            begun, ended = span.arrived, span.left
            assert begun is not None and ended is not None  # or there were no parameter
            failures = (Failure((tag,), begun, ended, sentence),)
    name = "tempering parameter, all treatments"
    return Verdict(name, plan.joint, f"at most {most:g}", actual, outcome, None, failures, why)


def _verdict(
    evidence: Evidence, clocks: list[HoldClock], most: float, covered: str, why: Why
) -> Verdict:
    """At temperature: from the foot of the hold range up, by the thermocouple longest there."""
    plan = evidence.plan
    low = max(clocks, key=lambda clock: clock.high).low
    this, tag, when = at_temperature(evidence, low)
    earlier = [seconds for _, seconds in been_through(plan)]
    spent = this + sum(earlier)
    before = f" and {time(sum(earlier))} before" if earlier else ""
    outcome: Outcome = NOT_SHOWN if not tag else MET if spent <= most + SAME_TIME else NOT_MET
    actual = f"{time(spent, most)}: {time(this)} here ({tag}){before}" if tag else "no reading"
    failures: tuple[Failure, ...] = ()
    if outcome == NOT_MET:
        was = f"{tag} was at temperature for {time(this, most)}{before}"
        sentence = f"{was}; {covered} covers {time(most)}"
        failures = (Failure((tag,), when.start, when.end, sentence),)
    return Verdict(
        "time at temperature, all treatments",
        plan.joint,
        f"at most {time(most)}: {covered}",
        actual,
        outcome,
        None,
        failures,
        why,
    )


def _covered(test: Qualified) -> float:
    assert test.hold is not None
    return float(longest_production(Fraction(test.hold.value)))


def _by(test: Qualified) -> Why:
    why = stated(test, "hold", f"{test.record}: hold {test.hold}")
    return why._replace(
        formula="qualified hold / 0.8",
        source=ORIGIN.standard,
        citation=ORIGIN.paragraph,
        basis=ORIGIN.basis,
        confidence=ORIGIN.confidence,
    )
