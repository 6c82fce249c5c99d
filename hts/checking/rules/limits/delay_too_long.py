"""Heat treatment follows welding soon enough."""

from __future__ import annotations

from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.metals import hardens
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

#: A chromium-molybdenum steel is not left as welded for longer; common practice, no source.
_LONG = Quantity.of(10, "d", TIME)

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
    edges=(
        Edge(
            (("  rate margin  ", "  begin within {}\n  rate margin  "),),
            keeps="48 h",
            breaks="49 h",
            base="procedure",
            says="is 49 h … at most 48 h",
        ),
        Edge(
            (("  rate margin  ", "  begin within {}\n  rate margin  "),),
            keeps="240 h",
            breaks="241 h",
            says="up to 241 h",
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
    elif cycle.delay > _LONG and not treatment.joint.bakes and hardens(treatment.joint):
        case.add(
            RULE.found(
                f"{treatment.joint.name} waits up to {cycle.delay} for its heat treatment, "
                "and hydrogen is not released before",
                cycle.place("delay"),
                address=treatment.address,
                basis="practice",
            )
        )
