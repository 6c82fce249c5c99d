"""Margins below critical and tempering temperatures are no smaller than required."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L214",
    "margin-too-small",
    "error",
    summary="A smaller margin below a critical or tempering temperature than the books and "
    "procedures ask for.",
    why="The margin covers the errors of the steel's figures and of the readings.",
    fix="State a margin as large as required.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (("  rate margin  ", "  margin below lower critical {}\n  rate margin  "),),
            keeps="30 K",
            breaks="29 K",
            base="procedure",
            says="is 29 K (52.2 degF) … at least 30 K (54 degF)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None:
        return
    limits = case.limits(treatment.joint, treatment)
    for words, field in (
        ("margin below lower critical", "margin_critical"),
        ("margin below tempering", "margin_tempering"),
    ):
        stated = getattr(cycle, field)
        if stated is None:
            continue
        found = against(
            RULE,
            limits.of(words),
            "minimum",
            stated,
            cycle.place(field),
            address=treatment.address,
            what=f"the {words}",
        )
        if found is not None:
            case.add(found)
