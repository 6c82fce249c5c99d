"""Preheat kept up until welding ends."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.job.compiler.program import PREHEAT
from hts.record.judging.beyond_readings import welding_ended
from hts.record.judging.evidence import Evidence
from hts.record.judging.stretches import below, within
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    Failure,
    HoldClock,
    Outcome,
    Verdict,
)
from hts.record.judging.words import time


def verdicts(evidence: Evidence, clocks: list[HoldClock]) -> list[Verdict]:
    """Whether nothing fell below preheat from when all had reached it to the end of welding.

    Where no note tells that end and the record goes on until the joint is cold, other papers have
    to say when welding stopped.
    """
    plan, words = evidence.plan, evidence.words
    if plan.kind != PREHEAT or not clocks or clocks[0].arrived is None:
        return []
    between = getattr(plan.stated("interpass"), "at_least", None)
    kept = plan.stated("maintain") or plan.sheet.limits.preheat()
    # Between passes it is not to fall below the lowest interpass temperature either.
    if isinstance(between, Quantity) and isinstance(kept, Quantity) and between > kept:
        kept = between
    if not isinstance(kept, Quantity):
        return []
    ended = welding_ended(evidence)
    end = evidence.record.end if ended is None else ended
    failures = []
    for thermocouple, values in zip(evidence.required, evidence.values, strict=True):
        cold = below(evidence.times, values, float(kept.value), evidence.longest_gap)
        for stretch in within(cold, clocks[0].arrived, end):
            if stretch.length > 0:
                sentence = (
                    f"{evidence.name(thermocouple.tag, stretch.start)} was below "
                    f"{words.limit(kept)} for {time(stretch.length)} "
                    f"from {evidence.clock(stretch.start)} to {evidence.clock(stretch.end)}"
                )
                failures.append(Failure((thermocouple.tag,), stretch.start, stretch.end, sentence))
    open_end = ended is None and bool(failures)
    outcome: Outcome = NOT_SHOWN if open_end else NOT_MET if failures else MET
    until = "to the end of the record" if ended is None else f"to {evidence.clock(end)}"
    return [
        Verdict(
            "preheat maintained",
            plan.address,
            f"at least {words.limit(kept)} until the end of welding",
            "no event tells when welding ended" if open_end else f"{len(failures)} lapses {until}",
            outcome,
            None,
            () if open_end else tuple(failures),
            plan.why("maintain" if plan.stated("maintain") else "at_least", f"at least {kept}"),
            elsewhere=open_end,
        )
    ]
