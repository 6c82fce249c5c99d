"""Cooling is as fast as what governs it asks for."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rates import rate_findings
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L206",
    "cooling-too-slow",
    "error",
    summary="A highest cooling rate below the lowest that the books and procedures ask for.",
    why="Some steels become brittle when they pass a range of temperature slowly.",
    fix="Raise the rate.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  cooling rate     at most 200 degC/h above 315 degC",
                    "  cooling rate     at least 165 degC/h above 315 degC"
                    ' because "Slowly cooled it turned brittle"',
                ),
                (
                    "  cool  to 315 degC   at most 200 degC/h",
                    "  cool  to 315 degC   at most {}",
                ),
            ),
            keeps="165 degC/h",
            breaks="164 degC/h",
            base="procedure",
            says="above 315 degC (599 degF) is 164 degC/h (295 degF/h) … at least 165 degC/h (297 degF/h)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for found in rate_findings(RULE, case, treatment, "cool", "minimum"):
        case.add(found)
