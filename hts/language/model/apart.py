"""Where along the pipe a thermocouple sits, and how far two of them are apart."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities.clock import PI
from hts.language.model.joint import Thermocouple
from hts.language.model.orientation import Orientation
from hts.language.model.seam import place_of


def along(tc: Thermocouple) -> tuple[str, Fraction] | None:
    """The end its distance counts toward, and that distance in mm; ("", 0) on the weld. Sides the
    text ties together count toward one end."""
    offset = tc.entry.offset
    if offset is not None:
        axis, sign = Orientation(tc.joint.entry).along(offset.side)
        return axis, sign * offset.distance.value
    return ("", Fraction(0)) if tc.entry.on_weld else None


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
