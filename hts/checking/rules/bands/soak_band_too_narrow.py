"""The soak band is wide enough."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.widths import band_finding
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "B101",
    "soak-band-too-narrow",
    "error",
    summary="A soak band narrower than the books and procedures ask for.",
    why="The outer edge of the heat-affected zone does not reach the hold temperature.",
    fix="Widen the band, or write `soak band by rule`.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (
                ("soak band      by rule", "soak band      {} total"),
                ("at 12:00, 287 mm", "at 12:00, 281 mm"),
                ("at 6:00,  287 mm", "at 6:00,  281 mm"),
            ),
            keeps="81 mm",
            breaks="80 mm",
            says="is 80 mm (3.15 in) … at least 80.8 mm (3.182 in)",
        ),
        Edge(
            (
                ("soak band      by rule", "soak band      {} each side"),
                ("at 12:00, 287 mm", "at 12:00, 281 mm"),
                ("at 6:00,  287 mm", "at 6:00,  281 mm"),
            ),
            keeps="41 mm",
            breaks="40 mm",
            says="is 80 mm (3.15 in) … at least 80.8 mm (3.182 in)",
        ),
    ),
    good=(Good((("soak band      by rule", "soak band      81 mm total"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    found = band_finding(RULE, case, joint, "soak")
    if found is not None:
        case.add(found)
