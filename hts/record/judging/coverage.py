"""What the record covers: from where, to where, how often, and with which thermocouples."""

from __future__ import annotations

from math import isnan

import numpy as np

from hts.job.compiler.why import Why, practice, stated
from hts.job.demands.asked import GAP, Bound
from hts.record.faults.fault_kinds import BY_NAME, CLOCK_JUMP, LEFT_OUT
from hts.record.judging.evidence import Evidence
from hts.record.judging.stretches import runs
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    SAME,
    Failure,
    Outcome,
    Stretch,
    Verdict,
)
from hts.record.judging.words import time
from hts.record.record import Floats

#: s. Stamps to the full second make an interval that much longer than it is.
_STAMP = 0.5
#: Intervals from which a reading is late, and rows of which most must be. Basis: practice, ours.
_LATE, _ROWS = 1.1, 12


def verdicts(evidence: Evidence) -> list[Verdict]:
    """Start and end of control, readings often enough, every required thermocouple there."""
    found = [_start(evidence), _end(evidence), _often(evidence), _present(evidence)]
    found.append(_clock_set(evidence))
    return [one for one in found if one is not None]


def _start(evidence: Evidence) -> Verdict | None:
    plan, words = evidence.plan, evidence.words
    bound = plan.record_start
    if bound is None:
        return None
    at = evidence.clock(0.0)
    outcome, shown = _cold(evidence, bound, 0)
    failures: tuple[Failure, ...] = ()
    if outcome == NOT_MET:
        sentence = (
            f"{shown} already when the record began at {at}; it had to begin at "
            f"{words.limit(bound.written)} or below"
        )
        failures = (Failure((), 0.0, 0.0, sentence),)
    return Verdict(
        "start of the record",
        plan.address,
        lambda: f"at {words.limit(bound.written)} or below",
        f"begins {at}: {shown}",
        outcome,
        None,
        failures,
        bound.why,
    )


def _end(evidence: Evidence) -> Verdict | None:
    plan, words, bound = evidence.plan, evidence.words, evidence.plan.end_bound
    if bound is None:
        return None
    end = evidence.record.end
    outcome, shown = _cold(evidence, bound, -1)
    failures: tuple[Failure, ...] = ()
    if outcome == NOT_MET:
        sentence = (
            f"{shown} still when the record ended at {evidence.clock(end)}; it had to go on to "
            f"{words.limit(bound.written)}"
        )
        failures = (Failure((), end, end, sentence),)
    return Verdict(
        "end of the record",
        plan.address,
        lambda: f"at {words.limit(bound.written)} or below",
        lambda: f"ends {evidence.clock(end)}: {shown}",
        outcome,
        None,
        failures,
        bound.why,
    )


def _cold(evidence: Evidence, bound: Bound, end: int) -> tuple[Outcome, str]:
    """Whether every required thermocouple was cold enough at one end of the record (0 or -1), by
    its first or last reading, and the hottest of them: `T1 305.0 degC`.

    One that was hot when its readings began later, or ended sooner, shows nothing.
    """
    times, known = evidence.times, []
    at_end = evidence.values[:, end].tolist()
    for thermocouple, values, value in zip(evidence.required, evidence.values, at_end, strict=True):
        row = end
        if isnan(value):
            rows = np.flatnonzero(~np.isnan(values))
            if not len(rows):
                return NOT_SHOWN, f"{thermocouple.tag} has no reading"
            row = int(rows[end])
        at = float(times[row])
        value = value if row == end else float(values[row])
        known.append((value, at, evidence.name(thermocouple.tag, at)))
    if not known:
        return NOT_SHOWN, "no thermocouple is required"
    value, at, tag = max(known)
    shown = f"{tag} {evidence.words.temperature(value, bound.value)}"
    if value <= bound.value + SAME:
        return MET, shown
    there = any(
        value > bound.value + SAME and abs(at - times[end]) <= evidence.longest_gap
        for value, at, _ in known
    )
    if there:
        return NOT_MET, shown
    return NOT_SHOWN, f"{shown} when it was {'last' if end else 'first'} read"


def _often(evidence: Evidence) -> Verdict:
    """Readings at the interval of the recorder, without gaps. A gap is evidence that is missing."""
    record = evidence.record
    recorder = evidence.plan.run.program.recorder
    interval = recorder.interval if recorder is not None else None
    gap_rule = f"no gap above {time(evidence.longest_gap)} ({GAP} intervals)"
    if recorder is not None and interval is not None:
        specified = f"every {evidence.words.limit(interval)}, {gap_rule}"
        why = stated(recorder, "interval", f"interval {interval}")
    else:
        specified = gap_rule
        why = practice(f"{GAP} × interval", "assumed: the text states no interval")
    seldom = interval is not None and record.interval > float(interval.value) + _STAMP
    failures = [_gap(evidence, gap) for gap in evidence.row_gaps]
    failures += _nobody_read(evidence)
    slower = [] if seldom or interval is None else _slower(evidence.times, float(interval.value))
    rarer = [] if interval is None else _rarer(evidence, float(interval.value))
    outcome: Outcome = NOT_MET if seldom or slower or rarer else NOT_SHOWN if failures else MET
    actual = f"every {time(record.interval, evidence.interval if seldom else None)}"
    if slower:
        actual += f", for a time every {time(max(apart for _, apart in slower), evidence.interval)}"
    if rarer:
        tags, apart = max(rarer, key=lambda one: one[1])
        actual += f", {', '.join(tags)} every {time(apart, evidence.interval)}"
    actual += f", {len(failures)} gaps" if len(failures) > 1 else ", 1 gap" if failures else ""
    if seldom:
        sentence = (
            f"readings come every {time(record.interval)}, {time(evidence.interval)} is asked for"
        )
        failures.insert(0, Failure((), 0.0, record.end, sentence))
    for tags, apart in rarer:
        sentence = (
            f"those of {', '.join(tags)} come every {time(apart)}, {time(evidence.interval)} is "
            "asked for"
        )
        failures.append(Failure((), 0.0, record.end, sentence))
    for part, apart in slower:
        sentence = (
            f"readings come every {time(apart, evidence.interval)} from "
            f"{evidence.clock(part.start)} to {evidence.clock(part.end)}, "
            f"{time(evidence.interval)} is asked for: the recorder was set otherwise, or its clock "
            "ran fast"
        )
        failures.append(Failure((), part.start, part.end, sentence))
    return Verdict(
        "readings", evidence.plan.address, specified, actual, outcome, None, tuple(failures), why
    )


