"""The drawings of a joint as pages."""

from __future__ import annotations

from hts.job.compiler.changes import BAND, THERMOCOUPLE, ZONE
from hts.job.compiler.job import JointSheet
from hts.language.model.seam import SIDES
from hts.paper.drawings import attachment_card, section, section_along, unrolled
from hts.paper.drawings.key import LEAST_WIDTH
from hts.paper.packet import layout
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import ROUGHLY, Pages

#: Room for a section's title and for the line below a drawing, mm.
_TITLE, _LINE, _GUTTER = 12.0, 9.0, 5.0
#: Width of the column beside the section on a sheet on its side, mm; the section has the rest.
_COLUMN = 116.0


def at_the_pipe(page: Pages, subject: Subject) -> None:
    """The drawings of each joint, with the layout of heaters, bands and insulation beside."""
    page.section("Drawing: the joint unrolled", across=True)
    for number, sheet in enumerate(subject.sheets):
        if number:
            page.new_page()
        size = (page.room, page.depth - _TITLE - _LINE)
        kind = sheet.joint.entry.kind or ""
        said = _ON_RUN if kind == "branch" else _FLAT if kind in SIDES else _UNROLLED
        page.drawing(unrolled(subject.job, sheet, size), size, said + _changed(subject, sheet))
    if layout.beside_tags(subject):
        return
    page.section("Drawing: the section, and the layout", across=True, fresh=True)
    for number, sheet in enumerate(subject.sheets):
        if number:
            page.new_page()
        width = page.room - _COLUMN - _GUTTER
        size = (width, page.depth - _TITLE - _LINE)
        beside = Pages(page.frame, _COLUMN)
        layout.write(beside, subject, sheet, brief=True)
        drawn = section(subject.job, sheet, size, page.room >= LEAST_WIDTH)
        if beside.height * ROUGHLY <= size[1] + _LINE:
            page.drawing(drawn, size, _SECTION, beside)
        else:
            page.drawing(drawn, size, _SECTION)
            page.new_page()
            layout.write(page, subject, sheet)


def on_file(page: Pages, subject: Subject) -> None:
    """The section along the pipe, and the card by which thermocouples are attached: one for all
    that are attached alike, to hang where the wires are made. The section, too, where the pipe has
    its layout beside the thermocouples."""
    if layout.beside_tags(subject):
        page.section("Drawing: the section", across=True, fresh=True)
        for number, sheet in enumerate(subject.sheets):
            if number:
                page.new_page()
            size = (page.room, page.depth - _TITLE - _LINE)
            page.drawing(section(subject.job, sheet, size), size, _SECTION)
    along = [sheet for sheet in subject.sheets if _why_not_along(sheet) is None]
    if len(along) < len(subject.sheets):
        page.section("Drawing: the section along the pipe")
        for why in dict.fromkeys(filter(None, map(_why_not_along, subject.sheets))):
            page.line(why)
    if along:
        page.section("Drawing: the section along the pipe", across=True, fresh=True)
    for number, sheet in enumerate(along):
        if number:
            page.new_page()
        size = (page.room, page.depth - _TITLE)
        page.drawing(section_along(subject.job, sheet, size), size, "")
    page.section("Attachment card", across=True, fresh=True)
    size = (page.room, page.depth - _TITLE)
    for number, sheets in enumerate(_attached_alike(subject, size)):
        if number:
            page.new_page()
        names = ", ".join(sheet.joint.name for sheet in sheets)
        page.drawing(attachment_card(subject.job, sheets[0], size, names), size, "")


def _attached_alike(subject: Subject, size: tuple[float, float]) -> list[list[JointSheet]]:
    """The joints whose cards differ in nothing but the names, together."""
    if len(subject.sheets) == 1:
        return [list(subject.sheets)]
    alike: dict[str, list[JointSheet]] = {}
    for sheet in subject.sheets:
        alike.setdefault(attachment_card(subject.job, sheet, size, "several"), []).append(sheet)
    return list(alike.values())


def _why_not_along(sheet: JointSheet) -> str | None:
    """Why there is no section along the pipe; None where there is one."""
    kind = sheet.joint.entry.kind or ""
    return _NOT_ALONG if kind == "branch" else _NOT_ROUND if kind in SIDES else None


def _changed(subject: Subject, sheet: JointSheet) -> str:
    """What of the drawing changed since the revision that was asked about."""
    shown, name = subject.shown, sheet.joint.name
    parts = [
        *(zone.name for zone in sheet.joint.zones if shown.changed(name, "", ZONE, zone.name)),
        *(tag.tag for tag in sheet.tags if shown.changed(name, "", THERMOCOUPLE, tag.tag)),
        *(band.name for band in sheet.bands if shown.changed(name, "", BAND, band.name)),
    ]
    if not parts or subject.job.changes is None:
        return ""
    return f" Changed, {subject.job.changes.mark}: {', '.join(parts)}."


_ON_RUN = (
    "The outsides of branch and run, each laid flat, with the weld between them. Not for measuring "
    "off the paper: use the lengths to tape."
)
_NOT_ALONG = (
    "Not drawn: branch and run have axes of their own. The drawing of the branch on its run shows "
    "both."
)
_NOT_ROUND = (
    "Not drawn: the weld does not go round the pipe. The drawing of the weld laid flat and its "
    "section show every place."
)
_FLAT = (
    "The outside about the weld as it is faced, laid flat. Not for measuring off the paper: use "
    "the figures."
)
_UNROLLED = (
    "The outside of the pipe, cut along one line and laid flat: across, once round; up and down, "
    "the distance from the weld centreline. Not for measuring off the paper: use the figures."
)
_SECTION = (
    "Seen as stated in the drawing. Whoever stands on the other side sees left and right changed "
    "over. Not for measuring off the paper."
)
