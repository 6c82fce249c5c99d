"""Where thermocouples sit, and which channel each is plugged into."""

from __future__ import annotations

from hts.base.quantities import LENGTH
from hts.job.compiler import Job
from hts.job.compiler.changes import THERMOCOUPLE
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.tags import Tag
from hts.job.outputs.show import UP, Shown
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import EMPTY, FIGURE, Cell, Figure, Fill, as_figure, figures
from hts.paper.workbook.heads import heads, mark, since

#: An instrument whose channels the text gives, but not its name.
NOT_NAMED = "not named"


def tags(book: Book, job: Job) -> None:
    """One row for each thermocouple."""
    shown = Shown(job.units, job.changes)
    columns = [
        Column("Joint"),
        Column("Tag"),
        Column("Duty"),
        Column("Zone"),
        Column("Watches"),
        Column("Spare of"),
        Column("Clock"),
        Column("Angle, deg"),
        *heads(shown, "Arc from 12:00 clockwise", LENGTH),
        *heads(shown, "Along the weld", LENGTH),
        Column("Seen"),
        *heads(shown, "From weld centreline", LENGTH),
        Column("Side"),
        Column("Surface"),
        *heads(shown, "Lead at least", LENGTH),
        Column("Connected"),
        *since(job),
        Column("Attached, initials"),
        Column("Place checked, initials"),
    ]
    rows = [_tag(shown, sheet, tag) for sheet in job.joints for tag in sheet.tags]
    book.table("Thermocouples", "Thermocouples", columns, rows, keys=2)


def _tag(shown: Shown, sheet: JointSheet, tag: Tag) -> list[Cell]:
    arc: list[Cell] = [as_figure(text) for text in shown.tape_cells(tag.arc)]
    offset = tag.offset
    along = figures(shown, offset.distance if offset is not None else None, LENGTH)
    if tag.on_weld:
        along = ["on weld"] * len(along)
    return [
        sheet.joint.name,
        tag.tag,
        tag.duty,
        tag.zone,
        tag.place,
        tag.spare_of,
        str(tag.clock) if tag.clock is not None else EMPTY,
        Figure(round(float(tag.degrees), 1), 1) if tag.degrees is not None else EMPTY,
        *arc,
        *(as_figure(text) for text in shown.tape_cells(tag.along)),
        sheet.joint.entry.viewed or "not stated",
        *along,
        offset.side if offset is not None else EMPTY,
        tag.surface,
        *figures(shown, tag.lead, LENGTH, UP),
        "yes" if tag.connected else "no: led out only",
        *mark(shown, sheet.joint.name, "", THERMOCOUPLE, tag.tag),
        Fill(),
        Fill(),
    ]


def channels(book: Book, job: Job) -> None:
    """One row for each channel of each instrument a joint uses, free ones included."""
    columns = [
        Column("Joint"),
        Column("Treatment"),
        Column("Instrument"),
        Column("Kind"),
        Column("Channel"),
        Column("Tag"),
        Column("Duty"),
        Column("Warmed by hand, reads"),
        Column("Polarity, initials"),
        Column("Tag is channel, initials"),
    ]
    rows: list[list[Cell]] = []
    for sheet in job.joints:
        for run in sheet.runs:
            for kind in ("controller", "recorder"):
                rows += _channels(sheet.joint.name, run, kind)
    book.table("Channels", "Channel map", columns, rows)


def _channels(joint: str, run: Run, kind: str) -> list[list[Cell]]:
    """The channels of one kind of instrument; of one that is not named those in use."""
    instrument = run.program.controller if kind == "controller" else run.program.recorder
    places: dict[tuple[str, int], list[Tag | None]] = {}
    if instrument is not None and instrument.channels is not None:
        for number in range(1, instrument.channels.count + 1):
            places[(instrument.name, number)] = []
    for tag in run.tags:
        channel = tag.controller if kind == "controller" else tag.recorder
        if channel.number is not None:
            places.setdefault((channel.instrument or NOT_NAMED, channel.number), []).append(tag)
    return [
        [
            joint,
            run.program.name,
            name,
            kind,
            Figure(number),
            tag.tag if tag is not None else "free",
            tag.duty if tag is not None else EMPTY,
            Fill(FIGURE),
            Fill(),
            Fill(),
        ]
        for (name, number), here in places.items()
        for tag in here or [None]
    ]
