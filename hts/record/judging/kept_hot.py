"""A treatment that begins from preheat or from a bake: the weld has not cooled in between."""

from __future__ import annotations

from hts.job.compiler.why import Why
from hts.record.judging.beyond_readings import welding_ended
from hts.record.judging.evidence import Evidence
from hts.record.judging.stretches import below, within
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    SAME,
    Failure,
    HoldClock,
    Outcome,
    Verdict,
)
from hts.record.judging.words import time


def verdicts(evidence: Evidence, clocks: list[HoldClock]) -> list[Verdict]:
    """Whether nothing fell below preheat before the first hold, in a record that holds it: from a
    note that welding ended, or else from its beginning, if that is hot.

    A record that begins cold may be of the whole course, preheat and welding too, or of a weld
    that had gone cold: where no note tells, nothing is shown.
    """
    plan, words = evidence.plan, evidence.words
    if plan.comes_hot is None:
        return []
    kept = plan.kept_before
    ended = welding_ended(evidence)
    since = max(ended, 0.0) if ended is not None else 0.0
    arrived = clocks[0].arrived if clocks else None
    until = evidence.record.end if arrived is None else arrived
    why = plan.why("begins", f"begins {plan.comes_hot}")
    specified = f"{plan.comes_hot}, without cooling in between"
    outcome: Outcome = MET
    failures: list[Failure] = []
    actual = "the text gives no preheat to keep"
    if kept is None:
        return [_verdict(evidence, specified, actual, NOT_SHOWN, [], why, elsewhere=True)]
    specified = f"{plan.comes_hot}, at least {words.limit(kept.written)} until it is heated"
    first = float(evidence.lowest[evidence.record.between(since, until)][:1].min(initial=1e9))
    begins_cold = ended is None and first < kept.value - SAME
    for thermocouple, values in zip(evidence.required, evidence.values, strict=True):
        cold = below(evidence.times, values, kept.value, evidence.longest_gap)
        for one in within(cold, since, until):
            sentence = (
                f"{evidence.name(thermocouple.tag, one.start)} was below "
                f"{words.limit(kept.written)} for {time(one.length)} from "
                f"{evidence.clock(one.start)} to {evidence.clock(one.end)}"
            )
            failures.append(Failure((thermocouple.tag,), one.start, one.end, sentence))
    if begins_cold:
        outcome = NOT_SHOWN
        actual = (
            f"the record begins at {words.temperature(first, kept.value)}, and no event tells when "
            "welding ended"
        )
        failures = []
    elif failures:
        outcome, actual = NOT_MET, failures[0].sentence
    else:
        outcome, blanks = evidence.outcome(False, since, until)
        actual = f"never below from {evidence.clock(since)} on{blanks}"
    return [_verdict(evidence, specified, actual, outcome, failures, why)]


def _verdict(
    evidence: Evidence,
    specified: str,
    actual: str,
    outcome: Outcome,
    failures: list[Failure],
    why: Why,
    *,
    elsewhere: bool = False,
) -> Verdict:
    return Verdict(
        "kept hot before",
        evidence.plan.address,
        specified,
        actual,
        outcome,
        None,
        tuple(failures),
        why,
        elsewhere=elsewhere,
    )
