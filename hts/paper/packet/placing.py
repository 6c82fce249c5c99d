"""One table for every thermocouple: place, tape, channel, duty, limit, and boxes to tick."""

from __future__ import annotations

import re

from hts.base.quantities import LENGTH, TEMPERATURE, Quantity
from hts.job.compiler.changes import THERMOCOUPLE
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.tags import Tag, Wire
from hts.job.demands.asked import Asked
from hts.job.outputs import tag_sheet
from hts.job.outputs.show import DOWN, UP, Shown, sign
from hts.paper.drawings.key import LEAST_WIDTH
from hts.paper.drawings.marks import is_numbered
from hts.paper.packet import layout, letters
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import BOX, Pages

#: So many rows fit on a sheet below what is said of them: a table is not broken then.
_WHOLE = 20


def write(page: Pages, subject: Subject) -> None:
    """A table for each joint, on a sheet of its own."""
    sheets = [sheet for sheet in subject.sheets if sheet.tags]
    if not sheets:
        page.section("Thermocouples")
        page.line("No thermocouples are specified.")
        return
    page.section("Thermocouples", across=True, fresh=True)
    told: tuple[str, ...] = ("",) * 3
    for sheet in sheets:
        subject.head(page, sheet)
        own = (_found(subject, sheet), _wires(subject, sheet), _letters(sheet))
        # What is so for the joint before, too, is not said again.
        for text, before in zip(own, told, strict=True):
            if text and text != before:
                page.line(text)
        told = own
        _joint(page, subject, sheet)
    if layout.beside_tags(subject):
        layout.columns(page, subject)


def _found(subject: Subject, sheet: JointSheet) -> str:
    return " ".join(tag_sheet.how_to_find(subject.shown, sheet))


def _wires(subject: Subject, sheet: JointSheet) -> str:
    if sheet.wire is None:
        return "Wire and extension cable: not specified."
    return f"{_colours(sheet.wire)}{_leads(subject.shown, sheet)}"


def _shown_run(sheet: JointSheet) -> Run | None:
    """The treatment whose channels and limits stand in the table."""
    return sheet.hottest or (sheet.runs[-1] if sheet.runs else None)


def _letters(sheet: JointSheet) -> str:
    run = _shown_run(sheet)
    for_run = f" Channels, duties and limits are those of {run.program.name}." if run else ""
    return (
        f"R: required, in range for the hold to count.{for_run} Warmed: the junction is warmed by "
        "hand before power goes on; ticked when this channel, and no other, moves upwards."
    )


def _joint(page: Pages, subject: Subject, sheet: JointSheet) -> None:
    run = _shown_run(sheet)
    limits = limits_of(subject, sheet, run) if run is not None else {}
    required = {one.tag for one in Asked(subject.job, sheet, run).required} if run else set()
    shown = subject.shown
    own_leads = len({tag.lead for tag in sheet.tags}) > 1
    branched = any(tag.taped is not None for tag in sheet.tags)
    if branched:
        page.line(" ".join(tag_sheet.counted_from(shown, sheet)))
    numbered = is_numbered(sheet.tags) and page.room >= LEAST_WIDTH
    along = tag_sheet.is_along(sheet)
    number = {tag.tag: str(count) if numbered else "" for count, tag in enumerate(sheet.tags, 1)}
    page.form(
        (
            *(("No.",) if numbered else ()),
            "Tag",
            "R",
            "Duty",
            *(
                (shown.head("Along the weld", LENGTH), shown.head("From weld toe", LENGTH))
                if along
                else ("Clock", shown.head("Tape from 12:00", LENGTH))
            ),
            shown.head("From weld centreline", LENGTH),
            "Taped along the outside" if branched else "Side",
            "Recorder",
            "Controller",
            f"Limit, {sign(shown.units.first(TEMPERATURE))}",
            *(("Lead",) if own_leads else ()),
            "Placed",
            "Checked",
            "Warmed",
            "As found, initials",
        ),
        [
            _row(shown, tag, number, tag.tag in required, limits.get(tag.tag, ""), own_leads)
            for tag in sheet.tags
        ],
        _widths(own_leads, branched, numbered, along),
        height=4.7,
        dense=True,
        whole=len(sheet.tags) <= _WHOLE,
        changed=[shown.changed(sheet.joint.name, "", THERMOCOUPLE, tag.tag) for tag in sheet.tags],
    )


