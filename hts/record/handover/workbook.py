"""A judged record as a spreadsheet workbook."""

from __future__ import annotations

from fractions import Fraction
from math import isnan

import numpy as np

from hts.base.quantities import TEMPERATURE
from hts.job.compiler.fingerprint import grouped
from hts.job.outputs.show import sign
from hts.paper.sheet import Size
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import EMPTY, Cell, Figure, duration
from hts.record.faults.fault_kinds import BY_NAME
from hts.record.faults.fault_kinds import LEFT_OUT as LEAVE_OUT
from hts.record.handover.identity import wired
from hts.record.handover.thermocouples import shown
from hts.record.handover.words import event_words, failures, judged, outcome
from hts.record.judging import Judgement
from hts.record.judging.moving import Fastest
from hts.record.record import LEFT_OUT

#: A sheet holds 1,048,576 rows (ISO/IEC 29500); a record of more is told by every n-th row.
MOST_ROWS = 100_000


def workbook(judgement: Judgement, size: Size) -> bytes:
    """Sheets for the verdicts, the failures, each thermocouple, the readings and their origin."""
    book = Book(judgement.plan.job, size)
    for sheet in (_verdicts, _failures, _thermocouples, _readings, _set_aside, _record):
        sheet(book, judgement)
    return book.data()


def _verdicts(book: Book, judgement: Judgement) -> None:
    columns = [
        Column("Requirement", 32),
        Column("Specified", 44),
        Column("Recorded", 44),
        Column("Verdict", 14),
        Column("Asked for by", 34),
        Column("Basis"),
    ]
    rows: list[list[Cell]] = [
        [
            verdict.requirement,
            verdict.specified,
            verdict.actual,
            outcome(verdict) if not verdict.elsewhere else "by other documents",
            verdict.source.cited if verdict.source is not None else EMPTY,
            verdict.source.basis if verdict.source is not None else EMPTY,
        ]
        for verdict in judgement.verdicts
    ]
    notes = [f"Overall: {judgement.overall}."]
    if judgement.record.simulated:
        notes.append("The record says that it is simulated: no metal was heated.")
    book.table("Verdicts", "Record judged", columns, rows, notes)


def _failures(book: Book, judgement: Judgement) -> None:
    of = {id(f): one.requirement for one in judged(judgement) for f in one.failures}
    clock = judgement.record.clock
    rows: list[list[Cell]] = [
        [
            Figure(number),
            of[id(failure)],
            ", ".join(failure.tags),
            clock(failure.start),
            clock(failure.end),
            duration(_seconds(failure.end - failure.start)),
            failure.sentence,
        ]
        for number, failure in enumerate(failures(judgement), 1)
    ]
    columns = [
        Column("Mark", 7),
        Column("Requirement", 26),
        Column("Thermocouples", 16),
        Column("From", 20),
        Column("Until", 20),
        Column("Time, h:mm"),
        Column("What the record shows", 70),
    ]
    book.table("Not met or shown", "Not met or not shown", columns, rows)


def _thermocouples(book: Book, judgement: Judgement) -> None:
    clock, degrees = judgement.record.clock, _degrees(judgement)

    def temperature(value: float | None) -> Cell:
        return Figure(round(_in(judgement, value), 1), 1) if value is not None else EMPTY

    fahrenheit = judgement.plan.job.units.first(TEMPERATURE) == "degF"
    per_hour = "°F/h" if fahrenheit else "K/h"

    def rate(one: Fastest | None) -> Cell:
        return Figure(round(one.rate * (1.8 if fahrenheit else 1.0), 1), 1) if one else EMPTY

    wiring = {row[0]: row[3:] for row in wired(judgement)}
    rows: list[list[Cell]] = [
        [
            one.one.tag,
            one.one.duty,
            one.one.place,
            one.one.zone,
            *(cell or EMPTY for cell in wiring[one.one.tag]),
            "yes" if one.one.required else "no",
            temperature(one.most),
            clock(one.when),
            temperature(one.low),
            temperature(one.high),
            duration(_seconds(one.inside)),
            Figure(one.readings),
            Figure(one.missing),
            rate(one.heating),
            rate(one.cooling),
        ]
        for one in shown(judgement)
    ]
    columns = [
        Column("Tag"),
        Column("Duty"),
        Column("Watches"),
        Column("Zone"),
        Column("Clock"),
        Column("From the weld", 16),
        Column("Type"),
        Column("Wire lot"),
        Column("Recorder", 14),
        Column("Controller", 14),
        Column("Required", 9),
        Column(f"Highest, {degrees}"),
        Column("Read at", 20),
        Column(f"Lowest in the hold, {degrees}"),
        Column(f"Highest in the hold, {degrees}"),
        Column("Time in range, h:mm"),
        Column("Readings", 9),
        Column("Missing", 9),
        Column(f"Fastest heating, {per_hour}"),
        Column(f"Fastest cooling, {per_hour}"),
    ]
    book.table("Thermocouples", "Thermocouples", columns, rows)


