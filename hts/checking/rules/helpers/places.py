"""Where on the pipe a thermocouple sits, and how far two places are apart."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.clock import PI
from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.language.model.joint import Joint, Thermocouple
from hts.language.model.orientation import Orientation
from hts.language.model.seam import place_of
from hts.language.vocabulary.joint import Nearby

#: Welds that go round a pipe, so that places on them are told by the clock.
ROUND = ("girth butt", "branch", "socket", "fillet", "seal")
#: Monitored places that are no part of the heated width.
ELSEWHERE = ("nearby item", "ambient", "preheat", "test plate")
#: How far from a nearby item what watches it may sit: a part of the distance from the weld, and mm.
_PART, _LEAST = Fraction(1, 10), Fraction(60)


def goes_round(joint: Joint) -> bool:
    """Whether the weld is heated locally all round a pipe."""
    heating = joint.entry.heating
    return joint.entry.kind in ROUND and not (heating is not None and heating.method == "furnace")


def is_datum_missing(joint: Joint) -> bool:
    """Whether clock positions count from the top of a pipe that stands vertical."""
    entry = joint.entry
    if entry.axis is None or entry.axis.lies != "vertical" or entry.datum not in (None, "top"):
        return False
    return entry.kind != "branch" and any(tc.position is not None for tc in joint.thermocouples)


def limits_of(case: Case, joint: Joint) -> JointLimits:
    """What governs the joint; taken from its first treatment, which has to be worked out anyway."""
    for treatment in (*joint.cycles, *joint.bakes):
        if treatment.entry.sound:
            return case.limits(joint, treatment)
    return case.limits(joint)


def along(tc: Thermocouple) -> tuple[str, Fraction] | None:
    """The end its distance counts toward, and that distance in mm; ("", 0) on the weld. Sides the
    text ties together count toward one end."""
    offset = tc.entry.offset
    if offset is not None:
        axis, sign = Orientation(tc.joint.entry).along(offset.side)
        return axis, sign * offset.distance.value
    return ("", Fraction(0)) if tc.entry.on_weld else None


def from_weld(tc: Thermocouple) -> Quantity | None:
    """Distance from the weld centreline, whatever the side."""
    if tc.entry.offset is not None:
        return tc.entry.offset.distance
    return Quantity.of(0, "mm", LENGTH) if tc.entry.on_weld else None


def apart(thermocouple: Thermocouple, other: Thermocouple) -> Fraction | None:
    """Distance along the surface in mm; None where a place or the diameter is unknown.

    Along the axis and round the pipe are taken at right angles, as on the unrolled surface.
    """
    here, there = place_of(thermocouple), place_of(other)
    if here is not None and there is not None:
        return Fraction(((here.x - there.x) ** 2 + (here.y - there.y) ** 2) ** 0.5)
    first, second = along(thermocouple), along(other)
    if first is None or second is None or thermocouple.position is None or other.position is None:
        return None
    if first[0] and second[0] and first[0] != second[0]:
        return None
    diameter = thermocouple.joint.outside_diameter
    degrees = thermocouple.position.distance_to(other.position)
    if diameter is None and degrees:
        return None
    around = PI * diameter.value * degrees / 360 if diameter is not None else Fraction(0)
    axial = abs(first[1] - second[1])
    if not axial or not around:
        return axial + around
    return Fraction((float(axial) ** 2 + float(around) ** 2) ** 0.5)


def half(width: Quantity) -> Quantity:
    """Half of a total width: the distance of its edge from the weld centreline."""
    return width / 2


def sits_at(tc: Thermocouple, item: Nearby) -> bool:
    """Whether a thermocouple sits at a nearby item, on its side of the weld."""
    offset = tc.entry.offset
    if offset is None or offset.side != item.where.side:
        return False
    there = item.where.distance.value
    return abs(offset.distance.value - there) <= max(there * _PART, _LEAST)
