"""The heated band is wide enough."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.widths import band_finding
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "B102",
    "heated-band-too-narrow",
    "error",
    summary="A heated band narrower than the books and procedures ask for.",
    why="The inside of the wall stays colder than the outside under too narrow a band of heaters.",
    fix="Widen the band, or write `heated band by rule`.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (
                ("heated band    by rule", "heated band    300 mm total"),
                ("at 12:00, 287 mm", "at 12:00, 150 mm"),
                ("at 6:00,  287 mm", "at 6:00,  150 mm"),
            ),
            at="300 mm total",
            says="is 300 mm (11.81 in) … at least 574.7 mm (22.63 in)",
        ),
    ),
    edges=(
        Edge(
            (("heated band    by rule", "heated band    {} total"),),
            keeps="575 mm",
            breaks="574 mm",
            says="is 574 mm (22.6 in) … at least 574.7 mm (22.63 in)",
        ),
    ),
    good=(Good((("heated band    by rule", "heated band    288 mm each side"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    found = band_finding(RULE, case, joint, "heated")
    if found is not None:
        case.add(found)
