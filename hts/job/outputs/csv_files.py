"""The tables for programs and spreadsheets: CSV after RFC 4180, one value to a cell."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from hts.base.quantities import DIFFERENCE, LENGTH, RATE, TEMPERATURE, Interval, Quantity
from hts.job.compiler.changes import STEP, THERMOCOUPLE
from hts.job.compiler.clock import Times
from hts.job.compiler.job import Job, JointSheet, Run
from hts.job.compiler.program import Program, ZoneRow
from hts.job.compiler.steps import HOLD, Step
from hts.job.compiler.tags import Channel, Tag, Wire
from hts.job.compiler.units import Units, led_by
from hts.job.compiler.why import Why
from hts.job.outputs import identity
from hts.job.outputs.show import DOWN, UP, Shown, minutes
from hts.job.outputs.text import csv_text

FREE = "free"


def setpoints(job: Job) -> str:
    """One row for each zone and step of every program."""
    shown = _for_setting(job)
    heads = [
        "joint",
        "cycle",
        "zone",
        "control thermocouple",
        "controller",
        "controller channel",
        "step",
        "action",
        "set in",
        *shown.columns("from", TEMPERATURE),
        *shown.columns("to", TEMPERATURE),
        *shown.columns("programmed rate", RATE),
        *shown.columns("rate limit", RATE),
        *shown.columns("rate limit counts from", TEMPERATURE),
        *shown.columns("hold range from", TEMPERATURE),
        *shown.columns("hold range to", TEMPERATURE),
        "duration [min]",
        "start [min]",
        "end [min]",
        "earliest start [min]",
        "earliest end [min]",
        "latest start [min]",
        "latest end [min]",
        *shown.columns("alarm above", TEMPERATURE),
        *shown.columns("alarm below", TEMPERATURE),
        "rate margin [%]",
        "source of rate or time",
        "basis",
        "note",
        *_since(job),
    ]
    rows = [
        [
            sheet.joint.name,
            run.program.name,
            *_zone(run, zone),
            *_step(shown, run.program, step),
            *_mark(shown, sheet.joint.name, run.program.name, STEP, str(step.segment)),
        ]
        for sheet in job.joints
        for run in sheet.runs
        if not run.program.by_hand
        for zone in run.program.zones
        for step in run.program.steps
    ]
    return _table(job, heads, rows)


def _for_setting(job: Job) -> Shown:
    """With a column for every unit a controller of the job is set in."""
    systems = list(job.units.systems)
    for sheet in job.joints:
        for run in sheet.runs:
            systems += led_by(Units(()), run.program.unit).systems
    return Shown(Units(tuple(dict.fromkeys(systems))), job.changes)


def _zone(run: Run, zone: ZoneRow) -> list[str]:
    control = zone.control
    if control is None:
        return [zone.name, "", "", ""]
    channel = next((tag.controller for tag in run.tags if tag.tag == control.tag), None)
    return [zone.name, control.tag, *_channel(channel)]


def _channel(channel: Channel | None) -> list[str]:
    if channel is None or channel.number is None:
        return ["", ""]
    return [channel.instrument or "", str(channel.number)]


def _step(shown: Shown, program: Program, step: Step) -> list[str]:
    why = step.least_why if step.action == HOLD else step.limit_why
    low, high = _ends(step.window)
    return [
        str(step.number),
        step.action,
        program.unit,
        *shown.cells(step.set_from, TEMPERATURE),
        *shown.setpoint_cells(step.set_to, step.window),
        *_rate(shown, step),
        *shown.cells(step.limit, RATE, DOWN),
        *shown.cells(step.counts_from, TEMPERATURE, DOWN),
        *shown.cells(low, TEMPERATURE, UP),
        *shown.cells(high, TEMPERATURE, DOWN),
        _duration(step),
        *_times(step.times, step),
        *shown.cells(step.alarm_high, TEMPERATURE, DOWN),
        *shown.cells(step.alarm_low, TEMPERATURE, UP),
        f"{float(program.margin * 100):g}",
        *_why(why),
        notes(step),
    ]


def _ends(window: Interval | None) -> tuple[Quantity | None, Quantity | None]:
    return (window.low, window.high) if window is not None else (None, None)


def _rate(shown: Shown, step: Step) -> list[str]:
    cells = shown.cells(step.rate, RATE, DOWN)
    return [FREE] * len(cells) if step.is_free else cells


def _duration(step: Step) -> str:
    if step.is_free:
        return FREE
    return minutes(step.times.duration, UP, 4)


def _times(times: Times, step: Step) -> list[str]:
    """Nominal, earliest and latest; the end of a hold without a time is open."""
    endless = step.action == HOLD and times.duration is None
    return [
        minutes(times.begin),
        minutes(None if endless else times.finish),
        minutes(times.earliest_begin, UP),
        minutes(None if endless else times.earliest_finish, UP),
        minutes(times.latest_begin, DOWN),
        minutes(times.latest_finish, DOWN),
    ]


def notes(step: Step) -> str:
    """What is to be known about a step beside its numbers."""
    medium = f"in {step.medium}" if step.medium else ""
    return "; ".join(part for part in (medium, step.note) if part)


def _why(why: Why | None) -> list[str]:
    return [why.cited, why.basis] if why is not None else ["", ""]


def schedule(job: Job) -> str:
    """The setpoint at every interval, for all zones of a joint alike."""
    shown = Shown(job.units, job.changes)
    heads = [
        "joint",
        "cycle",
        "elapsed [min]",
        *shown.columns("setpoint", TEMPERATURE),
        "step",
        "action",
    ]
    rows = []
    for sheet in job.joints:
        for run in sheet.runs:
            if run.program.by_hand:
                continue
            for point in run.points:
                step = point.step
                # A rising setpoint is never shown above the line, a falling one never below it.
                toward = {"heat": DOWN, "cool": UP}.get(step.action)
                cells = (
                    shown.cells(point.setpoint, TEMPERATURE, toward)
                    if toward and point.setpoint != step.end
                    else shown.setpoint_cells(point.setpoint, step.window)
                )
                action = f"{step.action}, {FREE}" if step.is_free else step.action
                rows.append(
                    [
                        sheet.joint.name,
                        run.program.name,
                        minutes(point.elapsed),
                        *cells,
                        str(step.number),
                        action,
                    ]
                )
    return _table(job, heads, rows)


def tags(job: Job) -> str:
    """One row for each thermocouple."""
    shown = Shown(job.units, job.changes)
    heads = [
        "joint",
        "cycle",
        "tag",
        "duty",
        "zone",
        "place",
        "clock",
        "angle [deg]",
        *shown.columns("arc along the outside from 12:00 clockwise", LENGTH),
        *shown.columns("along the weld", LENGTH),
        "datum at 12:00",
        "seen",
        "axial position",
        *shown.columns("from weld centreline", LENGTH),
        "side",
        "surface",
        "type",
        "class",
        "colour standard",
        "wire +",
        "wire -",
        "wire jacket",
        "extension",
        "extension class",
        "extension +",
        "extension -",
        "extension jacket",
        "controller",
        "controller channel",
        "recorder",
        "recorder channel",
        "spare of",
        "connected",
        *shown.columns("hold setpoint", TEMPERATURE),
        *shown.columns("limit of error at hold +/-", DIFFERENCE),
        *shown.columns("reference junction", TEMPERATURE),
        "expected at hold [mV]",
        "basis",
        *_since(job),
    ]
    rows = [_tag(shown, sheet, tag) for sheet in job.joints for tag in sheet.tags]
    return _table(job, heads, rows)


def _tag(shown: Shown, sheet: JointSheet, tag: Tag) -> list[str]:
    entry = sheet.joint.entry
    offset = tag.offset
    return [
        sheet.joint.name,
        sheet.hottest.program.name if sheet.hottest is not None else "",
        tag.tag,
        tag.duty,
        tag.zone,
        tag.place,
        str(tag.clock) if tag.clock is not None else "",
        f"{float(tag.degrees):.4g}" if tag.degrees is not None else "",
        *shown.tape_cells(tag.arc),
        *shown.tape_cells(tag.along),
        entry.datum or "top, assumed",
        entry.viewed or "not stated",
        "on weld" if tag.on_weld else "beside the weld" if offset else "not stated",
        *shown.cells(offset.distance if offset is not None else None, LENGTH),
        offset.side if offset is not None else "",
        tag.surface,
        *_wire(sheet.wire),
        *_channel(tag.controller),
        *_channel(tag.recorder),
        tag.spare_of,
        "yes" if tag.connected else "no: led out only",
        *_proof(shown, sheet),
        *_mark(shown, sheet.joint.name, "", THERMOCOUPLE, tag.tag),
    ]


def _wire(wire: Wire | None) -> list[str]:
    assert wire is not None, "who has thermocouples says their type"
    found = [wire.type, wire.grade, wire.standard]
    for colours, code in ((wire.couple, None), (wire.cable, (wire.cable_code, wire.cable_grade))):
        found += code or ()
        found += [colours.positive, colours.negative, colours.jacket] if colours else ["", "", ""]
    return found


def _proof(shown: Shown, sheet: JointSheet) -> list[str]:
    proof = sheet.hottest.proof if sheet.hottest is not None else None
    if proof is None:
        return [
            *shown.cells(None, TEMPERATURE),
            *shown.cells(None, DIFFERENCE),
            *shown.cells(None, TEMPERATURE),
            "",
            "",
        ]
    error = proof.wire
    return [
        *shown.cells(proof.at, TEMPERATURE),
        *shown.cells(error.error if error else None, DIFFERENCE, UP),
        *shown.cells(proof.reference, TEMPERATURE),
        proof.millivolts or "",
        error.why.basis if error else "",
    ]


def _since(job: Job) -> list[str]:
    """The heading of the marks of change; none where nobody asked for them."""
    return [f"changed since {job.changes.since}"] if job.changes is not None else []


def _mark(shown: Shown, joint: str, treatment: str, kind: str, name: str) -> list[str]:
    """The cell below it."""
    if shown.changes is None:
        return []
    return [shown.changed(joint, treatment, kind, name)]


def _table(job: Job, heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """The text of a table, with the identity of the document at the end of every row.

    Empty without a row.
    """
    if not rows:
        return ""
    named = identity.cells(job.document)
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow([*heads, *identity.COLUMNS])
    for row in rows:
        if len(row) != len(heads):
            raise ValueError(f"{len(row)} cells in a table of {len(heads)} columns")
        writer.writerow([csv_text(cell) for cell in (*row, *named)])
    return text.getvalue()