def _widths(own_leads: bool, branched: bool, numbered: bool, along: bool) -> tuple[int, ...]:
    """Parts of the page for the columns; lengths about a branch, and tags that are numbered for
    their length, take from the rest."""
    lead = (17,) if own_leads else ()
    number = (7,) if numbered else ()
    if branched:
        return (*number, 14, 6, 34, 12, 24, 22, 82, 14, 15, 16, *lead, 11, 12, 12, 18)
    if along:
        return (*number, 19, 6, 36, 26, 23, 25, 18, 18, 16, 20, *lead, 11, 12, 12, 25)
    if numbered:
        return (*number, 24, 5, 36, 12, 27, 24, 16, 14, 15, 20, *lead, 11, 12, 12, 20)
    return (19, 6, 36, 13, 28, 25, 18, 20, 17, 22, *lead, 11, 12, 12, 25)


def _side(tag: Tag, taped: str) -> str:
    """The side and the lengths taped there; lengths that name the side say it alone."""
    side = (tag.offset.side or "") if tag.offset is not None else ""
    if not taped:
        return side
    return taped if f"the {side.removeprefix('on ')} " in taped else f"{side}: {taped}"


def _row(
    shown: Shown, tag: Tag, number: dict[str, str], required: bool, limit: str, own_lead: bool
) -> tuple[str, ...]:
    """`number` is that of each tag on the drawings, empty where they name the tags themselves."""
    offset = tag.offset
    place = "on weld" if tag.on_weld else "not stated"
    if offset is not None:
        place = shown.bare(offset.distance, LENGTH)
    surface = ", inside" if tag.surface == "inside" else ""
    duty, numbered = tag_sheet.duty(tag), number[tag.tag]
    if numbered and tag.spare_of in number:
        # Long tags would take two lines each, and the numbers stand beside them.
        duty = f"spare of No. {number[tag.spare_of]}"
        limit = limit.replace(f"as {tag.spare_of}", f"as No. {number[tag.spare_of]}")
    return (
        *((numbered,) if numbered else ()),
        tag.tag,
        "R" if required else "",
        duty,
        *_where(shown, tag),
        place,
        _side(tag, tag_sheet.taped(shown, tag)) + surface,
        tag_sheet.short_connection(tag.recorder) if tag.connected else "led out only",
        tag_sheet.short_connection(tag.controller),
        short(limit),
        *((shown.text(tag.lead, UP) if tag.lead is not None else "",) if own_lead else ()),
        BOX,
        BOX,
        BOX,
        "",
    )


def _where(shown: Shown, tag: Tag) -> tuple[str, str]:
    """Clock and tape, or the length along the weld and the distance from its toe."""
    if tag.along is not None:
        return shown.tape(tag.along), shown.bare(tag.from_toe, LENGTH)
    return str(tag.clock) if tag.clock is not None else "", shown.tape(tag.arc)


def short(limit: str) -> str:
    """A limit in the unit of the form alone, short enough for a narrow column."""
    return re.sub(r" \([^)]*\)", "", limit).replace(" to ", "–")


def _colours(wire: Wire) -> str:
    """`Wire K class 1: + green, − white, jacket green; cable KX …`"""
    parts = []
    for what, marking, colours in (
        ("Wire", f"{wire.type} class {wire.grade}", wire.couple),
        ("extension cable", wire.cable_code, wire.cable),
    ):
        if marking and colours is not None:
            mark = letters.mark_of(colours.origin.basis)
            parts.append(
                f"{what} {marking}: + {colours.positive}, - {colours.negative}, jacket "
                f"{colours.jacket}{mark}"
            )
        elif marking:
            parts.append(f"{what} {marking}")
    return f"{'; '.join(parts)} ({wire.standard})." if parts else ""


def _leads(shown: Shown, sheet: JointSheet) -> str:
    lead = sheet.tags[0].lead
    alike = len({tag.lead for tag in sheet.tags}) == 1
    return f" Leads at least {shown.text(lead, UP)}." if lead is not None and alike else ""


def limits_of(subject: Subject, sheet: JointSheet, run: Run) -> dict[str, str]:
    """Tag -> between which temperatures its readings stay in this run; none where nothing says."""
    asked, shown = Asked(subject.job, sheet, run), subject.shown
    windows = [step.window for step in asked.hold_steps if step.window is not None]
    found: dict[str, str] = {}
    if windows:
        hottest = max(windows, key=lambda one: one.high.value if one.high is not None else 0)
        top = f"max {shown.bare(hottest.high, TEMPERATURE, DOWN)}"
        for one in asked.watched:
            if one.required:
                found[one.tag] = shown.bare_window(hottest)
            elif one.spare_of in {other.tag for other in asked.required}:
                found[one.tag] = f"as {one.spare_of}"
            elif one.place not in ("nearby item", "ambient", "test plate"):
                found[one.tag] = top
    for item in sheet.joint.entry.nearby:
        if isinstance(item.at_most, Quantity) and not item.removed:
            for one in asked.watching(item):
                found[one.tag] = f"max {shown.bare(item.at_most, TEMPERATURE, DOWN)}"
    return found
