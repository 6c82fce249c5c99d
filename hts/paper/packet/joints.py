"""The weld: sizes, materials, how it was made, what stands around it."""

from __future__ import annotations

from collections.abc import Callable

from hts.base.quantities import Quantity
from hts.job.compiler.job import JointSheet
from hts.job.compiler.why import demanded
from hts.job.compiler.wording import worded
from hts.language.model.side import Figure, Side
from hts.language.vocabulary.joint import Earlier, Joint, Nearby
from hts.language.vocabulary.material import Filler
from hts.language.vocabulary.sides import HeavySection
from hts.paper.packet import letters
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages


def write(page: Pages, subject: Subject) -> None:
    """One part for each joint."""
    page.section("Joint data")
    for sheet in subject.sheets:
        subject.head(page, sheet)
        page.facts(_facts(subject, sheet))
        _sides(page, subject, sheet)
        _surroundings(page, subject, sheet)


def _facts(subject: Subject, sheet: JointSheet) -> list[tuple[str, str]]:
    entry = sheet.joint.entry
    return [
        ("Weld", entry.kind or ""),
        ("Drawing", drawing(entry)),
        ("Line", entry.line or ""),
        ("Spool", entry.spool or ""),
        ("Made in", entry.made or ""),
        ("Service", ", ".join(entry.service)),
        ("Governing thickness", thickness(subject, sheet)),
        ("Width of the weld", _text(subject, entry.cap_width)),
        ("Throat", _text(subject, entry.throat)),
        ("Groove depth", _text(subject, entry.groove_depth)),
        ("Branch weld", subject.words(entry.branch)),
        ("Seam", subject.words(entry.seam)),
        ("Pad", subject.words(entry.pad)),
        ("Axis", subject.words(entry.axis)),
        ("12:00 is at", entry.datum or "top (assumed: the specification states no datum)"),
        ("Clock viewed", entry.viewed or "not stated"),
        ("Flow", ", ".join(entry.flow)),
        ("Welding", subject.words(entry.welding)),
        *(("Taper", text) for text in _tapers(subject, sheet)),
        *(("Filler", text) for text in _fillers(subject, sheet)),
        *(("Tempered", text) for text in _tempered(subject, sheet)),
        *(("Qualified by", subject.words(qualification)) for qualification in entry.qualified),
        *(("Calculation", subject.words(calculation)) for calculation in entry.calculations),
        *(("Test plate", subject.words(plate)) for plate in entry.test_plates),
        *(
            ("Earlier heat treatment", earlier(subject, past_heating))
            for past_heating in entry.earlier
        ),
        ("Expansion", entry.expansion or ""),
        ("Flanges", entry.flanges or ""),
        ("Unsupported span", _text(subject, entry.unsupported_span)),
    ]


def _tapers(subject: Subject, sheet: JointSheet) -> list[str]:
    """How the wall of a side falls to that of the other."""
    return [
        f"{side.name} side, over {_text(subject, side.taper)}"
        if side.taper is not None
        else f"{side.name} side, 1:{side.slope}"
        for side in sheet.joint.entry.sides
        if side.taper is not None or side.slope is not None
    ]


def _fillers(subject: Subject, sheet: JointSheet) -> list[str]:
    """The filler metal, with what the text says of it."""
    welding = sheet.joint.entry.welding
    filler = welding.filler.target if welding is not None and welding.filler is not None else None
    return [subject.block_words(filler)] if isinstance(filler, Filler) else []


def _tempered(subject: Subject, sheet: JointSheet) -> list[str]:
    """How the parts were tempered at the mill."""
    found = {}
    for side in sheet.joint.sides:
        if side.material is not None and side.material.tempered is not None:
            found[side.material.name] = subject.words(side.material.tempered)
    return [f"{name}: {said}" for name, said in found.items()]


def drawing(entry: Joint) -> str:
    """The drawing of a joint with its revision, "" where none is named."""
    revision = entry.drawing_revision
    return " ".join(filter(None, (entry.drawing, revision and f"revision {revision}")))


