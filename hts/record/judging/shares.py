"""How hot places beside the weld were during the hold, as a share of the soak band."""

from __future__ import annotations

import numpy as np

from hts.job.compiler.why import stated
from hts.job.outputs.requirements import said_of
from hts.language.vocabulary.allowances import Share
from hts.record.judging.evidence import Evidence
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
from hts.record.judging.words import apart
from hts.record.record import Floats


def verdicts(evidence: Evidence, clocks: list[HoldClock]) -> list[Verdict]:
    """A verdict on each share that the treatment asks for; none without one."""
    return [_verdict(evidence, clocks, share) for share in evidence.plan.shares]


def _verdict(evidence: Evidence, clocks: list[HoldClock], share: Share) -> Verdict:
    plan = evidence.plan
    there = [
        one
        for one in plan.watched
        if one.place == share.place_ and one.tag in evidence.record.series
    ]
    least = float(share.least.value) if share.least is not None else -np.inf
    most = float(share.most.value) if share.most is not None else np.inf
    outcome: Outcome = NOT_SHOWN
    found: list[str] = []
    failures: list[Failure] = []
    for one in there:
        shares = _shares(evidence, clocks, one.tag)
        if not len(shares):
            continue
        outcome = MET if outcome == NOT_SHOWN else outcome
        low, high = float(shares.min()), float(shares.max())
        shown = " to ".join(
            max((apart(it, limit, 0) for limit in (least, most)), key=len) for it in (low, high)
        )
        found.append(f"{one.tag} {shown} %")
        if low < least - SAME or high > most + SAME:
            outcome = NOT_MET
            since = min(clock.since for clock in clocks if clock.since is not None)
            left = max(clock.left for clock in clocks if clock.left is not None)
            sentence = f"{one.tag} was at {shown} % of the lowest required reading"
            failures.append(Failure((one.tag,), since, left, sentence))
    if doubt := evidence.doubt_of(one.tag for one in there):
        outcome = NOT_SHOWN
        found.append(doubt.removeprefix("; "))
    return Verdict(
        f"share of the hold at the {share.place_}",
        plan.address,
        said_of(share),
        ", ".join(found) or "no thermocouple at the place was recorded during the hold",
        outcome,
        None,
        tuple(failures),
        stated(share, "place_", f"at the {share.place_}"),
    )


def _shares(evidence: Evidence, clocks: list[HoldClock], tag: str) -> Floats:
    """In %, at every reading while the hold counted."""
    values, lowest = evidence.of(tag), evidence.lowest
    found = []
    for clock in clocks:
        for interval in clock.intervals:
            part = evidence.record.between(interval.start, interval.end)
            shares = 100 * values[part] / lowest[part]
            found.append(shares[~np.isnan(shares)])
    return np.concatenate(found) if found else np.empty(0)
