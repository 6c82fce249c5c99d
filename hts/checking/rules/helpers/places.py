"""What governs a joint, and how far from its weld a thermocouple sits."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.language.model.joint import Joint, Thermocouple
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


def from_weld(tc: Thermocouple) -> Quantity | None:
    """Distance from the weld centreline, whatever the side."""
    if tc.entry.offset is not None:
        return tc.entry.offset.distance
    return Quantity.of(0, "mm", LENGTH) if tc.entry.on_weld else None


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
