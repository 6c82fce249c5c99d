"""A furnace is cool enough when the part goes in."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L213",
    "charge-too-hot",
    "error",
    summary="A furnace hotter at charging than the books and procedures allow.",
    why="The part is heated faster than any rate that could be set.",
    fix="Charge at a lower temperature.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (
                (
                    "  excursion        at most 10 min in total",
                    "  excursion        at most 10 min in "
                    "total\n  charge temperature at most 300 degC",
                ),
                ("  rate margin  ", "  charge at most 400 degC\n  rate margin  "),
            ),
            base="procedure",
            at="400 degC",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None or cycle.furnace_at is None:
        return
    found = against(
        RULE,
        case.limits(treatment.joint, treatment).of("charge temperature"),
        "maximum",
        cycle.furnace_at,
        cycle.place("furnace_at"),
        address=treatment.address,
        what="the temperature of the furnace at charging",
    )
    if found is not None:
        case.add(found)
