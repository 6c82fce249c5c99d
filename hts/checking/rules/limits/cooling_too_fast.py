"""Cooling is no faster than what governs it allows."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rates import rate_findings
from hts.checking.rules.rule import Bad, Edge, Good, Rule
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
                    "  cool  to 315 degC   at most 250 degC/h",
                ),
            ),
            base="procedure",
            at="250 degC/h",
            says="above 315 degC (599 degF) is 250 degC/h (450 degF/h) … at most 200 degC/h (360 degF/h)",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "  cool  to 315 degC   at most 200 degC/h",
                    "  cool  to 315 degC   at most {}",
                ),
            ),
            keeps="333 degC/h",
            breaks="334 degC/h",
            says="above 315 degC (599 degF) is 334 degC/h (601 degF/h) … at most 333.3 degC/h (600 degF/h)",
        ),
    ),
    good=(Good((("  cool  in still air", "  cool  to 100 degC at most 500 degC/h"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for found in rate_findings(RULE, case, treatment, "cool", "maximum"):
        case.add(found)
