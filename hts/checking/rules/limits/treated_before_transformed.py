"""A hardenable weld transforms before it is heat treated."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against, cited, places, quoted
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Edge, Rule
from hts.language.model.joint import Treatment

_LIMIT = (
    "  interpass        at most 350",
    "  temperature before heat treatment at most 95 degC\n  interpass        at most 350",
)

RULE = Rule(
    "L225",
    "treated-before-transformed",
    "error",
    summary="A weld that is not made to cool, or not far enough, before it is heat treated.",
    why="Whatever is still austenite then turns into hard martensite afterwards and stays "
    "untempered.",
    fix="Write `first cool below` with the temperature asked for.",
    source="the governing books and procedures (common practice for 9Cr steel: 95 degC, or 204 degC "
    "where nickel and manganese of the filler together stay below 1.2 %)",
    basis="derived",
    bad=(Bad((_LIMIT,), base="procedure", at="stress-relief", says="for 95 degC"),),
    edges=(
        Edge(
            (_LIMIT, ("  rate margin  ", "  first cool below {}\n  rate margin  ")),
            keeps="95 degC",
            breaks="96 degC",
            base="procedure",
            says="is 96 degC (205 degF) … at most 95 degC (203 degF)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None or not heats(treatment):
        return
    governing = case.limits(treatment.joint, treatment).of("temperature before heat treatment")
    if governing is None:
        return
    if cycle.cooled_below is not None:
        found = against(
            RULE,
            governing,
            "maximum",
            cycle.cooled_below,
            cycle.place("cooled_below"),
            address=treatment.address,
            what="the temperature the weld cools below first",
        )
        if found is not None:
            case.add(found)
        return
    strictest = next(iter(governing.ordered("maximum")), None)
    if strictest is None:
        return
    source = strictest.limit.source
    case.add(
        RULE.found(
            f"nothing makes {treatment.joint.name} cool before {treatment.name}, but "
            f"{cited(source)} asks for {strictest.bounds['maximum']} or colder first",
            treatment.place("name"),
            address=treatment.address,
            others=places(source),
            notes=quoted(source),
            basis=source.basis,
        )
    )
