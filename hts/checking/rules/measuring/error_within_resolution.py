"""An instrument errs by more than half of the step it shows."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule

#: Steps that are told as too coarse by themselves.
_COARSE = Quantity.of(10, "K", DIFFERENCE)

RULE = Rule(
    "C146",
    "error-within-resolution",
    "warning",
    summary="A controller or recorder with a limit of error no greater than half of the step it shows.",
    why="Rounding to the step alone makes as much: one of the two figures lost a digit or is of another "
    "instrument, and the temperatures are judged with too small an error.",
    fix="Copy error and resolution from the certificate.",
    source="arithmetic: what is rounded to a step is off by up to half of it",
    basis="derived",
    edges=(
        Edge(
            (("resolution  1 K", "resolution  {}"),),
            keeps="2.9 K",
            breaks="3 K",
            at="error       +/- 1.5 degC",
            says="errs by up to 1.5 degC (2.7 degF), and steps of 3 K (5.4 degF) alone make as much",
        ),
    ),
    agrees=(
        Agreement("recorder.error", "recorder.resolution", "more than half a step"),
        Agreement("controller.error", "controller.resolution", "more than half a step"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    file = case.spec.file
    for instrument in (*file.controllers, *file.recorders):
        error, step = instrument.error, instrument.resolution
        if not instrument.sound or error is None or step is None or step >= _COARSE:
            continue
        if error.value * 2 > step.value:
            continue
        case.add(
            RULE.found(
                f"{instrument.name} errs by up to {error.both()}, and steps of {step.both()} alone "
                "make as much",
                instrument.place("error"),
                address=instrument.name,
                others=[Label(instrument.place("resolution"), "the step")],
            )
        )
