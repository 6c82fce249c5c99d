"""A fault in cooling and its remedy: the hold, or half of it, run again."""

from __future__ import annotations

from hts.job.compiler.why import stated
from hts.language.vocabulary.interruptions import (
    COOL_ON,
    REPEAT_HALF,
    REPEAT_HOLD,
    CoolingFault,
)
from hts.record.judging.evidence import Evidence
from hts.record.judging.hold_clocks import hold_end
from hts.record.judging.stretches import total, touch, union, within
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    SAME_TIME,
    Failure,
    HoldClock,
    Outcome,
    Stretch,
    Verdict,
)
from hts.record.judging.words import time

_SHARES = {REPEAT_HOLD: 1.0, REPEAT_HALF: 0.5}


def found(evidence: Evidence, clocks: list[HoldClock], fast: list[Stretch]) -> list[Stretch]:
    """When cooling was too fast, or the power was off, whenever it had failed, after the last hold
    was complete, while the part was no longer kept in it and the run was under control; `fast` is
    when cooling was over its limit."""
    done = hold_end(clocks[-1]) if clocks and clocks[-1].complete else None
    if done is None:
        return union(fast)
    cuts = []
    for cut in evidence.power_cuts:
        off = Stretch(max(cut.start, done), cut.end)
        held = total(within(clocks[-1].intervals, *off))
        if cut.start < evidence.controlled.end and off.length > held + SAME_TIME:
            cuts.append(off)
    return union([*fast, *cuts])


def verdicts(evidence: Evidence, clocks: list[HoldClock], faults: list[Stretch]) -> list[Verdict]:
    """Whether what the text says is done after such a fault was done; `faults` are those found."""
    rule = evidence.plan.stated("cooling_fault")
    if not faults or not isinstance(rule, CoolingFault):
        return []
    outcome: Outcome = MET
    failures: list[Failure] = []
    for fault in faults:
        how, sentence = _one(evidence, rule, fault, clocks[-1] if clocks else None)
        if how != MET:
            failures.append(Failure((), fault.start, fault.end, sentence))
        outcome = NOT_MET if NOT_MET in (how, outcome) else NOT_SHOWN if how != MET else outcome
    return [
        Verdict(
            "cooling fault",
            evidence.plan.address,
            rule.action,
            f"cooling at fault {'once' if len(faults) == 1 else f'{len(faults)} times'}",
            outcome,
            None,
            tuple(failures),
            stated(rule, "action", rule.action),
        )
    ]


def _one(
    evidence: Evidence, rule: CoolingFault, fault: Stretch, clock: HoldClock | None
) -> tuple[Outcome, str]:
    cut = any(touch(fault, one) for one in evidence.power_cuts)
    sentence = (
        f"cooling was {'without power' if cut else 'too fast'} from "
        f"{evidence.clock(fault.start)} to {evidence.clock(fault.end)}"
    )
    if rule.action == COOL_ON:
        if fault.end >= evidence.record.end:
            return NOT_MET, f"{sentence}, and so to the end of the record"
        return MET, sentence
    if rule.action not in _SHARES:
        return NOT_SHOWN, f"{sentence}; the answer is not in the record"
    if clock is None:
        return NOT_SHOWN, f"{sentence}; there is no hold to repeat"
    asked = (clock.least or 0.0) * _SHARES[rule.action]
    held = _held_again(evidence, clock, fault.end)
    if held >= asked - SAME_TIME and held > 0:
        return MET, sentence
    part = "half of the hold" if rule.action == REPEAT_HALF else "the hold"
    again = f"held again for {time(held, asked)} only" if held else "not held again"
    sentence += f"; {part}, {time(asked)}, was to be repeated, and it was {again}"
    unknown = within(evidence.blanks, fault.end, evidence.record.end)
    return (NOT_SHOWN if unknown else NOT_MET), sentence


def _held_again(evidence: Evidence, clock: HoldClock, since: float) -> float:
    """s in the range of the hold after a time: the longest piece, or all where they add up."""
    pieces = within(sorted([*clock.intervals, *clock.lost]), since, evidence.record.end)
    lengths = [one.length for one in pieces]
    return sum(lengths) if evidence.plan.adds_up else max(lengths, default=0.0)
