"""No support holds the pipe where the heaters lie."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round, half, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_ROD = '"rod hanger" 1.2 m upstream fixed'

RULE = Rule(
    "N115",
    "support-in-heated-band",
    "warning",
    summary="A support that holds the pipe within its heated band.",
    why="Clamp or shoe draws heat, so that the metal beneath stays cold, and what it holds is soft.",
    fix="Correct its distance, or hold the line farther away while it is hot and say so.",
    source="common practice, no source; AWS D10.10:2021 on supports",
    basis="practice",
    edges=(
        Edge(
            ((_ROD, '"pipe shoe" {} upstream guided'),),
            keeps="288 mm",
            breaks="287 mm",
            says="is 287 mm (11.3 in) … 287.4 mm (11.32 in)",
        ),
    ),
    good=(Good(((_ROD, '"pipe shoe" 0.4 m upstream guided'),)),),
    agrees=(
        Agreement(
            "joint.support.where", "joint.heating.heated band", "a support stands outside the band"
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.supports or not goes_round(joint) or not treated(joint):
        return
    width = limits_of(case, joint).band("heated band")
    if width is None:
        return
    for support in joint.entry.supports:
        distance = support.where.distance
        if distance <= half(width):
            reach = half(width).in_unit(distance.unit.symbol)
            case.add(
                RULE.found(
                    f"{support.what} is {distance.both()} from the weld; the heaters reach "
                    f"{reach.both('up')}",
                    support.place("where"),
                    address=joint.address,
                    basis=RULE.basis,
                )
            )
