"""A part that goes into the furnace in turns is longer than what is heated twice of it."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint


def _furnace(length: str, overlap: str) -> tuple[tuple[str, str], ...]:
    return (
        ("heating by resistance", "heating by furnace"),
        (
            "    ends           closed",
            f'    part length    {length}\n    furnace "Furnace 1" overlap {overlap}\n'
            "    ends           closed",
        ),
    )


RULE = Rule(
    "E111",
    "overlap-longer-than-part",
    "warning",
    summary="An overlap of heats longer than the part that is heated.",
    why="One of the two lengths is wrong, and with it the number of thermocouples along the part.",
    fix="Correct the length of the part or the overlap.",
    source="geometry: the overlap is a piece of the part",
    basis="derived",
    edges=(
        Edge(
            _furnace("{}", "1.5 m"),
            keeps="1.5 m",
            breaks="1.49 m",
            says="1.5 m (4.92 ft) … 1.49 m (4.89 ft)",
        ),
    ),
    good=(Good(_furnace("12 m", "1.5 m")),),
    agrees=(
        Agreement("joint.heating.furnace.overlap", "joint.heating.part length", "shorter than it"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.furnace is None or heating.part_length is None:
        return
    overlap, length = heating.furnace.overlap, heating.part_length
    if overlap is not None and overlap > length:
        case.add(
            RULE.found(
                f"{overlap.both()} are to be heated twice of a part that is {length.both()} long",
                heating.place("part_length"),
                address=f"{joint.address}/heating",
                others=[Label(heating.furnace.place("overlap"), "heated twice")],
            )
        )
