"""What is measured of a part that is heated whole lies on the part."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint

_LONG = (
    ("heating by resistance", "heating by furnace"),
    (
        "    ends           closed",
        '    part length    {}\n    furnace "Furnace 1" overlap 0.3 m\n    ends           closed',
    ),
    ("at 6:00,  287 mm upstream ", "at 6:00,  286 mm upstream "),
)

RULE = Rule(
    "E115",
    "place-beyond-part",
    "warning",
    summary="A thermocouple or a heavy section farther from the weld than the part heated is long, both "
    "sides taken together.",
    why="Either the part or the place has a wrong digit: heaters, thermocouples and furnace are planned "
    "for another part.",
    fix="Correct the length of the part or the place.",
    source="geometry: what lies on both sides of a weld lies on the part",
    basis="derived",
    edges=(
        Edge(
            _LONG,
            keeps="573 mm",
            breaks="572 mm",
            at="287 mm",
            says="287 mm (11.3 in) … 286 mm (11.26 in) … 572 mm (22.52 in)",
        ),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.offset",
            "joint.heating.part length",
            "both sides together no farther apart",
        ),
        Agreement(
            "joint.heavy section.where",
            "joint.heating.part length",
            "both sides together no farther",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.part_length is None or joint.entry.kind != "girth butt":
        return
    farthest: dict[str, tuple[Quantity, Span]] = {}
    for distance, side, at in _places(joint):
        if side not in farthest or distance > farthest[side][0]:
            farthest[side] = distance, at
    if not 1 <= len(farthest) <= 2:
        return
    ends = sorted(farthest.values(), key=lambda each: each[0].value, reverse=True)
    if sum(distance.value for distance, _ in ends) <= heating.part_length.value:
        return
    other = f" and {ends[1][0].both()} on the other side" if len(ends) > 1 else ""
    case.add(
        RULE.found(
            f"places of {joint.name} lie {ends[0][0].both()} from the weld{other}; the part is "
            f"{heating.part_length.both()} long",
            ends[0][1],
            address=joint.address,
            others=[Label(heating.place("part_length"), "its length")],
        )
    )


def _places(joint: Joint) -> Iterator[tuple[Quantity, str, Span]]:
    """How far from the weld and on which side something lies, and where that is said."""
    for tc in joint.thermocouples:
        if tc.entry.offset is not None:
            yield tc.entry.offset.distance, tc.entry.offset.side, tc.entry.place("offset")
    for heavy in joint.entry.heavy_sections:
        if heavy.where is not None:
            yield heavy.where.distance, heavy.where.side, heavy.place("where")
