"""Heaters, bands and insulation of a joint with the dimensions to tape."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.clock import ClockPosition, arc_length
from hts.job.compiler.bands import EDGE, Band
from hts.job.compiler.changes import BAND, ZONE
from hts.job.compiler.job import JointSheet
from hts.job.compiler.program import PREHEAT
from hts.job.compiler.wording import worded
from hts.language.model.seam import SIDES
from hts.language.vocabulary.heating import Heating, Zone
from hts.paper.packet import tables
from hts.paper.packet.groups import Subject, headed
from hts.paper.packet.pages import Pages

_SQUARE = (
    "Mark every line right round before anything is attached: one that is not square makes one "
    "side of the band too narrow."
)
_ALONG = "Mark every line, square to the weld, before anything is attached."
#: A side that all zones share, as the heading says it.
_SIDES = {
    "both": ", each on both sides of the weld",
}


def beside_tags(subject: Subject) -> bool:
    """Whether the layout stands below the thermocouples, where several joints or treatments need
    the sheets; else it stands beside the section."""
    return sum(run.program.kind != PREHEAT for one in subject.sheets for run in one.runs) > 1


def columns(page: Pages, subject: Subject) -> None:
    """In three columns beside each other: how each joint is heated, the lines to mark, the zones.
    What is the same for several joints stands there once."""
    parts = (0.21, 0.32, 0.47)
    made = [Pages(page.frame, (page.room - 10) * part) for part in parts]
    sheets = [sheet for sheet in subject.sheets if sheet.tags]
    for column, write_one in zip(made, (_told, _tape, _heated), strict=True):
        alike: list[tuple[Pages, list[str]]] = []
        for sheet in sheets:
            own = Pages(page.frame, column.room)
            write_one(own, subject, sheet)
            same = next((names for one, names in alike if one.blocks == own.blocks), None)
            if same is None:
                alike.append((own, [sheet.joint.name]))
            else:
                same.append(sheet.joint.name)
        for own, names in alike:
            if own.blocks and len(subject.sheets) > 1:
                column.heading(2, headed(names))
            column.take(own)
    if made[1].blocks:
        made[2].line(_square(sheets[0]))
    page.columns([one for one in made if one.blocks], parts)


def _told(page: Pages, subject: Subject, sheet: JointSheet) -> None:
    heating = sheet.joint.entry.heating
    page.heading(3, "Heating and insulation")
    if heating is not None:
        told = [pair for pair in _facts(subject, heating) if pair[1]]
    else:
        told = [("Method", (sheet.joint.preheat and sheet.joint.preheat.method) or "not stated")]
    page.table(("What", "How"), told, tables.SMALL)


def _heated(page: Pages, subject: Subject, sheet: JointSheet) -> None:
    heating = sheet.joint.entry.heating
    if heating is not None:
        _zones(page, subject, sheet, heating, brief=True)
        _heaters_in_brief(page, subject, heating)


def write(page: Pages, subject: Subject, sheet: JointSheet, *, brief: bool = False) -> None:
    """All of it; `brief` has the heaters in a few lines, where room is short."""
    heating = sheet.joint.entry.heating
    if heating is not None:
        page.facts(_facts(subject, heating))
    elif sheet.joint.preheat is not None:
        page.facts([("Heating", sheet.joint.preheat.method or "not stated")])
    if _tape(page, subject, sheet):
        page.line(_square(sheet))
    if heating is not None:
        _zones(page, subject, sheet, heating, brief=brief)
        if brief:
            _heaters_in_brief(page, subject, heating)
        else:
            _heaters(page, subject, heating)


def _facts(subject: Subject, heating: Heating) -> list[tuple[str, str]]:
    return [
        ("Method", f"{heating.method or ''}{_accepted(heating)}"),
        ("Technique", heating.technique or ""),
        ("Layout about the weld", heating.layout or ""),
        ("Heated band narrows to", subject.words(heating.narrowing)),
        ("Gap between heaters", _gap(subject, heating)),
        ("Gap along the pipe", _most(subject, heating.gap_along)),
        ("Overlap of heaters", _most(subject, heating.overlap)),
        ("Coil", subject.words(heating.coil)),
        ("Part length", _length(subject, heating.part_length)),
        ("Furnace", subject.words(heating.furnace)),
        ("Insulation", subject.words(heating.insulation)),
        ("Inside insulation", subject.words(heating.inside_insulation)),
        ("Liner", subject.words(heating.liner)),
        ("Draught", subject.words(heating.draught)),
        ("Ends", heating.ends or ""),
        ("Shelter", heating.shelter or ""),
        ("Bore", heating.bore or ""),
        ("Bore state", heating.bore_state or ""),
    ]


def _accepted(heating: Heating) -> str:
    return f", accepted by {heating.accepted}" if heating.accepted else ""


def _gap(subject: Subject, heating: Heating) -> str:
    at = f"at {heating.gap_at}" if heating.gap_at is not None else ""
    return ", ".join(part for part in (_most(subject, heating.gap), at) if part)


def _length(subject: Subject, value: Quantity | None) -> str:
    return subject.shown.text(value) if value is not None else ""


def _most(subject: Subject, value: Quantity | None) -> str:
    return f"at most {subject.shown.text(value, 'down')}" if value is not None else ""


def _square(sheet: JointSheet) -> str:
    return _ALONG if sheet.joint.entry.kind in SIDES else _SQUARE


def _tape(page: Pages, subject: Subject, sheet: JointSheet) -> bool:
    """Where the edges of the bands are marked, from the one line everybody can find again; whether
    there are any."""
    rows = [_edge(subject, sheet, band) for band in sheet.bands]
    if not rows:
        return False
    page.heading(3, "Lines to mark, on each side of the weld")
    page.table(
        (
            "Line",
            subject.shown.head("From the weld centreline", LENGTH),
            subject.shown.head("From the edge of the weld", LENGTH),
        ),
        rows,
        tables.SMALL,
        changed=[
            subject.shown.changed(sheet.joint.name, "", BAND, band.name) for band in sheet.bands
        ],
    )
    return True


def _edge(subject: Subject, sheet: JointSheet, band: Band) -> tuple[str, str, str]:
    shown, cap = subject.shown, sheet.joint.entry.cap_width
    centre: Quantity | None = band.each
    edge: Quantity | None = band.each
    if band.datum == EDGE:
        centre = band.each + cap / 2 if cap is not None else None
    else:
        edge = band.each - cap / 2 if cap is not None else None
    return (
        f"edge of the {band.name}",
        shown.bare(centre, LENGTH, "up"),
        shown.bare(edge, LENGTH, "up"),
    )


def _zones(
    page: Pages, subject: Subject, sheet: JointSheet, heating: Heating, *, brief: bool
) -> None:
    """`brief` says a side that all zones share once, in the heading."""
    if not _known(heating):
        return
    outside = sheet.joint.outside_diameter
    controls = {zone.name: zone.controls for zone in sheet.joint.zones}
    sides = {zone.side or "" for zone in _known(heating)}
    shared = _SIDES.get(next(iter(sides)), "") if brief and len(sides) == 1 else ""
    along = any(zone.along is not None for zone in _known(heating))
    ways = "along the weld" if along else "clockwise"
    page.heading(3, f"Control zones, {ways}{shared}")
    page.table(
        (
            "Zone",
            "From",
            "To",
            subject.shown.head("Along the weld from", LENGTH),
            "until",
            subject.shown.head("Tape from 12:00", LENGTH),
            "to",
            "Side",
            "Power",
            "Heaters",
            "Circuit",
            "Controlled by",
        ),
        [
            (
                zone.name,
                str(zone.first or ("all round" if zone.all_round else "")),
                str(zone.last or ""),
                *_part(subject, zone),
                *(_round(subject, outside, place) for place in (zone.first, zone.last)),
                "" if shared else zone.side or "",
                worded(zone.power) if zone.power is not None else "",
                str(zone.heaters or ""),
                zone.circuit or "",
                ", ".join(tc.tag for tc in controls.get(zone.name, ())),
            )
            for zone in _known(heating)
        ],
        tables.SMALL,
        changed=[
            subject.shown.changed(sheet.joint.name, "", ZONE, zone.name) for zone in _known(heating)
        ],
    )


def _part(subject: Subject, zone: Zone) -> tuple[str, str]:
    """The part of a weld that does not go round, as a tape reads it."""
    if zone.along is None:
        return "", ""
    return subject.shown.tape(zone.along.low), subject.shown.tape(zone.along.high)


def _known(heating: Heating) -> list[Zone]:
    return [zone for zone in heating.zones if zone.name]


def _round(subject: Subject, outside: Quantity | None, place: ClockPosition | None) -> str:
    if outside is None or place is None:
        return ""
    return subject.shown.tape(Quantity.of(arc_length(outside, place), "mm", LENGTH))


def _heaters_in_brief(page: Pages, subject: Subject, heating: Heating) -> None:
    """What lies where: heaters alike but for their zone in one line."""
    alike: dict[str, list[str]] = {}
    for heater in heating.heaters:
        size = " × ".join(
            subject.shown.text(side) for side in (heater.width, heater.length) if side is not None
        )
        power = f"{worded(heater.power)} each" if heater.power is not None else ""
        ends = (
            f"from {worded(heater.starts)}" if heater.starts is not None else "",
            f"to {worded(heater.ends)}" if heater.ends is not None else "",
        )
        what = " ".join(filter(None, (str(heater.count or ""), heater.kind or "heaters")))
        said = ", ".join(filter(None, (what, size, power, *ends)))
        zone = f" in {heater.zone.name}" if heater.zone is not None else ""
        circuit = f" (circuit {heater.circuit})" if heater.circuit else ""
        alike.setdefault(said, []).append(f"{heater.name}{zone}{circuit}")
    if alike:
        page.heading(3, "Heaters")
        page.bullets(f"{', '.join(names)}: {said}" for said, names in alike.items())


def _heaters(page: Pages, subject: Subject, heating: Heating) -> None:
    if not heating.heaters:
        return
    shown = subject.shown
    page.heading(3, "Heaters")
    page.table(
        (
            "Heater",
            "Zone",
            "Kind",
            "Count",
            "Power of each",
            shown.head("Along the pipe", LENGTH),
            shown.head("Round the pipe", LENGTH),
            "Begins",
            "Ends",
            "Circuit",
        ),
        [
            (
                heater.name,
                heater.zone.name if heater.zone is not None else "",
                heater.kind or "",
                str(heater.count or ""),
                worded(heater.power) if heater.power is not None else "",
                shown.bare(heater.width, LENGTH),
                shown.bare(heater.length, LENGTH),
                worded(heater.starts) if heater.starts is not None else "",
                worded(heater.ends) if heater.ends is not None else "",
                heater.circuit or "",
            )
            for heater in heating.heaters
        ],
        tables.SMALL,
    )
