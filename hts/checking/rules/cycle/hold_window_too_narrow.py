"""The range of a hold has room for the swing of the control and the error of the wire."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.errors import wire_error
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y107",
    "hold-window-too-narrow",
    "warning",
    summary="A hold range narrower than twice the control tolerance and the wire's limit of error.",
    why="Readings leave such a range though the controller does all it can.",
    fix="Widen the range, or use better wire or a better controller.",
    source="derived: both errors on both sides of the setpoint",
    basis="derived",
    edges=(
        Edge(
            (("700 .. 730 degC", "{} .. 722 degC"),),
            keeps="706.2",
            breaks="706.3",
            says="is 15.7 K (28.26 degF) … 15.776 K (28.3968 degF)",
        ),
    ),
    good=(Good((("700 .. 730 degC", "705 .. 725 degC"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    controller = treatment.controller
    if controller is None or controller.tolerance is None:
        return
    for hold, held in holds(case, treatment):
        width, high = held.width, held.high
        assert width is not None and high is not None
        wire = wire_error(treatment.joint, high)
        if wire is None:
            continue
        least = (controller.tolerance + wire.size) * 2
        if width < least:
            unit = width.unit.symbol
            case.add(
                RULE.found(
                    f"the hold range is {width.both()} wide; control and wire need "
                    f"{least.in_unit(unit).both('up')}",
                    hold.place("range"),
                    address=treatment.address,
                    notes=[
                        f"2 × (control tolerance {controller.tolerance.both()} + limit of "
                        f"error {wire.size.both('up')}, {wire.source})"
                    ],
                )
            )
