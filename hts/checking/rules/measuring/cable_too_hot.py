"""The warm end of the extension cable stays within what the cable is made for."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

_CABLE = "KX class 1 length 20 m"

RULE = Rule(
    "C125",
    "cable-too-hot",
    "warning",
    summary="An extension cable whose warm end is hotter than its tolerance is given for.",
    why="Beyond that its alloys no longer match those of the wire, and the error has no bound.",
    fix="Use a longer lead of thermocouple wire, or cable for a higher temperature.",
    source="IEC 60584-3 (as quoted elsewhere) and ASTM E230 (from memory): ranges of cables, such "
    "as 200 degC for KX and 100 degC for KCB",
    basis="memory",
    edges=(
        Edge(
            (("KX class 1 length 20 m", "KX class 1 length 20 m hottest end {}"),),
            keeps="200 degC",
            breaks="201 degC",
            says="201 degC is above 200 degC",
        ),
        Edge(
            (("KX class 1 length 20 m", "KCB class 2 length 20 m hottest end {}"),),
            keeps="100 degC",
            breaks="101 degC",
            says="101 degC is above 100 degC",
        ),
    ),
    good=(Good(((_CABLE, f"{_CABLE} hottest end 120 degC"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    cable = block.extension if block is not None else None
    if cable is None or cable.hottest is None or cable.grade is None:
        return
    from hts.science.thermocouples.errors import OutOfRange, ThermocoupleError
    from hts.science.thermocouples.extension import extension_tolerance

    standard = "IEC 60584-3" if cable.grade in ("1", "2") else "ASTM E230"
    try:
        extension_tolerance(standard, cable.code, cable.grade, cable.hottest.to("degC"))
    except OutOfRange as error:
        case.add(
            RULE.found(
                str(error),
                cable.place("hottest"),
                address=f"{joint.address}/thermocouples",
                basis=RULE.basis,
            )
        )
    except ThermocoupleError:
        return  # a marking or class that is unknown is told elsewhere
