"""What happened during the run, held against the rules the specification declares for it."""

from __future__ import annotations

import numpy as np

from hts.base.quantities import Quantity
from hts.job.compiler.why import stated
from hts.language.vocabulary.interruptions import OverRate, PowerLoss, ThermocoupleLoss
from hts.record.judging import heaters
from hts.record.judging.evidence import Evidence
from hts.record.judging.hold_clocks import RESTART, went_cold
from hts.record.judging.stretches import touch
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    SAME,
    SAME_TIME,
    Failure,
    HoldClock,
    Outcome,
    Stretch,
    Verdict,
)
from hts.record.judging.words import time
from hts.record.record import Event

_RESUME = "resume at the present temperature"
_SPARE = "change to the spare"


def verdicts(
    evidence: Evidence, clocks: list[HoldClock], fast: list[Stretch], at_fault: list[Stretch]
) -> list[Verdict]:
    """A verdict on each kind of interruption that occurred; `fast` is when heating was too fast,
    `at_fault` when cooling was."""
    repeated = evidence.plan.stated("cooling_fault") is not None
    return [
        *_power(evidence),
        *_unexplained(evidence, clocks, at_fault if repeated else []),
        *_thermocouples(evidence),
        *heaters.verdicts(evidence),
        *_over_rate(evidence, fast),
    ]


def _power(evidence: Evidence) -> list[Verdict]:
    if not evidence.power_cuts:
        return []
    plan, rule = evidence.plan, evidence.plan.stated("power_loss")
    if not isinstance(rule, PowerLoss):
        return [_undeclared(evidence, "power loss", evidence.power_cuts)]
    specified = rule.action
    if rule.within is not None:
        specified += f" within {evidence.words.limit(rule.within)}"
    failures: list[Failure] = []
    outcome: Outcome = MET
    for cut in evidence.power_cuts:
        how, sentence = _one_cut(evidence, rule, cut)
        if how != MET:
            failures.append(Failure((), cut.start, cut.end, sentence))
        outcome = NOT_MET if NOT_MET in (how, outcome) else NOT_SHOWN if how != MET else outcome
    longest = max(cut.length for cut in evidence.power_cuts)
    return [
        Verdict(
            "power loss",
            plan.address,
            specified,
            f"{len(evidence.power_cuts)} noted, longest {time(longest, _within(rule))}",
            outcome,
            None,
            tuple(failures),
            stated(rule, "action", rule.action),
        )
    ]


def _within(rule: PowerLoss) -> float | None:
    """s after which the run is not to be resumed."""
    return float(rule.within.value) if isinstance(rule.within, Quantity) else None


def _unexplained(
    evidence: Evidence, clocks: list[HoldClock], at_fault: list[Stretch]
) -> list[Verdict]:
    """The part went cold in the middle of a hold, and no event explains it, nor a fault in cooling
    after which the text has the hold repeated."""
    found = [
        stretch
        for clock in clocks
        for stretch in went_cold(evidence, clock)
        if not any(touch(stretch, known) for known in (*evidence.power_cuts, *at_fault))
    ]
    if not found:
        return []
    failures = tuple(
        Failure(
            (),
            one.start,
            one.end,
            f"the hold was left for {time(one.length)} from {evidence.clock(one.start)} to "
            f"{evidence.clock(one.end)}, the part went cold, and no event explains it",
        )
        for one in found
    )
    return [
        Verdict(
            "interruption of the hold",
            evidence.plan.address,
            "explained by an event",
            f"{len(found)} not explained",
            NOT_SHOWN,
            None,
            failures,
            None,
        )
    ]


def _one_cut(evidence: Evidence, rule: PowerLoss, cut: Stretch) -> tuple[Outcome, str]:
    within = _within(rule)
    off = (
        f"the power was off for {time(cut.length, within)} from {evidence.clock(cut.start)} to "
        f"{evidence.clock(cut.end)}"
    )
    if rule.action == RESTART:
        return _again_from_start(evidence, cut.end, off)
    if rule.action != _RESUME:
        return NOT_SHOWN, f"{off}; the answer of the engineer is not in the record"
    if within is not None and cut.length > within + SAME_TIME:
        return NOT_MET, f"{off}, {time(within)} is the most to resume after"
    return MET, off


def _again_from_start(evidence: Evidence, since: float, sentence: str) -> tuple[Outcome, str]:
    """Whether the part went back to where control starts after a time."""
    start = evidence.plan.control_start
    if start is None:
        start = evidence.plan.spans[0].start
    after = evidence.highest[evidence.times >= since]
    known = after[~np.isnan(after)]
    # As cold as that, and then heated again: every run gets there in the end.
    if len(known) and known[: int(np.argmax(known)) + 1].min() <= start + SAME:
        return MET, sentence
    bound = evidence.words.edge(start)
    return NOT_MET, f"{sentence}; the cycle was not begun again at {bound} or below"


