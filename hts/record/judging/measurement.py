"""Whether the readings are what the part was at: no fault leaves them in doubt."""

from __future__ import annotations

from hts.job.compiler.why import practice
from hts.record.faults.fault_kinds import BY_NAME, LEFT_OUT
from hts.record.judging.evidence import Evidence
from hts.record.judging.verdict import MET, NOT_SHOWN, Failure, Verdict


def verdict(evidence: Evidence) -> Verdict:
    """Not shown where a fault of a measuring chain puts readings in doubt without taking them
    away: then what they seem to show is shown by nothing."""
    failures = tuple(
        Failure(
            tuple(tag for tag in (fault.tag, *fault.others) if tag),
            fault.start,
            fault.end,
            f"{BY_NAME[fault.kind].summary}: {fault.evidence}",
        )
        for fault in evidence.doubts
    )
    tags = [one.tag for one in evidence.plan.watched if one.tag in evidence.doubtful]
    measured = any(evidence.peak(one.tag) is not None for one in evidence.required)
    away = dict.fromkeys(one.tag or "all" for one in evidence.faults if one.treatment == LEFT_OUT)
    actual = "none found" if not away else f"none in what counts; left out: {', '.join(away)}"
    if not measured:
        actual = "nothing was measured"
    return Verdict(
        "measuring chains",
        evidence.plan.address,
        "no fault that puts readings in doubt",
        f"in doubt: {', '.join(tags) or 'the record'}" if failures else actual,
        MET if measured and not failures else NOT_SHOWN,
        None,
        failures,
        practice("", "what is measured wrong shows nothing"),
    )