def _readings(book: Book, judgement: Judgement) -> None:
    record = judgement.record
    step = max(1, -(-len(record.elapsed) // MOST_ROWS))
    tags = list(record.series)
    columns = [Column("Clock", 20), Column("Elapsed, h:mm", 10)]
    columns += [Column(f"{tag}, {_degrees(judgement)}", 10) for tag in tags]
    values = [record.series[tag].values for tag in tags]
    rows: list[list[Cell]] = []
    for row in range(0, len(record.elapsed), step):
        seconds = float(record.elapsed[row])
        cells: list[Cell] = [record.clock(seconds), duration(_seconds(seconds))]
        for column in values:
            value = float(column[row])
            cells.append(EMPTY if isnan(value) else Figure(round(_in(judgement, value), 1), 1))
        rows.append(cells)
    notes = [f"One row in {step} of the record."] if step > 1 else []
    book.table("Readings", "Readings", columns, rows, notes, keys=2)


def _set_aside(book: Book, judgement: Judgement) -> None:
    """Readings that faults set aside, as the file has them: nothing recorded is thrown away."""
    record = judgement.record
    rows: list[list[Cell]] = []
    more = False
    for tag, series in record.series.items():
        for row in np.flatnonzero(series.status == LEFT_OUT).tolist():
            value = float(series.as_read[row])
            if isnan(value):
                continue
            if more := len(rows) >= MOST_ROWS:
                break
            at = float(record.elapsed[row])
            why = ", ".join(
                BY_NAME[fault.kind].title
                for fault in judgement.faults
                if fault.treatment == LEAVE_OUT
                and fault.tag in ("", tag)
                and any(spell.start <= at <= spell.end for spell in fault.wrong)
            )
            reading = Figure(round(_in(judgement, value), 1), 1)
            rows.append([tag, record.clock(at), duration(_seconds(at)), reading, why])
    if not rows:
        return
    columns = [
        Column("Tag"),
        Column("Clock", 20),
        Column("Elapsed, h:mm", 10),
        Column(f"As recorded, {_degrees(judgement)}"),
        Column("Fault", 30),
    ]
    notes = [f"The first {MOST_ROWS:,}."] if more else []
    book.table("Set aside", "Readings set aside as faulty", columns, rows, notes)


def _record(book: Book, judgement: Judgement) -> None:
    record = judgement.record
    rows: list[list[Cell]] = [["record fingerprint", grouped(record.digest)]]
    rows += [
        ["file", f"{file.name}: {file.rows} rows, SHA-256 {file.digest}"] for file in record.files
    ]
    rows += [["assumed", text] for text in (*record.assumed, *judgement.assumed)]
    rows += [["event", f"{record.clock(event.at)} {event_words(event)}"] for event in record.events]
    rows += [
        [
            "fault",
            f"{fault.whose} {BY_NAME[fault.kind].title}, {record.clock(fault.start)} to "
            f"{record.clock(fault.end)}: {fault.evidence}; {fault.confidence} confidence, "
            f"{fault.treatment}",
        ]
        for fault in judgement.faults
    ]
    rows += [["worked out", f"{figure.name}: {figure.sentence}"] for figure in judgement.noted]
    book.table("Record", "Basis of this report", [Column("What", 20), Column("Says", 110)], rows)


def _degrees(judgement: Judgement) -> str:
    return sign(judgement.plan.job.units.first(TEMPERATURE))


def _in(judgement: Judgement, celsius: float) -> float:
    """A reading in the governing unit."""
    fahrenheit = judgement.plan.job.units.first(TEMPERATURE) == "degF"
    return celsius * 1.8 + 32 if fahrenheit else celsius


def _seconds(value: float) -> Fraction:
    return Fraction(round(value))
