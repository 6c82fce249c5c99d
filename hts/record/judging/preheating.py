"""Preheat: not too hot before the first arc, and kept up until welding ends."""

from __future__ import annotations

import numpy as np

from hts.base.quantities import Quantity
from hts.job.compiler.program import PREHEAT
from hts.record.judging.beyond_readings import welding_began, welding_ended
from hts.record.judging.evidence import Evidence
from hts.record.judging.stretches import below, within
from hts.record.judging.temperatures import exceeding
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    Failure,
    HoldClock,
    Outcome,
    Stretch,
    Verdict,
)
from hts.record.judging.words import time

#: K above what is to be kept from which a joint was heated again, and did not only hover as it went
#: cold. Basis: practice, ours.
_AGAIN = 3.0
#: s that all stay above once they are there; below it for longer they have left it. s after they
#: first are there in which they come and go so. Basis: practice, ours.
_STAYS, _RISES = 120.0, 600.0


def verdicts(evidence: Evidence, clocks: list[HoldClock]) -> list[Verdict]:
    """Of a preheat alone; other treatments have none."""
    if evidence.plan.kind != PREHEAT:
        return []
    return [*_greatest(evidence), *_maintained(evidence, clocks)]


def _greatest(evidence: Evidence) -> list[Verdict]:
    """Whether nothing was hotter than the greatest preheat before the first arc.

    From then on the arc heats, too: where no note tells when it was struck, readings above the
    limit show nothing.
    """
    most = evidence.plan.greatest_preheat
    if most is None:
        return []
    began = welding_began(evidence)
    what = "the greatest preheat"
    hot = exceeding(evidence, evidence.required, most.value, what)
    before = [one for one in hot if began is None or one.start < began]
    end = evidence.record.end if began is None else began
    outcome, blanks = evidence.outcome(False, 0.0, end)
    actual = "nothing above it before the first arc" + blanks
    if began is None:
        actual = "nothing above it in the whole record" + blanks
        if hot:
            outcome = NOT_SHOWN
            actual = f"no event tells when welding began; {hot[0].sentence}"
    elif before:
        outcome = NOT_MET
        actual = before[0].sentence
    return [
        Verdict(
            "greatest preheat",
            evidence.plan.address,
            f"at most {evidence.words.limit(most.written)} before the first arc",
            actual,
            outcome,
            None,
            tuple(before) if began is not None else (),
            most.why,
            elsewhere=began is None and bool(hot),
        )
    ]


def _maintained(evidence: Evidence, clocks: list[HoldClock]) -> list[Verdict]:
    """Whether nothing fell below preheat from the first arc to the end of welding; where no note
    tells of an arc, from when all had reached it and stayed there.

    Where no note tells that end and the record goes on until the joint is cold, other papers have
    to say when welding stopped.
    """
    plan, words = evidence.plan, evidence.words
    if not clocks or clocks[0].arrived is None:
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
    cold_times = [
        below(evidence.times, values, float(kept.value), evidence.longest_gap)
        for values in evidence.values
    ]
    began = welding_began(evidence)
    start = _settled(cold_times, clocks[0].arrived) if began is None else began
    start = max(start, clocks[0].arrived)
    for thermocouple, cold in zip(evidence.required, cold_times, strict=True):
        for stretch in within(cold, start, end):
            if stretch.length > 0:
                sentence = (
                    f"{evidence.name(thermocouple.tag, stretch.start)} was below "
                    f"{words.limit(kept)} for {time(stretch.length)} "
                    f"from {evidence.clock(stretch.start)} to {evidence.clock(stretch.end)}"
                )
                failures.append(Failure((thermocouple.tag,), stretch.start, stretch.end, sentence))
    open_end = ended is None and bool(failures)
    if open_end and (lapses := _heated_again(evidence, failures, float(kept.value))):
        # Welding went on, or was to: whoever stops for good lets the joint go cold.
        failures, open_end = lapses, False
    outcome: Outcome = NOT_SHOWN if open_end else NOT_MET if failures else MET
    if ended is None and failures and not open_end and began is None:
        outcome = NOT_SHOWN
    how_often = "1 lapse" if len(failures) == 1 else f"{len(failures)} lapses"
    until = "to the end of the record" if ended is None else f"to {evidence.clock(end)}"
    return [
        Verdict(
            "preheat maintained",
            plan.address,
            f"at least {words.limit(kept)} until the end of welding",
            "no event tells when welding ended" if open_end else f"{how_often} {until}",
            outcome,
            None,
            () if open_end else tuple(failures),
            plan.why("maintain" if plan.stated("maintain") else "at_least", f"at least {kept}"),
            elsewhere=open_end,
        )
    ]


def _settled(cold_times: list[list[Stretch]], arrived: float) -> float:
    """When all have reached preheat and stay there, s: one that is only just there, and still
    rising, is below it again for moments, by its noise alone."""
    since = arrived
    for start, end in sorted((one.start, one.end) for cold in cold_times for one in cold):
        if end <= since:
            continue
        if start > since + _STAYS or end - start > _STAYS or end > arrived + _RISES:
            break
        since = end
    return since


def _heated_again(evidence: Evidence, failures: list[Failure], kept: float) -> list[Failure]:
    """Those after which the thermocouple was heated up again, with how cold it was."""
    found = []
    for failure in failures:
        values = evidence.of(failure.tags[0])
        during = evidence.record.between(failure.start, failure.end)
        after = np.fmax.reduce(values[during.stop :], initial=-np.inf)
        if after >= kept + _AGAIN:
            lowest = float(np.fmin.reduce(values[during], initial=kept))
            shown = evidence.words.temperature(lowest, kept)
            found.append(failure._replace(sentence=f"{failure.sentence}, down to {shown}"))
    return found
