"""The gradient band is wide enough."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.widths import band_finding
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "B103",
    "gradient-band-too-narrow",
    "error",
    summary="A gradient band narrower than the books and procedures ask for.",
    why="Without insulation beyond the heaters the temperature falls too "
    "steeply and strains the pipe.",
    fix="Widen the band, or write `gradient band by rule`.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (("gradient band  by rule", "gradient band  {} total"),),
            keeps="811 mm",
            breaks="810 mm",
            says="is 810 mm (31.89 in) … at least 810.3 mm (31.9 in)",
        ),
    ),
    good=(Good((("gradient band  by rule", "gradient band  820 mm total"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    found = band_finding(RULE, case, joint, "gradient")
    if found is not None:
        case.add(found)
