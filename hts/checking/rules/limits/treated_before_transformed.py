"""A hardenable weld transforms before it is heat treated."""

from __future__ import annotations

from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against, cited, places, quoted
from hts.checking.rules.helpers.steps import FROM_ABOVE, heats
from hts.checking.rules.rule import Bad, Edge, Rule
from hts.language.model.joint import Treatment
from hts.limits import Governing, book, demands

_LIMIT = (
    "  interpass        at most 350",
    "  temperature before heat treatment at most 95 degC\n  interpass        at most 350",
)
_ASKED, _PRACTICE = "temperature before heat treatment", "common-practice"
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
    limits = case.limits(treatment.joint, treatment)
    governing = limits.of(_ASKED)
    if governing is None or governing.setter("maximum") is None:
        governing = _by_practice(limits) if _is_first(treatment) else None
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


def _by_practice(limits: JointLimits) -> Governing | None:
    """What is asked for where nobody in force says anything."""
    rows = [limit for limit in book(_PRACTICE).limits if limit.quantity == _ASKED]
    return demands(rows, limits.facts).get(_ASKED)


def _is_first(treatment: Treatment) -> bool:
    """Whether the weld may still be hot from welding, and is not hardened anew by the treatment."""
    joint, cycle = treatment.joint, treatment.cycle
    if joint.entry.weld_is == "made already" or cycle is None or cycle.purpose in FROM_ABOVE:
        return False
    return next((each for each in joint.cycles if heats(each)), None) is treatment
