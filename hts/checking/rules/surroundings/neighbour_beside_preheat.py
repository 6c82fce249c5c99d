"""What lies beside a preheat is not asked to stay colder than the heat that reaches it."""

from __future__ import annotations

from fractions import Fraction
from math import exp

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.science.heat.conduction import fin_parameter

#: Of hot steel in W/(m K), of both faces of the wall in W/(m2 K), and of the air in degC: so that
#: the metal comes out colder than it is. From memory.
_CONDUCTS, _LOSES, _AIR = 30.0, 15.0, 10.0
_CLIP = "  made in    field\n"

RULE = Rule(
    "N128",
    "neighbour-beside-preheat",
    "warning",
    summary="An item so near the width preheated that the pipe is hotter there than the item is to be.",
    why="Preheat is kept for as long as the welding takes: coatings, seats and seals beside it get what "
    "the pipe conducts to them.",
    fix="Remove the item, or correct its place or its limit.",
    source="a fin that loses heat from both its faces, with values from memory that let it come out "
    "colder than it is",
    basis="memory",
    edges=(
        Edge(
            ((_CLIP, f'{_CLIP}  nearby     "coated flange" 6 in above at most {{}} protected\n'),),
            keeps="130 degF",
            breaks="129 degF",
            base="preheat",
            says="below 129 degF (53.9 degC), 6 in (152 mm) … preheat of 200 degF (93.3 degC) … about 129.2 degF (54 degC)",
        ),
    ),
    good=(
        Good(
            (
                (
                    _CLIP,
                    f'{_CLIP}  nearby     "coated flange" 6 ft above at most 120 degF protected\n',
                ),
            ),
            base="preheat",
        ),
        Good(
            (
                (
                    _CLIP,
                    f'{_CLIP}  nearby     "coated flange" 6 in above at most 120 degF removed\n',
                ),
            ),
            base="preheat",
        ),
    ),
    agrees=(Agreement("joint.nearby.at most", "preheat.at least", "as hot as its place"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound or not goes_round(joint):
        return
    if not isinstance(preheat.at_least, Quantity):
        return
    least, width, cap = preheat.at_least, total_width(preheat.width, None), joint.entry.cap_width
    walls = [
        (outside.value, wall.value)
        for outside, wall in ((side.outside_diameter, side.wall) for side in joint.sides)
        if outside is not None
        and wall is not None
        and isinstance(outside.value, Quantity)
        and isinstance(wall.value, Quantity)
        # Thicker than its radius it is no pipe, which is told by itself.
        and 2 * wall.value.value <= outside.value.value
    ]
    if width is None or cap is None or len(walls) < len(joint.sides):
        return
    for item in joint.entry.nearby:
        if item.removed or item.at_most is None:
            continue
        # Stated from each edge of the weld.
        beyond = item.where.distance - cap / 2 - width / 2
        share = min(_share(beyond, *wall) for wall in walls)
        there = _AIR + (float(least.to("degC")) - _AIR) * share
        hot = Quantity.of(Fraction(int(there)), "degC", TEMPERATURE)
        if item.at_most >= hot:
            continue
        hot = hot.in_unit(item.at_most.unit.symbol)
        case.add(
            RULE.found(
                f"{item.what} is to stay below {item.at_most.both()}, {item.where.distance.both()} from "
                f"the weld, where a preheat of {least.both()} makes the pipe at least about "
                f"{hot.both('down')}",
                item.place("at_most"),
                address=joint.address,
                others=[Label(preheat.place("at_least"), "the preheat")],
                basis=RULE.basis,
            )
        )


def _share(beyond: Quantity, outside: Quantity, wall: Quantity) -> float:
    """Of the excess of the preheat over the air, what is left so far beyond its width."""
    if beyond.value <= 0:
        return 1.0
    outer = float(outside.value) / 2000
    inner = outer - float(wall.value) / 1000
    return exp(-fin_parameter(inner, outer, _CONDUCTS, _LOSES, _LOSES) * float(beyond.value) / 1000)
