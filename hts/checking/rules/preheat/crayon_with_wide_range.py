"""A crayon melts at one temperature, above that of the hand."""

from __future__ import annotations

from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Joint

_PROBE = "contact probe at 76 mm on face toward the welder from 0 degC to 400 degC"
#: degC; from memory. Those on sale begin near 40 degC.
_COOLEST = Quantity.of(35, "degC", TEMPERATURE)

RULE = Rule(
    "P127",
    "crayon-with-wide-range",
    "warning",
    summary="Temperature-indicating crayons with a range that begins colder than any melts.",
    why="It is the range of an instrument that shows figures: one of the two words is a slip, and "
    "a crayon proves one temperature only.",
    fix="Name the instrument that has this range, or the temperatures of the crayons.",
    source="common practice, no source (35 degC)",
    basis="practice",
    edges=(
        Edge(
            ((_PROBE, "temperature-indicating crayon at 76 mm from {} to 400 degC"),),
            keeps="35 degC",
            breaks="34 degC",
            says="from 34 degC (93.2 degF) … below 35 degC (95 degF)",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for way in joint.preheat.measured if joint.preheat is not None else ():
        if way.how != "temperature-indicating crayon" or way.lowest is None:
            continue
        if way.lowest < _COOLEST:
            case.add(
                RULE.found(
                    f"the crayons at {joint.name} are to show from {way.lowest.both()} on; none "
                    f"melts below {_COOLEST.both()}",
                    way.place("lowest"),
                    address=f"{joint.address}/preheat",
                    basis=RULE.basis,
                )
            )
