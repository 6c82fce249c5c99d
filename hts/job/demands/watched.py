"""The thermocouples of a run: what each is for, where it sits, whether the hold hangs on it."""

from __future__ import annotations

from itertools import combinations
from math import hypot, pi
from typing import NamedTuple

from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import BAKE, PREHEAT
from hts.job.compiler.tags import Tag
from hts.language.model.joint import CONTROLS, MONITORS, Joint
from hts.language.model.orientation import Orientation
from hts.language.model.seam import Flat, off_weld, weld_along

#: Places that are held at temperature.
_HELD = ("weld", "soak edge", "test plate")
#: Places that are, unless they are known to lie outside the width that is held.
_HELD_INSIDE = ("heavy section", "base metal", "inside")
#: Techniques that hold the whole part; by whether it is a furnace that heats it.
_WHOLE = {False: ("whole part",), True: ("whole part", None)}


class Watched(NamedTuple):
    """One thermocouple.

    `clock` is degrees from 12:00 clockwise, `axial` mm from the weld centreline (negative
    upstream, below, on side A, on the run), `outside` the outside diameter there in mm; None
    where unknown. `zone` is the one it controls, else the one whose arc it lies on. `required`:
    in range during the hold.
    """

    tag: str
    duty: str
    place: str
    zone: str
    clock: float | None
    axial: float | None
    outside: float | None
    spare_of: str
    required: bool
    source: Tag
    #: On the outside laid flat, where places are told along the weld.
    flat: Flat | None = None


def watched(sheet: JointSheet, run: Run, kind: str) -> tuple[Watched, ...]:
    """The thermocouples in the order of the text."""
    half = _half_width(sheet, kind)
    return tuple(_watched(tag, sheet.joint, kind, half) for tag in run.tags)


def apart(thermocouple: Watched, other: Watched) -> float | None:
    """Distance in mm along the outside; None where a place is unknown.

    Along the pipe and the shorter way round it, at right angles.
    """
    if thermocouple.flat is not None and other.flat is not None:
        return hypot(thermocouple.flat.x - other.flat.x, thermocouple.flat.y - other.flat.y)
    if (
        thermocouple.axial is None
        or other.axial is None
        or thermocouple.clock is None
        or other.clock is None
    ):
        return None
    turn = abs(thermocouple.clock - other.clock) % 360.0
    turn = min(turn, 360.0 - turn)
    if turn and (thermocouple.outside is None or other.outside is None):
        return None
    around = pi * max(thermocouple.outside or 0.0, other.outside or 0.0) * turn / 360.0
    return hypot(thermocouple.axial - other.axial, around)


def pairs_within(ones: tuple[Watched, ...], distance: float | None) -> list[tuple[int, int]]:
    """Index pairs no farther apart than `distance` mm (None: all).

    Two whose distance is unknown count as near: what cannot be excused is compared.
    """
    found = []
    for i, j in combinations(range(len(ones)), 2):
        between = apart(ones[i], ones[j]) if distance is not None else None
        if distance is None or between is None or between <= distance:
            found.append((i, j))
    return found


def _watched(tag: Tag, joint: Joint, kind: str, half: float | None) -> Watched:
    axial = _axial(tag, joint)
    return Watched(
        tag.tag,
        tag.duty,
        tag.place,
        tag.zone or _zone_at(tag, joint),
        float(tag.degrees) if tag.degrees is not None else None,
        axial,
        float(tag.outside.value) if tag.outside is not None else None,
        tag.spare_of,
        _required(tag, axial, kind, half),
        tag,
        flat_place(joint, tag),
    )


def flat_place(joint: Joint, tag: Tag) -> Flat | None:
    """Where a thermocouple sits on the outside laid flat; None where its place is not told along
    the weld."""
    weld, offset = weld_along(joint), tag.offset
    if weld is None or tag.along is None:
        return None
    distance, side = (offset.distance, offset.side) if offset is not None else (None, "")
    off = off_weld(joint.entry.kind or "", tag.on_weld, distance, side)
    return None if off is None else weld.at(float(tag.along.value), off)


def _axial(tag: Tag, joint: Joint) -> float | None:
    if tag.offset is None:
        return 0.0 if tag.on_weld else None
    distance = float(tag.offset.distance.value)
    return Orientation(joint.entry).along(tag.offset.side)[1] * distance


def _zone_at(tag: Tag, joint: Joint) -> str:
    """The zone whose arc a thermocouple lies on; the first where two arcs meet."""
    if tag.along is not None:
        along = tag.along
        parts = ((zone.name, zone.entry.along) for zone in joint.zones)
        return next((name for name, part in parts if part is None or part.contains(along)), "")
    if tag.clock is None:
        return ""
    return next((z.name for z in joint.zones if z.arc is None or z.arc.contains(tag.clock)), "")


def _half_width(sheet: JointSheet, kind: str) -> float | None:
    """Half of the width that is held at temperature, mm; None where it is not known, or where the
    whole part is held."""
    heating = sheet.joint.entry.heating
    if heating is not None and heating.technique in _WHOLE[heating.method == "furnace"]:
        return None
    name = {PREHEAT: "preheat width", BAKE: "bake width"}.get(kind, "soak band")
    for band in sheet.bands:
        if band.name == name:
            return float(band.each.value)
    return None


def _required(tag: Tag, axial: float | None, kind: str, half: float | None) -> bool:
    if tag.duty == CONTROLS:
        return True
    if tag.duty != MONITORS:
        return False
    outside = half is not None and axial is not None and abs(axial) > half
    held = ("weld", "preheat") if kind == PREHEAT else _HELD
    return tag.place in held or (tag.place in _HELD_INSIDE and not outside)
