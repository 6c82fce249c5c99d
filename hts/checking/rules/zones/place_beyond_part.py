"""What is on a part that is heated whole lies within its length."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint
from hts.language.model.orientation import Orientation

RULE = Rule(
    "Z155",
    "place-beyond-part",
    "warning",
    summary="Thermocouples, supports or sections that lie farther apart along a part than the part is "
    "long.",
    why="The length decides the furnace, its overlap and how many thermocouples are asked for; a place "
    "beyond the end is no place.",
    fix="Measure the part, or correct the place.",
    source="geometry",
    basis="derived",
    edges=(
        Edge(
            (
                ("    band ratio     5\n", "    band ratio     5\n    part length {}\n"),
                ('  support    "rod hanger" 1.2 m upstream fixed\n', ""),
            ),
            keeps="0.58 m",
            breaks="0.57 m",
            says="is 0.57 m (1.87 ft) long … 574 mm (22.6 in) apart",
        ),
    ),
    agrees=(
        Agreement(
            "joint.heating.part length", "joint.thermocouples.thermocouple.offset", "within it"
        ),
        Agreement("joint.heating.part length", "joint.heavy section.where", "within it"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    length = heating.part_length if heating is not None else None
    if heating is None or length is None:
        return
    orientation = Orientation(joint.entry)
    farthest: dict[tuple[str, bool], tuple[Fraction, Span]] = {}
    for side, distance, at in _places(joint):
        axis, sign = orientation.along(side)
        end = (axis, sign > 0)
        if end not in farthest or distance > farthest[end][0]:
            farthest[end] = distance, at
    if len({axis for axis, _ in farthest}) != 1:
        return
    apart = sum((distance for distance, _ in farthest.values()), Fraction(0))
    if apart <= length.value:
        return
    case.add(
        RULE.found(
            f"the part of {joint.name} is {length.both()} long, and places on it are "
            f"{Quantity.of(apart, 'mm', LENGTH).both()} apart",
            heating.place("part_length"),
            address=f"{joint.address}/heating",
            others=[Label(at, "on it") for _, at in farthest.values()],
            basis=RULE.basis,
        )
    )


def _places(joint: Joint) -> Iterator[tuple[str, Fraction, Span]]:
    """The side, the distance in mm and the place of what is said to be on the part."""
    for tc in joint.thermocouples:
        offset = tc.entry.offset
        if offset is not None:
            yield offset.side, offset.distance.value, tc.place("offset")
    for section in joint.entry.heavy_sections:
        where = section.where
        if where is not None:
            yield where.side, where.distance.value, section.place("where")
