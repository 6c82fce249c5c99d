"""No pass is laid on metal colder than the procedure asks for between passes."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_LINE = "  requires spare for controlling thermocouples"
_MOST = "  interpass         at most 315 degC\n"

RULE = Rule(
    "P122",
    "interpass-too-low",
    "error",
    summary="A lowest interpass temperature below the one a procedure asks for, or above the "
    "highest.",
    why="A pass on metal that has cooled too far hardens, and cracks from hydrogen.",
    fix="Raise it: write `interpass … at least …`, or a higher preheat.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  requires spare for controlling thermocouples",
                    "  interpass at least {}\n  requires spare for controlling thermocouples",
                ),
            ),
            keeps="150 degC",
            breaks="151 degC",
            at="150 degC",
            base="procedure",
            says="is 150 degC (302 degF) … at least 151 degC (303.8 degF)",
        ),
        Edge(
            ((_MOST, "  interpass at most 315 degC at least {}\n"),),
            keeps="314 degC",
            breaks="315 degC",
            says="is 315 degC (599 degF) … 315 degC (599 degF)",
        ),
    ),
    good=(
        Good(
            (
                (_LINE, f"  interpass at least 175 degC\n{_LINE}"),
                (_MOST, "  interpass at most 315 degC at least 175 degC\n"),
            ),
            base="procedure",
        ),
    ),
    agrees=(Agreement("preheat.interpass.at least", "preheat.interpass.at most", "below it"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    interpass = preheat.interpass if preheat is not None else None
    if preheat is None or interpass is None:
        return
    address = f"{joint.address}/preheat"
    lowest, highest = interpass.at_least, interpass.at_most
    if lowest is not None and isinstance(highest, Quantity) and lowest >= highest:
        case.add(
            RULE.found(
                f"the lowest interpass temperature is {lowest.both()}, the highest "
                f"{highest.both()}",
                interpass.place("at_least"),
                address=address,
            )
        )
    # What is not said otherwise is kept at preheat between passes.
    stated = lowest if lowest is not None else preheat.at_least
    if not isinstance(stated, Quantity):
        return
    found = against(
        RULE,
        limits_of(case, joint).of("interpass"),
        "minimum",
        stated,
        interpass.place("at_least") if lowest is not None else preheat.place("at_least"),
        address=address,
        what=f"the lowest interpass temperature of {joint.name}",
    )
    if found is not None:
        case.add(found)
