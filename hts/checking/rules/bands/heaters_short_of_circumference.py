"""The heaters reach round the pipe."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.clock import PI
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint


def _pads(length: str, gap: str = "") -> tuple[str, str]:
    rows = "".join(
        f"    heater H{name[0]} in {name} kind flexible pad count 2 length {length}\n"
        for name in ("top", "bottom")
    )
    return ("    gap at         12:00\n", f"{gap}    gap at         12:00\n{rows}")


RULE = Rule(
    "B106",
    "heaters-short-of-circumference",
    "warning",
    summary="Heaters that, laid end to end with the gaps allowed, do not reach round the pipe.",
    why="Metal that no heater covers stays cold.",
    fix="Add heaters, or take longer ones.",
    source="arithmetic: length and number of the heaters against the circumference",
    basis="derived",
    edges=(
        Edge(
            (_pads("{}"),),
            keeps="255 mm",
            breaks="254 mm",
            at="Ht",
            says="1016 mm (40 in) … 1017.2 mm (40.05 in)",
        ),
        Edge(
            (_pads("240 mm", "    gap at most    {}\n"),),
            keeps="15 mm",
            breaks="14 mm",
            at="Ht",
            says="1016 mm (40 in) … 1017.2 mm (40.05 in)",
        ),
    ),
    good=(Good((_pads("260 mm"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating, diameter = joint.entry.heating, joint.outside_diameter
    if heating is None or not heating.heaters or diameter is None or not goes_round(joint):
        return
    total = Fraction(0)
    gap = heating.gap.value if heating.gap is not None else Fraction(0)
    heated = set()
    for heater in heating.heaters:
        if heater.length is None or heater.zone is None:
            return
        total += (heater.length.value + gap) * (heater.count or 1)
        heated.add(heater.zone.name)
    # A zone whose heaters are not described may hold the rest.
    if heated != {zone.name for zone in joint.zones}:
        return
    around = PI * diameter.value
    if total < around:
        reach, need = (Quantity.of(round(mm, 1), "mm", LENGTH) for mm in (total, around))
        case.add(
            RULE.found(
                f"the heaters reach {reach.both()} of the {need.both()} round {joint.name}",
                heating.heaters[0].place("name"),
                address=f"{joint.address}/heating",
            )
        )
