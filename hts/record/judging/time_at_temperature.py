"""Time at temperature against what the qualification covers, and what the whole run was worth."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import Quantity
from hts.job.compiler.why import Why, stated
from hts.language.vocabulary.joint import Qualified
from hts.record.judging.evidence import Evidence
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
from hts.record.judging.words import time
from hts.science.metallurgy.qualification import ORIGIN, longest_production


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
    return found


def _verdict(
    evidence: Evidence, clocks: list[HoldClock], most: float, covered: str, why: Why
) -> Verdict:
    """At temperature: from the foot of the hold range up, by the thermocouple longest there."""
    plan = evidence.plan
    low = max(clocks, key=lambda clock: clock.high).low
    this, tag, when = at_temperature(evidence, low)
    earlier = [float(past_heating.time.value) for past_heating in plan.sheet.joint.entry.earlier]
    spent = this + sum(earlier)
    before = f" and {time(sum(earlier))} before" if earlier else ""
    outcome: Outcome = NOT_SHOWN if not tag else MET if spent <= most + SAME_TIME else NOT_MET
    actual = f"{time(spent, most)}: {time(this)} here ({tag}){before}" if tag else "no reading"
    failures: tuple[Failure, ...] = ()
    if outcome == NOT_MET:
        sentence = (
            f"{tag} was at temperature for {time(this)}{before}; {covered} covers {time(most)}"
        )
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
