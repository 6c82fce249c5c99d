"""Heat treatment follows welding soon enough."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L212",
    "delay-too-long",
    "error",
    summary="A longer delay between welding and heat treatment than the books and procedures "
    "allow.",
    why="Hydrogen cracks hard welds within days; some steels also corrode as welded.",
    fix="Shorten the delay, or bake the joint first.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (("  rate margin  ", "  begin within 72 h\n  rate margin  "),),
            base="procedure",
            at="72 h",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None or cycle.delay is None:
        return
    found = against(
        RULE,
        case.limits(treatment.joint, treatment).of("delay before heat treatment"),
        "maximum",
        cycle.delay,
        cycle.place("delay"),
        address=treatment.address,
        what="the delay before heat treatment",
    )
    if found is not None:
        case.add(found)
