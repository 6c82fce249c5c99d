"""What stands close by keeps below its own temperature limit."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import half, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "N104",
    "unprotected-neighbour",
    "warning",
    summary="An item with a temperature limit within the insulated width, neither removed nor "
    "protected nor monitored.",
    why="Seats, gaskets, coatings and other welds are ruined without anybody noticing.",
    fix="Remove it, protect it, or have a thermocouple watch it.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                (
                    '  support    "rod',
                    '  nearby "gate valve seat" {} downstream at most 200 degC\n  support    "rod',
                ),
            ),
            keeps="406 mm",
            breaks="405 mm",
            says="is 405 mm (15.94 in) … 200 degC (392 degF) … 405.2 mm (15.95 in)",
        ),
    ),
    good=(
        Good(
            (
                (
                    '  support    "rod',
                    '  nearby "gate valve seat" 350 mm downstream at most 200 '
                    'degC removed\n  support    "rod',
                ),
            )
        ),
        Good(
            (
                (
                    '  support    "rod',
                    '  nearby "gate valve seat" 1 m downstream at most 200 degC\n  support    "rod',
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.nearby or not treated(joint):
        return
    width = limits_of(case, joint).band("gradient band")
    for item in joint.entry.nearby:
        if item.removed or item.protected or item.monitored is not None or width is None:
            continue
        if item.at_most is not None and item.where.distance <= half(width):
            reach = half(width).in_unit(item.where.distance.unit.symbol)
            case.add(
                RULE.found(
                    f"{item.what} is {item.where.distance.both()} away and may reach "
                    f"{item.at_most.both('down')}; the insulation reaches {reach.both('up')}",
                    item.place("where"),
                    address=joint.address,
                    others=[Label(item.place("at_most"), "its limit")],
                )
            )
