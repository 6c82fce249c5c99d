"""What stands close by says how hot it may get."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import half, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_SUPPORT = '  support    "rod'

RULE = Rule(
    "N106",
    "neighbour-without-limit",
    "advice",
    summary="An item within the insulated width that has no stated temperature limit and is "
    "neither removed nor protected.",
    why="Seats, gaskets, coatings and instruments fail far below the temperature of the band.",
    fix="State what it withstands (`at most 200 degC`), or remove or protect it.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_SUPPORT, f'  nearby     "gate valve" 350 mm downstream\n{_SUPPORT}'),),
            at="350 mm downstream",
        ),
    ),
    good=(
        Good(((_SUPPORT, f'  nearby     "gate valve" 350 mm downstream removed\n{_SUPPORT}'),)),
        Good(((_SUPPORT, f'  nearby     "gate valve" 2 m downstream\n{_SUPPORT}'),)),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.nearby or not treated(joint):
        return
    width = limits_of(case, joint).band("gradient band")
    for item in joint.entry.nearby if width is not None else ():
        if item.removed or item.protected or item.at_most is not None or width is None:
            continue
        if item.where.distance <= half(width):
            case.add(
                RULE.found(
                    f"{item.what} lies under the insulation of {joint.name}; nothing says how hot "
                    "it may get",
                    item.place("where"),
                    address=joint.address,
                    basis=RULE.basis,
                )
            )