def _rarer(evidence: Evidence, interval: float) -> list[tuple[list[str], float]]:
    """Thermocouples of files of their own that are read less often than each `interval` s, and
    every how many s."""
    found: dict[float, list[str]] = {}
    for tag, series in evidence.record.series.items():
        if series.rows is None:
            continue
        times = evidence.times[series.measured & np.isfinite(series.as_read)]
        apart = float(np.median(np.diff(times))) if len(times) > 1 else 0.0
        if apart > max(interval, evidence.record.interval) * _LATE + _STAMP:
            found.setdefault(apart, []).append(tag)
    return [(tags, apart) for apart, tags in found.items()]


def _slower(times: Floats, interval: float) -> list[tuple[Stretch, float]]:
    """Stretches in which readings come less often than each `interval` s, and every how many s;
    a few that are late make none."""
    apart = np.diff(times)
    late = apart > interval * _LATE + _STAMP
    if np.count_nonzero(late) <= _ROWS // 2:
        return []
    # So many of _ROWS on end are late that the middle one is.
    number = np.convolve(late, np.ones(_ROWS), mode="valid")
    mostly = np.zeros(len(late), dtype=np.bool_)
    for first, last in runs(number > _ROWS / 2):
        rows = np.flatnonzero(late[first : last + _ROWS]) + first
        mostly[rows[0] : rows[-1] + 1] = True
    return [
        (Stretch(float(times[a]), float(times[b + 1])), float(np.median(apart[a : b + 1])))
        for a, b in runs(mostly)
    ]


def _gap(evidence: Evidence, gap: Stretch) -> Failure:
    sentence = (
        f"no readings for {time(gap.length)} from {evidence.clock(gap.start)} "
        f"to {evidence.clock(gap.end)}"
    )
    if any(cut.start <= gap.end and gap.start <= cut.end for cut in evidence.power_cuts):
        sentence += ", while the power was off"
    elif not any(one.kind == CLOCK_JUMP.name and one.end >= gap.end > one.start
                 for one in evidence.faults):  # fmt: skip
        sentence += ": the recorder did not write, or its clock was set ahead"
    return Failure((), gap.start, gap.end, sentence)


def _nobody_read(evidence: Evidence) -> list[Failure]:
    """Rows that are there and show nothing of any thermocouple, for longer than a gap may last."""
    return [
        Failure(
            (),
            spell.start,
            spell.end,
            f"what was read for {time(spell.end - spell.start)} from {evidence.clock(spell.start)} "
            f"to {evidence.clock(spell.end)} shows nothing: {BY_NAME[fault.kind].title}",
        )
        for fault in evidence.faults
        if fault.treatment == LEFT_OUT and not fault.tag and not fault.zone
        for spell in fault.wrong
        if spell.end - spell.start > evidence.longest_gap
    ]


def _clock_set(evidence: Evidence) -> Verdict | None:
    """A clock set during the run leaves open how long something took."""
    jumps = evidence.record.jumps
    if not jumps:
        return None
    failures = tuple(
        Failure(
            (),
            jump.at,
            jump.at,
            f"the clock was set {'forward' if jump.by > 0 else 'back'} by {time(abs(jump.by))} "
            f"at {evidence.clock(jump.at)}",
        )
        for jump in jumps
    )
    return Verdict(
        "clock of the record",
        evidence.plan.address,
        "not set during the run",
        f"set {len(jumps)} times" if len(jumps) > 1 else "set once",
        NOT_SHOWN,
        None,
        failures,
        practice("", "times of a record rise steadily"),
    )


def _present(evidence: Evidence) -> Verdict:
    """Every required thermocouple has readings throughout."""
    record = evidence.record
    absent = [
        thermocouple.tag
        for thermocouple in evidence.required
        if not evidence.complete and np.all(np.isnan(evidence.of(thermocouple.tag)))
    ]
    failures = [
        Failure((tag,), 0.0, record.end, f"{tag} has no reading in the whole record")
        for tag in absent
    ]
    for thermocouple in evidence.required:
        if thermocouple.tag in absent:
            continue
        for gap in evidence.missing(thermocouple.tag):
            sentence = (
                f"{thermocouple.tag} has no reading for {time(gap.length)} from "
                f"{evidence.clock(gap.start)} to {evidence.clock(gap.end)}"
            )
            failures.append(Failure((thermocouple.tag,), gap.start, gap.end, sentence))
    missing = dict.fromkeys(tag for failure in failures for tag in failure.tags)
    tags = ", ".join(thermocouple.tag for thermocouple in evidence.required)
    outcome: Outcome = NOT_SHOWN if failures or not evidence.required else MET
    return Verdict(
        "thermocouples",
        evidence.plan.joint,
        f"readings of {tags} throughout" if tags else "at least one that is required",
        f"readings missing of {', '.join(missing)}" if missing else "complete" if tags else "none",
        outcome,
        None,
        tuple(failures),
        Why(source="this specification", note="required: in range during the hold"),
    )
