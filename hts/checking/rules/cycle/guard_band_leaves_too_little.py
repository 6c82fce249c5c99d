"""Between its guard bands a hold range has room for the swing of the control."""

from __future__ import annotations

from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.errors import wire_error
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.instrument import error_at
from hts.language.model.joint import Treatment

_COUNTS = "  hold counts         while all in range"
_GUARD = (_COUNTS, f"{_COUNTS}\n  guard band  expanded uncertainty")

RULE = Rule(
    "Y118",
    "guard-band-leaves-too-little",
    "warning",
    summary="A hold range that, less its guard bands, is narrower than the swing of the "
    "controller.",
    why="The record can then only be accepted conditionally, however well the work is done.",
    fix="Calibrate the wire, widen the range, or agree on another guard band.",
    source="ILAC-G8:09/2019 (guarded acceptance), ISO 14253-1:2017 (one-sided 95 %), applied to "
    "both ends of the range",
    basis="derived",
    edges=(
        Edge(
            (_GUARD, ("700 .. 730 degC", "{} .. 723 degC")),
            keeps="705",
            breaks="706",
            at="expanded uncertainty",
            says="of 3.8 K … 9.4 K of 706 degC .. 723 degC … over 10 K",
        ),
    ),
    good=(Good((_GUARD,)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    controller, recorder = treatment.controller, treatment.recorder
    band = treatment.entry.guard_band
    if band is None or band.rule == "none" or recorder is None:
        return
    if controller is None or controller.tolerance is None:
        return
    from hts.science.uncertainty.decision import guard_band
    from hts.science.uncertainty.reading import GUARDS, reading

    swing = controller.tolerance * 2
    for _, held in holds(case, treatment):
        wire = wire_error(treatment.joint, held.high) if held.high is not None else None
        error = error_at(recorder, held.high)
        if wire is None or error is None or held.width is None or band.rule not in GUARDS:
            continue
        if held.width < swing + wire.size * 2:
            continue  # told as too narrow, guard band or not
        step = float(recorder.resolution.value) if recorder.resolution is not None else None
        budget = reading(float(wire.size.value), float(error.value), step)
        drawn_in = guard_band(GUARDS[band.rule], budget.standard)
        left = float(held.width.value) - 2 * drawn_in
        if left < float(swing.value):
            width = Quantity.rounded(drawn_in, 1, "K", DIFFERENCE)
            room = Quantity.rounded(max(left, 0.0), 1, "K", DIFFERENCE)
            case.add(
                RULE.found(
                    f"guard bands of {width} at both ends leave {room} of {held.show()}; the "
                    f"control swings over {swing}",
                    band.place("rule"),
                    address=treatment.address,
                )
            )
            return
