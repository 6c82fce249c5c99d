"""A furnace is cool enough when the part goes in, and when it comes out."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L213",
    "charge-too-hot",
    "error",
    summary="A furnace hotter at charging or at unloading than the books and procedures allow.",
    why="The part is heated, or cooled, faster than any rate that could be set.",
    fix="Charge, or unload, at a lower temperature.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  excursion        at most 10 min in total",
                    "  excursion        at most 10 min in "
                    "total\n  charge temperature at most 300 degC",
                ),
                ("  rate margin  ", "  charge at most {}\n  rate margin  "),
            ),
            keeps="300 degC",
            breaks="301 degC",
            base="procedure",
            says="is 301 degC (574 degF) … at most 300 degC (572 degF)",
        ),
        Edge(
            (
                (
                    "  excursion        at most 10 min in total",
                    "  excursion        at most 10 min in "
                    "total\n  unload temperature at most 300 degC",
                ),
                ("  rate margin  ", "  unload at most {}\n  rate margin  "),
            ),
            keeps="300 degC",
            breaks="301 degC",
            base="procedure",
            says="is 301 degC (574 degF) … at most 300 degC (572 degF)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None:
        return
    for field, quantity, when in (
        ("furnace_at", "charge temperature", "charging"),
        ("unload_at", "unload temperature", "unloading"),
    ):
        stated = getattr(cycle, field)
        if stated is None:
            continue
        found = against(
            RULE,
            case.limits(treatment.joint, treatment).of(quantity),
            "maximum",
            stated,
            cycle.place(field),
            address=treatment.address,
            what=f"the temperature of the furnace at {when}",
        )
        if found is not None:
            case.add(found)
