"""The form readings are written into by hand while heat is on."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from hts.base.quantities import TEMPERATURE, TIME, Quantity
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import PREHEAT
from hts.job.compiler.wording import worded
from hts.job.outputs import by_hand, key_in
from hts.job.outputs.show import DOWN, UP, sign
from hts.paper.packet import letters, tables
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages
from hts.paper.packet.placing import limits_of, short

#: Where the text gives no time between readings.
HOURLY = Quantity.of(1, "h", TIME)
#: Rows on top of those expected: a part of them, and never fewer than these.
_RESERVE, _LEAST_RESERVE = Fraction(1, 6), 2
#: A longer form is copied.
_MOST = 96
#: Widths in mm: time, a column of readings at least, remarks, initials.
_TIME, _READING, _REMARKS, _INITIALS = 22.0, 8.6, 20.0, 13.0
#: Lines of a form nobody can tell the length of.
_FEWEST = 12
_ROW = 5.0
#: Lines of the log of preheat, and where the joint has no other treatment.
_PASSES, _PASSES_ALONE = 5, 20


def write(page: Pages, subject: Subject) -> None:
    """A form for each treatment of each joint."""
    written = [
        (sheet, run)
        for sheet in subject.sheets
        for run in sheet.runs
        if run.program.kind == PREHEAT or columns(run)
    ]
    if not written:
        return
    room = page.frame.room(across=False) - _TIME - _REMARKS - _INITIALS
    across = any(
        (len(columns(run)) + 1) * _READING > room
        for _, run in written
        if run.program.kind != PREHEAT
    )
    page.section("Preheat, readings and time at temperature", across=across, fresh=True)
    for sheet, run in written:
        if run.program.kind == PREHEAT:
            if run.program.by_hand:
                page.heading(3, f"Joint {sheet.joint.name}, preheat kept by hand")
                page.facts(
                    (what, text + subject.mark(why))
                    for what, text, why, _ in by_hand.rows(subject.shown, run)
                )
            else:
                key_in.preheat_to_key_in(page, subject.shown, letters.marks(), run)
            _passes(page, subject, sheet, run)
        else:
            _form(page, subject, sheet, run)


def _passes(page: Pages, subject: Subject, sheet: JointSheet, run: Run) -> None:
    """The log of preheat: one line for each pass, with where and by what it was measured."""
    hold = next(step for step in reversed(run.program.steps) if step.window is not None)
    window = hold.window
    assert window is not None and window.low is not None and window.high is not None
    unit = sign(subject.job.units.first(TEMPERATURE))
    low = subject.shown.bare(window.low, TEMPERATURE, UP)
    high = subject.shown.bare(window.high, TEMPERATURE, DOWN)
    page.heading(3, f"Joint {sheet.joint.name}, preheat: readings in {unit}")
    page.line(
        f"One line before each pass. Before the arc at least {low}, interpass at most {high}. A "
        "reading outside is ringed, the arc waits, and what was done is written down."
    )
    page.form(
        (
            "Pass",
            "Date, time",
            "Place: clock, from the groove, side",
            "Probe or tag",
            f"Before the arc, at least {low}",
            f"Interpass, at most {high}",
            "Welder, remarks",
            "Initials",
        ),
        [[""] * 8] * (_PASSES if len(sheet.runs) > 1 else _PASSES_ALONE),
        (11, 24, 34, 20, 22, 22, 28, 13),
        height=_ROW,
        dense=True,
    )


def stated_interval(sheet: JointSheet) -> Quantity | None:
    """The time between two readings, where the text gives one."""
    return next(
        (one.reading_every for one in sheet.joint.during if one.reading_every is not None), None
    )


def columns(run: Run) -> list[str]:
    """The tags to read; a spare is read in the column of the one it stands in for."""
    return [tag.tag for tag in run.tags if tag.connected and not tag.spare_of]


def _form(page: Pages, subject: Subject, sheet: JointSheet, run: Run) -> None:
    stated = stated_interval(sheet)
    every = stated or HOURLY
    limits = limits_of(subject, sheet, run)
    expected, rows = count(run, every)
    unit = sign(subject.job.units.first(TEMPERATURE))
    program = run.program
    name = program.name if program.name == program.kind else f"{program.kind} {program.name}"
    page.heading(3, f"Joint {sheet.joint.name}, {name}: readings in {unit}")
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
    groups = _parts(columns(run), page.room)
    for index, tags in enumerate(groups):
        part = f", part {index + 1} of {len(groups)}" if len(groups) > 1 else ""
        heads = [f"Date, time{part}", "Set", *tags, "Remarks", "Initials"]
        bounds = [
            f"Limits of {program.name}, {unit}",
            "",
            *(short(limits.get(tag, "")) for tag in tags),
            "",
            "",
        ]
        reading = (page.room - _TIME - _REMARKS - _INITIALS) / (len(tags) + 1)
        inner = reading - 2 * tables.PADDING
        # One tall tag turns them all: a row of heads is read in one direction.
        tall = any(letters.width(tag, 7.2, True) > inner for tag in tags)
        page.form(
            heads,
            [bounds, *[[""] * len(heads)] * max(rows, _FEWEST)],
            (_TIME, *[reading] * (len(tags) + 1), _REMARKS, _INITIALS),
            height=_ROW,
            upright=range(2, 2 + len(tags)) if tall else (),
            dense=True,
            lead=1,
        )


def count(run: Run, every: Quantity) -> tuple[int, int]:
    """Readings expected (0: nobody knows), and rows with the reserve."""
    durations = [step.times.duration for step in run.program.steps if not step.is_free]
    if any(duration is None for duration in durations):
        return 0, 0
    total = sum((duration for duration in durations if duration is not None), Fraction(0))
    expected = ceil(total / every.value) + 1
    return expected, min(expected + max(_LEAST_RESERVE, ceil(expected * _RESERVE)), _MOST)


def _parts(tags: list[str], room: float) -> list[list[str]]:
    """The tags in as few tables as keep every column wide enough to write in, about alike."""
    most = max(1, int((room - _TIME - _REMARKS - _INITIALS) / _READING) - 1)
    count = ceil(len(tags) / most)
    size = ceil(len(tags) / count)
    return [tags[at : at + size] for at in range(0, len(tags), size)]
