"""Cooling is no faster than what governs it allows."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rates import rate_findings
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L205",
    "cooling-too-fast",
    "error",
    summary="A cooling rate above the limit, where the limit counts.",
    why="Cooling unevenly locks in again the stresses the hold has relieved.",
    fix="Lower the rate, or write `at most by rule`.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (
                (
                    "  cool  to 315 degC   at most 200 degC/h",
                    "  cool  to 315 degC   at most 350 degC/h",
                ),
            ),
            at="350 degC/h",
        ),
        Bad(
            (
                (
                    "  cool  to 315 degC   at most 200 degC/h",
                    "  cool  to 315 degC   at most 250 degC/h",
                ),
            ),
            base="procedure",
            at="250 degC/h",
        ),
    ),
    good=(Good((("  cool  in still air", "  cool  to 100 degC at most 500 degC/h"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for found in rate_findings(RULE, case, treatment, "cool", "maximum"):
        case.add(found)
