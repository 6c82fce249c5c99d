"""The class of the wire is one its type has, and reaches to the hold."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.errors import standard_of
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "C104",
    "class-not-of-type",
    "error",
    summary="A tolerance class the type of thermocouple does not have, or not at the hold.",
    why="Without a class for that temperature the error of the readings is unknown.",
    fix="Use wire of a class that covers the hold, or state its error by calibration.",
    source="IEC 60584-1:2013 and ASTM E230 tolerance tables",
    basis="published",
    bad=(
        Bad(
            (("thermocouples type K class 1 ", "thermocouples type K class 3 "),),
            at="3",
            says="730 degC is above 40 degC",
        ),
        Bad(
            (
                ("thermocouples type K class 1 ", "thermocouples type B class 1 "),
                ("channels    12 type K", "channels    12 type B"),
                ("channels           6 type K", "channels           6 type B"),
                ("extension           KX class 1", "extension           BX class 1"),
                (" gauge 20", ""),
                ("capacitor discharge legs apart 6 mm energy 100 J each leg apart", "peened"),
            ),
            at="1",
        ),
    ),
    good=(
        Good(
            (
                ("thermocouples type K class 1 ", "thermocouples type K class special "),
                ("colours             IEC 60584-3", "colours             ASTM E230"),
                ("extension           KX class 1", "extension           KX class special"),
            )
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    block = treatment.joint.entry.thermocouples
    top = hottest(case, treatment)
    if block is None or block.type is None or block.grade is None or top is None:
        return
    if block.error is not None:
        return
    from hts.science.thermocouples.errors import ThermocoupleError
    from hts.science.thermocouples.tolerance import limit_of_error

    hold, high = top
    try:
        limit_of_error(standard_of(block.grade), block.type, block.grade, high.to("degC"))
    except ThermocoupleError as error:
        case.add(
            RULE.found(
                str(error),
                block.place("grade"),
                address=f"{treatment.joint.address}/thermocouples",
                others=[Label(hold.place("range"), "the hold")],
            )
        )
