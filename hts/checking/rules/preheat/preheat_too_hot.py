"""Preheat is no hotter than what governs it allows, and its two ends are the right way round."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_LINE = "  requires spare for controlling thermocouples"
_AT_LEAST = "  at least          150 degC\n"

RULE = Rule(
    "P121",
    "preheat-too-hot",
    "error",
    summary="A preheat above the greatest one a procedure allows, or above the job's own.",
    why="Metal that is too hot before the first arc loses strength and toughness beside the weld.",
    fix="Lower the preheat, or write the greatest one the joint may have.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  requires spare for controlling thermocouples",
                    "  preheat at most 160 degC\n  requires spare for controlling thermocouples",
                ),
                ("  at least          150 degC\n", "  at least          {}\n"),
            ),
            keeps="160 degC",
            breaks="161 degC",
            base="procedure",
            says="is 161 degC (322 degF) … at most 160 degC (320 degF)",
        ),
        Edge(
            (("  at least          150 degC\n", "  at least          150 degC\n  at most {}\n"),),
            keeps="150 degC",
            breaks="149 degC",
            says="is 149 degC (300 degF) … 150 degC (302 degF)",
        ),
        Edge(
            (
                ("  at least          150 degC\n", "  at least          150 degC\n  at most {}\n"),
                (
                    "  requires spare for controlling thermocouples",
                    "  preheat at most 200 degC\n  requires spare for controlling thermocouples",
                ),
            ),
            keeps="200 degC",
            breaks="201 degC",
            base="procedure",
            says="is 201 degC (394 degF) … at most 200 degC (392 degF)",
        ),
    ),
    good=(
        Good(((_AT_LEAST, f"{_AT_LEAST}  at most 200 degC\n"),)),
        Good(((_LINE, f"  preheat at most 200 degC\n{_LINE}"),), base="procedure"),
    ),
    agrees=(Agreement("preheat.at most", "preheat.at least", "no less"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None:
        return
    address = f"{joint.address}/preheat"
    least, most = preheat.at_least, preheat.at_most
    if isinstance(least, Quantity) and most is not None and most < least:
        case.add(
            RULE.found(
                f"the greatest preheat is {most.both()}, the least {least.both()}",
                preheat.place("at_most"),
                address=address,
            )
        )
    stated, field = (most, "at_most") if most is not None else (least, "at_least")
    if not isinstance(stated, Quantity):
        return
    found = against(
        RULE,
        limits_of(case, joint).of("preheat"),
        "maximum",
        stated,
        preheat.place(field),
        address=address,
        what=f"the {'greatest ' if most is not None else ''}preheat of {joint.name}",
    )
    if found is not None:
        case.add(found)
