"""The form readings are written into by hand while heat is on."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from hts.base.quantities import TEMPERATURE, TIME, Quantity
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import PREHEAT
from hts.job.compiler.wording import worded
from hts.job.outputs.show import sign
from hts.language.vocabulary.cycle import Cycle
from hts.paper.packet import letters, preheat_log, tables
from hts.paper.packet.groups import Subject, headed
from hts.paper.packet.pages import Pages
from hts.paper.packet.placing import limits_of, short
from hts.paper.packet.preheat_log import ROW

#: Where the text gives no time between readings.
HOURLY = Quantity.of(1, "h", TIME)
#: Rows on top of those expected: a part of them, and never fewer than these.
_RESERVE, _LEAST_RESERVE = Fraction(1, 10), 2
#: A longer form is copied.
_MOST = 96
#: Widths in mm: time, a column of readings at least, remarks, initials.
_TIME, _READING, _REMARKS, _INITIALS = 22.0, 8.6, 20.0, 13.0
#: Size of the letters, points.
_LETTERS = 7.4
#: Lines of a form nobody can tell the length of.
_FEWEST = 12


#: A joint with a run of its own.
_Run = tuple[JointSheet, Run]


def preheat(page: Pages, subject: Subject) -> None:
    """The log of preheat by itself, where the forms of the readings are so wide that their sheets
    lie on their side and have little height for it."""
    preheats = _preheats(subject)
    if preheats and _is_wide(page, _written(subject)):
        page.section("Preheat")
        preheat_log.write(page, subject, preheats)


def write(page: Pages, subject: Subject) -> None:
    """A log of preheat, and a form for each bake and cycle; joints heated together are read on
    one."""
    written = _written(subject)
    across = _is_wide(page, written)
    preheats = [] if across else _preheats(subject)
    if not preheats and not written:
        return
    title = "Preheat, readings" if preheats else "Readings"
    page.section(f"{title} and time at temperature", across=across, fresh=True)
    preheat_log.write(page, subject, preheats)
    for some in written:
        _form(page, subject, some)


def _preheats(subject: Subject) -> list[_Run]:
    return [
        (sheet, run)
        for sheet in subject.sheets
        for run in sheet.runs
        if run.program.kind == PREHEAT
    ]


def _written(subject: Subject) -> list[list[_Run]]:
    return [some for some in _together(subject) if any(columns(run) for _, run in some)]


def _is_wide(page: Pages, written: list[list[_Run]]) -> bool:
    """Whether a form has more columns than an upright sheet has room for."""
    room = page.frame.room(across=False) - _TIME - _REMARKS - _INITIALS
    return any(
        (sum(len(columns(run)) for _, run in some) + 1) * _READING > room for some in written
    )


def _together(subject: Subject) -> Iterator[list[_Run]]:
    """Bakes and cycles, those of joints that are heated at the same time in one."""
    found: dict[int, list[_Run]] = {}
    for sheet in subject.sheets:
        for run in sheet.runs:
            entry = run.program.entry
            if run.program.kind != PREHEAT:
                key = entry if isinstance(entry, Cycle) and entry.together else run
                found.setdefault(id(key), []).append((sheet, run))
    yield from found.values()


def stated_interval(sheet: JointSheet) -> Quantity | None:
    """The time between two readings, where the text gives one."""
    return next(
        (one.reading_every for one in sheet.joint.during if one.reading_every is not None), None
    )


def columns(run: Run) -> list[str]:
    """The tags to read; a spare is read in the column of the one it stands in for."""
    return [tag.tag for tag in run.tags if tag.connected and not tag.spare_of]


def _form(page: Pages, subject: Subject, some: list[_Run]) -> None:
    sheet, run = some[0]
    stated = stated_interval(sheet)
    every = stated or HOURLY
    expected, rows = max(count(one, every) for _, one in some)
    unit = sign(subject.job.units.first(TEMPERATURE))
    program = run.program
    name = program.name if program.name == program.kind else f"{program.kind} {program.name}"
    joints = headed([one.joint.name for one, _ in some])
    page.heading(3, f"{joints}, {name}: readings in {unit}")
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
    read = [
        (f"{own.joint.name} {tag}" if len(some) > 1 else tag, short(limits.get(tag, "")))
        for own, one in some
        for limits in (limits_of(subject, own, one),)
        for tag in columns(one)
    ]
    groups = _parts(read, page.room)
    for index, part in enumerate(groups):
        told = f", part {index + 1} of {len(groups)}" if len(groups) > 1 else ""
        heads = [f"Date, time{told}", "Set", *(tag for tag, _ in part), "Remarks", "Initials"]
        reading = (page.room - _TIME - _REMARKS - _INITIALS) / (len(part) + 1)
        inner = reading - 2 * tables.PADDING
        limits = [_in_lines(limit, inner) for _, limit in part]
        bounds = [f"Limits of {program.name}, {unit}", "", *limits, "", ""]
        # One tall tag turns them all: a row of heads is read in one direction.
        tall = any(letters.width(tag, 7.2, True) > inner for tag, _ in part)
        page.form(
            heads,
            [bounds, *[[""] * len(heads)] * (rows or _FEWEST)],
            (_TIME, *[reading] * (len(part) + 1), _REMARKS, _INITIALS),
            height=ROW,
            upright=range(2, 2 + len(part)) if tall else (),
            dense=True,
            lead=1,
        )


def _in_lines(limit: str, room: float) -> str:
    """`605–645`; in two lines, or three, where that is too wide: no figure is broken."""
    low, dash, high = limit.partition("–")
    if not dash or letters.width(limit, _LETTERS) <= room:
        return limit
    is_wide = any(letters.width(part, _LETTERS) > room for part in (low + dash, high))
    return f"{low} to {high}" if is_wide else f"{low}{dash} {high}"


def count(run: Run, every: Quantity) -> tuple[int, int]:
    """Readings expected (0: nobody knows), and rows with the reserve."""
    durations = [step.times.duration for step in run.program.steps if not step.is_free]
    if any(duration is None for duration in durations):
        return 0, 0
    total = sum((duration for duration in durations if duration is not None), Fraction(0))
    expected = ceil(total / every.value) + 1
    return expected, min(expected + max(_LEAST_RESERVE, ceil(expected * _RESERVE)), _MOST)


def _parts(tags: list[tuple[str, str]], room: float) -> list[list[tuple[str, str]]]:
    """The tags with their limits in as few tables as keep every column wide enough to write in,
    about alike."""
    most = max(1, int((room - _TIME - _REMARKS - _INITIALS) / _READING) - 1)
    count = ceil(len(tags) / most)
    size = ceil(len(tags) / count)
    return [tags[at : at + size] for at in range(0, len(tags), size)]
