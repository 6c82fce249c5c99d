"""Heating is no faster than what governs it allows."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rates import rate_findings
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L204",
    "heating-too-fast",
    "error",
    summary="A heating rate above the limit, where the limit counts.",
    why="The surface runs ahead of the inside; thick or uneven parts bend or crack.",
    fix="Lower the rate, or write `at most by rule`.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (
                (
                    "  heat  to 715 degC   at most 200 degC/h",
                    "  heat  to 715 degC   at most 250 degC/h",
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
                    "  heat  to 715 degC   at most 200 degC/h",
                    "  heat  to 715 degC   at most {}",
                ),
            ),
            keeps="333 degC/h",
            breaks="334 degC/h",
            says="above 315 degC (599 degF) is 334 degC/h (601 degF/h) … at most 333.3 degC/h (600 degF/h)",
        ),
    ),
    good=(
        Good((("  heat  to 315 degC\n", "  heat  to 315 degC  at most 500 degC/h\n"),)),
        Good(
            (("  heat  to 715 degC   at most 200 degC/h", "  heat  to 715 degC   at most by rule"),)
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for found in rate_findings(RULE, case, treatment, "heat", "maximum"):
        case.add(found)
