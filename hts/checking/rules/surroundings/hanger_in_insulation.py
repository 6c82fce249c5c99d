"""What the line hangs on stays outside the insulation, and cold."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round, half, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.helpers.supports import HANGER, SPRING, told_by
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_ROD = '"rod hanger" 1.2 m upstream fixed'

RULE = Rule(
    "N131",
    "hanger-in-insulation",
    "warning",
    summary="A hanger that holds the pipe beside the heaters, within the insulated width.",
    why="Its clamp sits on metal of several hundred degrees under the blankets: it softens under the load, draws heat, "
    "and nobody sees it.",
    fix="Correct its distance, or carry the line farther away while it is hot.",
    source="common practice, no source; AWS D10.10:2021 on supports",
    basis="practice",
    edges=(
        Edge(
            (
                (_ROD, '"rod hanger" {} upstream fixed'),
                ("gradient band  by rule", "gradient band  900 mm total"),
            ),
            keeps="450 mm",
            breaks="449 mm",
            says="is 449 mm (17.68 in) … 450 mm (17.72 in)",
        ),
    ),
    good=(
        # A shoe slides under it, and is insulated with it.
        Good(
            (
                (_ROD, '"pipe shoe" 380 mm upstream guided'),
                ("gradient band  by rule", "gradient band  900 mm total"),
            )
        ),
    ),
    agrees=(
        Agreement("joint.support.where", "joint.heating.gradient band", "a hanger stands outside"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.supports or not goes_round(joint) or not treated(joint):
        return
    limits = limits_of(case, joint)
    heated, width = limits.band("heated band"), limits.band("gradient band")
    if heated is None or width is None:
        return
    for support in joint.entry.supports:
        distance = support.where.distance
        if told_by(support) in (SPRING, HANGER) and half(heated) < distance < half(width):
            reach = half(width).in_unit(distance.unit.symbol)
            case.add(
                RULE.found(
                    f"{support.what} is {distance.both()} from the weld; the insulation reaches "
                    f"{reach.both('up')}",
                    support.place("where"),
                    address=joint.address,
                    basis=RULE.basis,
                )
            )
