"""A simulated record as text."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts import __version__
from hts.job.outputs.text import csv_text
from hts.record.errors import RecordError
from hts.record.plan import Plan
from hts.record.simulation.cycle import Course, course
from hts.record.simulation.departures import (
    DEPARTURES,
    EARLY_BY,
    EARLY_END,
    GAP,
    GAP_FOR,
    LATE_BY,
    LATE_START,
    SHORT_HOLD,
)
from hts.record.simulation.readings import readings
from hts.record.simulation.wiring import (
    CLOCK_JUMP,
    EXCHANGED,
    OF_THE_RECORD,
    WIRING,
    Setting,
    Trace,
)

SIMULATED = "simulated record"
_JUMP = 3600


class Ask(NamedTuple):
    """What is wanted. `faults` are (kind, tag) with an empty tag for one of the simulation's
    choice; `start` is the clock at the first row, None for elapsed time."""

    seed: int = 1
    seconds: float = 60.0
    start: datetime | None = None
    departures: tuple[str, ...] = ()
    faults: tuple[tuple[str, str], ...] = ()


def simulate(plan: Plan, ask: Ask) -> str:
    """The record as CSV; the same plan and request give the same text.

    Raises RecordError for a fault, departure or tag there is not, and for a departure this run
    cannot make.
    """
    _known(plan, ask)
    # The stream of this generator is frozen by its makers: a seed means the same for ever.
    random = np.random.RandomState(ask.seed)
    run = course(plan, random, ask.seconds, frozenset(ask.departures))
    traces = {tag: Trace(values, {}) for tag, values in readings(plan, run, random).items()}
    for kind, tag in ask.faults:
        _put(plan, run, traces, kind, tag, random)
    rows = _kept(plan, run, traces, ask.departures)
    return _text(plan, ask, run, traces, rows)


def _known(plan: Plan, ask: Ask) -> None:
    kinds = {*WIRING, *OF_THE_RECORD}
    for kind, tag in ask.faults:
        if kind not in kinds:
            raise RecordError(
                "", f"there is no fault {kind!r}", f"one of {', '.join(sorted(kinds))}"
            )
        if tag and tag not in plan.by_tag:
            raise RecordError(
                "", f"{plan.joint} has no thermocouple {tag!r}", f"one of {', '.join(plan.by_tag)}"
            )
    for name in ask.departures:
        if name not in DEPARTURES:
            raise RecordError(
                "", f"there is no departure {name!r}", f"one of {', '.join(DEPARTURES)}"
            )
    if SHORT_HOLD in ask.departures and not any(span.least for span in plan.holds):
        raise RecordError(
            plan.address,
            f"no hold of it has a least time, so {SHORT_HOLD} would leave nothing out",
            "choose another departure, or state how long it is held at least",
        )
    if not any(thermocouple.source.recorder.number is not None for thermocouple in plan.watched):
        raise RecordError(
            plan.address,
            "no thermocouple has a channel of a recorder",
            "give each its channel in the specification",
        )


def _put(
    plan: Plan,
    run: Course,
    traces: dict[str, Trace],
    kind: str,
    tag: str,
    random: np.random.RandomState,
) -> None:
    """One fault into one trace; a clock jump is put into the rows instead."""
    if kind == CLOCK_JUMP:
        return
    held = [
        thermocouple.tag for thermocouple in plan.required if thermocouple.tag in traces
    ] or list(traces)
    tag = tag or held[random.randint(len(held))]
    if tag not in traces:
        raise RecordError("", f"{tag} is not recorded", f"one of {', '.join(traces)}")
    if kind == EXCHANGED:
        others = [
            name for name in held if name != tag and plan.by_tag[name].zone != plan.by_tag[tag].zone
        ]
        if not others:
            raise RecordError("", f"{tag} has no other zone to be exchanged with", "leave it out")
        other = others[random.randint(len(others))]
        traces[tag], traces[other] = traces[other], traces[tag]
        return
    elapsed = run.elapsed
    hold = run.held or (float(elapsed[-1]) / 2, float(elapsed[-1]))
    first, last = (int(np.searchsorted(elapsed, moment)) for moment in hold)
    # Some time between the first third of the heating and the middle of the hold.
    begins = int(random.uniform(first / 3, (first + last) / 2))
    block = plan.sheet.joint.entry.thermocouples
    type = (block.type if block is not None else None) or "K"
    setting = Setting(type, begins, (first, last))
    traces[tag] = WIRING[kind].put(traces[tag].values, setting, random)


def _kept(
    plan: Plan, run: Course, traces: dict[str, Trace], departures: Sequence[str]
) -> NDArray[np.intp]:
    """The rows a recorder wrote."""
    keep = np.ones(run.elapsed.size, dtype=bool)
    hottest = run.zones.max(axis=1)
    peak = int(np.argmax(hottest))
    if LATE_START in departures and plan.control_start is not None:
        keep[:peak] &= hottest[:peak] > plan.control_start + LATE_BY
    if EARLY_END in departures and plan.control_end is not None:
        keep[peak:] &= hottest[peak:] > plan.control_end + EARLY_BY
    if GAP in departures and run.held is not None:
        middle = sum(run.held) / 2
        keep &= np.abs(run.elapsed - middle) > GAP_FOR / 2
    return np.flatnonzero(keep)


def _text(
    plan: Plan, ask: Ask, run: Course, traces: dict[str, Trace], rows: NDArray[np.intp]
) -> str:
    named = plan.job.document
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow([SIMULATED, "no metal was heated: for training and trials only"])
    for key, value in (
        ("made by", f"hts {__version__}, seed {ask.seed}"),
        ("document", f"{named.number} revision {named.revision}"),
        ("fingerprint", named.fingerprint),
        ("joint", plan.joint),
        ("cycle", plan.name),
        ("put in", ", ".join([*ask.departures, *(kind for kind, _ in ask.faults)]) or "nothing"),
    ):
        writer.writerow([key, csv_text(value)])
    events = _by_row(run, rows)
    heads = ["time", *(f"{tag} [degC]" for tag in traces)]
    writer.writerow([*heads, "event"] if events else heads)
    jump = rows[rows.size // 2] if any(kind == CLOCK_JUMP for kind, _ in ask.faults) else None
    for row in rows.tolist():
        seconds = float(run.elapsed[row]) + (_JUMP if jump is not None and row >= jump else 0)
        cells = [_moment(ask.start, seconds)]
        cells += [trace.texts.get(row, f"{trace.values[row]:.1f}") for trace in traces.values()]
        writer.writerow([*cells, events.get(row, "")] if events else cells)
    return text.getvalue()


def _by_row(run: Course, rows: NDArray[np.intp]) -> dict[int, str]:
    found: dict[int, str] = {}
    for event in run.events:
        after = rows[np.searchsorted(run.elapsed[rows], event.at) :]
        if after.size:
            found[int(after[0])] = event.kind
    return found


def _moment(start: datetime | None, seconds: float) -> str:
    if start is None:
        whole = round(seconds)
        return f"{whole // 3600:02d}:{whole // 60 % 60:02d}:{whole % 60:02d}"
    return (start + timedelta(seconds=round(seconds))).isoformat(sep=" ")
