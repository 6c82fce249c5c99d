"""Heaters that were lost during the run, held against what the sheet says is done then."""

from __future__ import annotations

from typing import NamedTuple

from hts.job.compiler.why import Why, stated
from hts.language.vocabulary.interruptions import HeaterLoss
from hts.record.faults.fault_kinds import HEATER_LOSS
from hts.record.judging.evidence import Evidence
from hts.record.judging.stretches import touch
from hts.record.judging.verdict import MET, NOT_SHOWN, Failure, Outcome, Stretch, Verdict
from hts.record.judging.words import time
from hts.record.record import HEATER_BACK, HEATER_LOST

_ADJUST, _REPLACE = "adjust neighbouring heaters", "replace"
#: s. People write an event down some time after the readings begin to tell of it, and the readings
#: tell of it some time after it happened. Basis: practice, no source.
_NOTED = 1800.0


class _Loss(NamedTuple):
    """The heaters of a zone gave nothing. `zone` "": of no zone that was named; `back` whether an
    event says that they give again; `seen` whether the readings tell of it."""

    zone: str
    when: Stretch
    back: bool
    seen: bool


def verdicts(evidence: Evidence) -> list[Verdict]:
    """One verdict on all that were noted or that the readings tell of."""
    noted, seen = _noted(evidence), _seen(evidence)
    rule = evidence.plan.stated("heater_loss")
    if not noted and (not seen or (rule is None and all(loss.back for loss in seen))):
        return []
    failures: list[Failure] = []
    for loss in seen:
        if any(_same(loss, one) for one in noted) or _cut(evidence, loss):
            continue
        if not loss.back:
            sentence = f"{_words(evidence, loss)}, cooled without it, and no event says so"
            failures.append(_failure(loss, sentence))
        elif isinstance(rule, HeaterLoss) and rule.action != _ADJUST:
            sentence = f"{_words(evidence, loss)}, and no event says what was done"
            failures.append(_failure(loss, sentence))
    for loss in noted:
        if loss.zone and loss.zone not in evidence.plan.zones:
            sentence = f"a heater of zone {loss.zone} was noted as lost, and there is no such zone"
            failures.append(_failure(loss, sentence))
        told = any(_same(loss, one) for one in seen)
        open_part = _open(rule, loss, told)
        if open_part:
            failures.append(_failure(loss, f"{_words(evidence, loss)}{open_part}"))
    outcome: Outcome = NOT_SHOWN if failures else MET
    why: Why | None = None
    if isinstance(rule, HeaterLoss):
        why = stated(rule, "action", rule.action)
    losses = noted or seen
    return [
        Verdict(
            "heater loss",
            evidence.plan.address,
            rule.action if isinstance(rule, HeaterLoss) else "no rule is declared",
            "; ".join(_words(evidence, loss) for loss in losses),
            outcome,
            None,
            tuple(failures),
            why,
        )
    ]


def _open(rule: object, loss: _Loss, seen: bool) -> str:
    """What of the rule the record leaves open; nothing where it shows all."""
    if not isinstance(rule, HeaterLoss):
        return ", and the specification declares no rule for it"
    if rule.action == _REPLACE:
        return "" if loss.back else ", and no event says that it was replaced"
    if rule.action == _ADJUST:
        return ", and its neighbours did not keep it warm" if seen and not loss.back else ""
    return f"; the rule is to {rule.action}, and what came of it is not in the record"


def _cut(evidence: Evidence, loss: _Loss) -> bool:
    """Whether the power was lost then."""
    return any(touch(loss.when, cut) for cut in evidence.power_cuts)


def _noted(evidence: Evidence) -> list[_Loss]:
    """By the events; one that never came back lasts to the end of the record."""
    found: list[_Loss] = []
    open_ones: dict[str, float] = {}
    for event in sorted(evidence.record.events, key=lambda event: event.at):
        if event.kind == HEATER_LOST:
            open_ones.setdefault(event.zone, event.at)
        elif event.kind == HEATER_BACK:
            zone = event.zone
            if zone not in open_ones and len(open_ones) == 1:
                (zone,) = open_ones
            if zone in open_ones:
                found.append(_Loss(zone, Stretch(open_ones.pop(zone), event.at), True, False))
    end = evidence.record.end
    found += [_Loss(zone, Stretch(at, end), False, False) for zone, at in open_ones.items()]
    return sorted(found, key=lambda loss: loss.when)


def _seen(evidence: Evidence) -> list[_Loss]:
    return [
        _Loss(fault.zone, Stretch(fault.start, fault.end), fault.over, True)
        for fault in evidence.faults
        if fault.kind == HEATER_LOSS.name
    ]


def _same(one: _Loss, other: _Loss) -> bool:
    """Whether both tell of one loss."""
    wide = Stretch(one.when.start - _NOTED, one.when.end + _NOTED)
    return (not one.zone or not other.zone or one.zone == other.zone) and touch(wide, other.when)


def _words(evidence: Evidence, loss: _Loss) -> str:
    whose = f"zone {loss.zone}" if loss.zone else "a zone"
    until = "" if loss.when.end >= evidence.record.end else f" for {time(loss.when.length)}"
    said = "lost its heat" if loss.seen else "was without heaters"
    return f"{whose} {said} at {evidence.clock(loss.when.start)}{until}"


def _failure(loss: _Loss, sentence: str) -> Failure:
    return Failure((), loss.when.start, loss.when.end, sentence)