def _thermocouples(evidence: Evidence) -> list[Verdict]:
    """Replaced by their spares, or lost without anything said."""
    plan, rule = evidence.plan, evidence.plan.stated("thermocouple_loss")
    watched = plan.by_tag
    replaced = [event for event in evidence.replaced if event.tag in watched]
    lost = [
        (thermocouple.tag, gap)
        for thermocouple in evidence.required
        for gap in evidence.missing(thermocouple.tag)
        if thermocouple.tag in evidence.record.series and gap.length < evidence.record.end
    ]
    if not replaced and not lost:
        return []
    if not isinstance(rule, ThermocoupleLoss):
        stretches = [Stretch(event.at, event.at) for event in replaced]
        return [_undeclared(evidence, "thermocouple loss", (*stretches, *(g for _, g in lost)))]
    failures: list[Failure] = []
    outcome: Outcome = MET
    for event in replaced:
        how, sentence = _one_change(evidence, rule, event)
        if how != MET:
            failures.append(Failure((event.tag,), event.at, event.at, sentence))
        outcome = NOT_MET if NOT_MET in (how, outcome) else NOT_SHOWN if how != MET else outcome
    for tag, gap in lost:
        sentence = (
            f"{tag} was lost for {time(gap.length)} from {evidence.clock(gap.start)} to "
            f"{evidence.clock(gap.end)} and no event says that anything took its place"
        )
        failures.append(Failure((tag,), gap.start, gap.end, sentence))
        outcome = NOT_MET if outcome == NOT_MET else NOT_SHOWN
    sentence = "; ".join(
        f"{event.by} took over from {event.tag} at {evidence.clock(event.at)}" for event in replaced
    )
    return [
        Verdict(
            "thermocouple loss",
            plan.address,
            rule.action,
            sentence or f"{', '.join(dict.fromkeys(tag for tag, _ in lost))} lost",
            outcome,
            None,
            tuple(failures),
            stated(rule, "action", rule.action),
        )
    ]


def _one_change(evidence: Evidence, rule: ThermocoupleLoss, event: Event) -> tuple[Outcome, str]:
    changed = f"{event.by} took over from {event.tag} at {evidence.clock(event.at)}"
    spare = evidence.plan.by_tag.get(event.by)
    if rule.action != _SPARE:
        return NOT_SHOWN, f"{changed}; the rule is to {rule.action}"
    if spare is None or spare.spare_of != event.tag:
        return NOT_MET, f"{changed}, but is not its spare"
    if event.by not in evidence.record.series:
        return NOT_SHOWN, f"{changed}, but has no readings in the record"
    return MET, changed


def _over_rate(evidence: Evidence, fast: list[Stretch]) -> list[Verdict]:
    rule = evidence.plan.stated("over_rate")
    if not fast or not isinstance(rule, OverRate):
        return []
    outcome: Outcome = MET
    failures: list[Failure] = []
    for stretch in fast:
        sentence = (
            f"heating was too fast from {evidence.clock(stretch.start)} to "
            f"{evidence.clock(stretch.end)}"
        )
        how: Outcome = MET
        if rule.action == RESTART:
            how, sentence = _again_from_start(evidence, stretch.end, sentence)
        elif rule.action == "stop and ask":
            how, sentence = NOT_SHOWN, f"{sentence}; the answer is not in the record"
        elif stretch.end >= evidence.record.end:
            how, sentence = NOT_MET, f"{sentence}, and so to the end of the record"
        if how != MET:
            failures.append(Failure((), stretch.start, stretch.end, sentence))
        outcome = NOT_MET if NOT_MET in (how, outcome) else NOT_SHOWN if how != MET else outcome
    return [
        Verdict(
            "over-rate",
            evidence.plan.address,
            rule.action,
            f"too fast {'once' if len(fast) == 1 else f'{len(fast)} times'}",
            outcome,
            None,
            tuple(failures),
            stated(rule, "action", rule.action),
        )
    ]


def _undeclared(evidence: Evidence, what: str, when: tuple[Stretch, ...]) -> Verdict:
    first = min(when)
    sentence = (
        f"{what} at {evidence.clock(first.start)}, and the specification declares no rule for it"
    )
    return Verdict(
        what,
        evidence.plan.address,
        "no rule is declared",
        f"{len(when)} noted",
        NOT_SHOWN,
        None,
        (Failure((), first.start, first.end, sentence),),
        None,
    )
