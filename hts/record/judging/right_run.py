"""Whether the record is of the run it is held to: one run, of this revision, not older than it."""

from __future__ import annotations

import numpy as np

from hts.job.compiler.why import Why
from hts.record.judging.evidence import Evidence
from hts.record.judging.hold_clocks import Held, restarted
from hts.record.judging.verdict import MET, NOT_SHOWN, Failure, Stretch, Verdict


def verdict(evidence: Evidence, holds: tuple[Held, ...], against: tuple[str, ...]) -> Verdict:
    """`against` are sentences on what the logs say themselves of another document or revision."""
    named, record = evidence.plan.job.document, evidence.record
    failures = [Failure((), 0.0, record.end, sentence) for sentence in against]
    day = record.start.date().isoformat() if record.start is not None else ""
    if day and named.dated and day < named.dated:
        sentence = f"the record is of {day}, revision {named.revision} of {named.dated}"
        failures.append(Failure((), 0.0, record.end, f"{sentence}: it was not heated to this"))
    heats = _heats(evidence, holds)
    for heat in heats[_asked(holds) :]:
        sentence = (
            f"the part was cold again and heated once more from {evidence.clock(heat.start)} on: "
            "is this a second run in the same record?"
        )
        failures.append(Failure((), heat.start, heat.end, sentence))
    times = {0: "never hot", 1: "heated once"}.get(len(heats), f"heated {len(heats)} times")
    specified = f"one run to revision {named.revision}"
    if named.dated:
        specified += f", not before {named.dated}"
    return Verdict(
        "run of the record",
        evidence.plan.address,
        specified,
        f"{day or 'no date'}, {times}",
        NOT_SHOWN if failures or not heats else MET,
        None,
        tuple(failures),
        Why(source="this specification", note="revision and date of the document"),
    )


def _asked(holds: tuple[Held, ...]) -> int:
    """How often the program heats from cold."""
    return 1 + sum(hold.cooled is not None for hold in holds)


def _heats(evidence: Evidence, holds: tuple[Held, ...]) -> list[Stretch]:
    """From when it was last cold until it came to a hold, each time it did; a cycle broken off by
    a loss of power and taken up again counts once."""
    if not holds or not evidence.required:
        return []
    hot = min(hold.low for hold in holds)
    end = evidence.plan.control_end
    cold = min(end, hot / 2) if end is not None else hot / 2
    hottest = evidence.hottest
    begin, was_hot = restarted(evidence), 0.0
    state = np.where(hottest >= hot, 1, np.where(hottest <= cold, -1, 0))
    rows = np.flatnonzero(state)
    found: list[Stretch] = []
    came_from = 0.0
    # The first and last rows of each time it was hot, or cold, on end.
    turns = np.flatnonzero(np.diff(state[rows])) + 1
    for some in np.split(rows, turns) if len(rows) else []:
        at, last = float(evidence.times[some[0]]), float(evidence.times[some[-1]])
        if state[some[0]] < 0:
            came_from = last
            continue
        cut = any(was_hot <= one.end and one.start <= at for one in evidence.power_cuts)
        if at >= begin and not (found and cut):
            found.append(Stretch(came_from, at))
        was_hot = last
    return found
