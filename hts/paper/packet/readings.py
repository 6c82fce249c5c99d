"""The form readings are written into by hand while heat is on."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from hts.base.quantities import TEMPERATURE, TIME, Quantity
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.wording import worded
from hts.job.outputs.show import sign
from hts.paper.packet import letters, tables
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages

#: Where the text gives no time between readings.
_HOURLY = Quantity.of(1, "h", TIME)
#: Rows on top of those expected: a part of them, and never fewer than these.
_RESERVE, _LEAST_RESERVE = Fraction(1, 4), 4
#: A longer form is copied.
_MOST = 96
#: Widths in mm: time, a column of readings at least, remarks, initials.
_TIME, _READING, _REMARKS, _INITIALS = 24.0, 12.0, 29.0, 13.0
#: A row to write in, and what stands above the first one on the first and on further pages.
_ROW, _ABOVE, _HEAD = 7.0, 30.0, 9.0


def write(page: Pages, subject: Subject) -> None:
    """A form for each treatment of each joint."""
    written = [(sheet, run) for sheet in subject.sheets for run in sheet.runs if _columns(run)]
    if not written:
        return
    page.section("Readings", across=True)
    for number, (sheet, run) in enumerate(written):
        if number:
            page.new_page()
        _form(page, subject, sheet, run)


def _columns(run: Run) -> list[str]:
    return [tag.tag for tag in run.tags if tag.connected]


def _form(page: Pages, subject: Subject, sheet: JointSheet, run: Run) -> None:
    stated = next(
        (one.reading_every for one in sheet.joint.during if one.reading_every is not None), None
    )
    every = stated or _HOURLY
    expected, rows = _count(run, every)
    unit = sign(subject.job.units.first(TEMPERATURE))
    program = run.program
    name = program.name if program.name == program.kind else f"{program.kind} {program.name}"
    page.heading(2, f"Joint {sheet.joint.name}, {name}: readings in {unit}")
    mark = "" if stated is not None else letters.PRACTICE
    span_words = (
        f"from the start of control to its end; {expected} readings are expected, the other lines "
        "are in reserve"
        if expected
        else "for as long as it lasts; copy this form when it is full"
    )
    page.line(
        f"One line every {worded(every)}{mark}, {span_words}. A reading out of range is ringed, "
        "and what was done is written down."
    )
    groups = _parts(_columns(run), page.room)
    for index, tags in enumerate(groups):
        if index:
            page.new_page()
        part = f", part {index + 1} of {len(groups)}" if len(groups) > 1 else ""
        heads = [f"Date, time{part}", "Set", *tags, "Remarks", "Initials"]
        reading = (page.room - _TIME - _REMARKS - _INITIALS) / (len(tags) + 1)
        inner = reading - 2 * tables.PADDING
        # One tall tag turns them all: a row of heads is read in one direction.
        tall = any(letters.width(tag, 7.2, True) > inner for tag in tags)
        head = max(letters.width(tag, 7.2, True) for tag in tags) if tall else 0.0
        page.form(
            heads,
            [[""] * len(heads)] * _whole_pages(rows, page.depth - head),
            (_TIME, *[reading] * (len(tags) + 1), _REMARKS, _INITIALS),
            height=_ROW,
            upright=range(2, 2 + len(tags)) if tall else (),
        )


def _count(run: Run, every: Quantity) -> tuple[int, int]:
    """Readings expected (0: nobody knows), and rows with the reserve."""
    durations = [step.times.duration for step in run.program.steps if not step.is_free]
    if any(duration is None for duration in durations):
        return 0, 0
    total = sum((duration for duration in durations if duration is not None), Fraction(0))
    expected = ceil(total / every.value) + 1
    return expected, min(expected + max(_LEAST_RESERVE, ceil(expected * _RESERVE)), _MOST)


def _whole_pages(rows: int, depth: float) -> int:
    """Lines cost nothing, and a shift that runs late needs them: rows that fill the pages."""
    first, next_ones = int((depth - _ABOVE) / _ROW), int((depth - _HEAD) / _ROW)
    return first + max(0, ceil((rows - first) / next_ones)) * next_ones


def _parts(tags: list[str], room: float) -> list[list[str]]:
    """The tags in as few tables as keep every column wide enough to write in, about alike."""
    most = max(1, int((room - _TIME - _REMARKS - _INITIALS) / _READING) - 1)
    count = ceil(len(tags) / most)
    size = ceil(len(tags) / count)
    return [tags[at : at + size] for at in range(0, len(tags), size)]