def thickness(subject: Subject, sheet: JointSheet) -> str:
    value, entry = sheet.limits.thickness, sheet.joint.entry
    if value is None:
        return ""
    ruled = sheet.limits.derived("governing thickness", "exactly")
    if isinstance(entry.governing_thickness, Quantity) or ruled is None:
        return subject.shown.wall(value)
    return subject.shown.wall(value) + letters.mark_of(demanded(ruled.demand, "exactly").basis)


def _text(subject: Subject, value: Quantity | None) -> str:
    return subject.shown.text(value) if value is not None else ""


def earlier(subject: Subject, past_heating: Earlier) -> str:
    at = f" at {subject.shown.text(past_heating.at)}" if past_heating.at is not None else ""
    what = f", {past_heating.what}" if past_heating.what else ""
    return f"{worded(past_heating.time)}{at}{what}"


def _sides(page: Pages, subject: Subject, sheet: JointSheet) -> None:
    heats = {side.name: side.heat_number for side in sheet.joint.entry.sides}
    page.heading(3, "Parts joined")
    page.table(
        ("Side", "Material", "P-Number", "Group", "Outside diameter", "Wall", "Taken", "Size from"),
        [_side(subject, side, heats.get(side.name)) for side in sheet.joint.sides],
    )


def _side(subject: Subject, side: Side, heat: str | None) -> tuple[str, ...]:
    sizes = (side.outside_diameter, side.wall)
    return (
        side.name,
        material(side, heat),
        _figure(subject, side.figure("p_number")),
        _figure(subject, side.figure("group")),
        _figure(subject, side.outside_diameter, subject.shown.diameter),
        _figure(subject, side.wall, subject.shown.wall),
        side.wall_taken or "",
        "; ".join(dict.fromkeys(size.origin for size in sizes if size is not None)),
    )


def material(side: Side, heat: str | None) -> str:
    material = side.material
    if material is None:
        return ""
    grade = side.grade.name if side.grade is not None else str(material.grade or "")
    heats = [heat] if heat else material.heat_numbers
    numbers = f"heat {', '.join(heats)}" if heats else ""
    return ", ".join(part for part in (material.name, grade, numbers) if part)


def _figure(
    subject: Subject, figure: Figure | None, say: Callable[[Quantity], str] | None = None
) -> str:
    if figure is None:
        return ""
    value = figure.value
    text = (say or subject.shown.text)(value) if isinstance(value, Quantity) else str(value)
    return text + letters.mark_of(figure.basis)


def _surroundings(page: Pages, subject: Subject, sheet: JointSheet) -> None:
    entry, shown = sheet.joint.entry, subject.shown
    if entry.heavy_sections:
        page.heading(3, "Heavy sections beside the weld")
        page.table(
            ("What", "Full wall from", "Wall", "Length", "Taper"),
            [
                (
                    f"{one.what}, {one.bore}" if one.bore else one.what,
                    f"{shown.text(one.where.distance)} {one.where.side}",
                    shown.wall(one.wall) if one.wall is not None else "",
                    _text(subject, one.over),
                    _taper(subject, one),
                )
                for one in entry.heavy_sections
            ],
        )
    if entry.nearby:
        page.heading(3, "Nearby items")
        page.table(
            ("What", "Where", "May reach at most", "Protection"),
            [
                (
                    neighbour.what,
                    f"{shown.text(neighbour.where.distance)} {neighbour.where.side}",
                    shown.text(neighbour.at_most, "down") if neighbour.at_most is not None else "",
                    _kept(neighbour),
                )
                for neighbour in entry.nearby
            ],
        )
    if entry.supports:
        page.heading(3, "Supports")
        page.table(
            ("What", "Where", "While hot"),
            [
                (
                    support.what,
                    f"{shown.text(support.where.distance)} {support.where.side}",
                    support.state or "not stated",
                )
                for support in entry.supports
            ],
        )


def _taper(subject: Subject, one: HeavySection) -> str:
    slope = f"1:{one.slope}" if one.slope is not None else ""
    said = ", ".join(part for part in (_text(subject, one.taper), slope) if part)
    return said or "none: a step"


def _kept(neighbour: Nearby) -> str:
    watched = f"watched by {neighbour.monitored.name}" if neighbour.monitored is not None else ""
    parts = (
        "removed" if neighbour.removed else "",
        "protected" if neighbour.protected else "",
        watched,
    )
    return ", ".join(part for part in parts if part) or "nothing stated"
