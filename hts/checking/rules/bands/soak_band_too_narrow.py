"""The soak band is wide enough."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.widths import band_finding
from hts.checking.rules.rule import Bad, Good, Rule
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
    bad=(
        Bad(
            (
                ("soak band      by rule", "soak band      78 mm total"),
                ("at 12:00, 287 mm", "at 12:00, 281 mm"),
                ("at 6:00,  287 mm", "at 6:00,  281 mm"),
            ),
            at="78 mm total",
        ),
        Bad(
            (
                ("soak band      by rule", "soak band      39 mm each side"),
                ("at 12:00, 287 mm", "at 12:00, 281 mm"),
                ("at 6:00,  287 mm", "at 6:00,  281 mm"),
            ),
            at="39 mm each side",
        ),
    ),
    good=(Good((("soak band      by rule", "soak band      81 mm total"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    found = band_finding(RULE, case, joint, "soak")
    if found is not None:
        case.add(found)
