"""A recorder tells whether the metal is within the range of the hold."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Treatment

#: Of the width of the range, what error and step of the recorder may take together.
_SHARE = 6
_NARROWEST = Quantity.of(15, "K", DIFFERENCE)
_COARSEST = Quantity.of(10, "K", DIFFERENCE)

RULE = Rule(
    "C142",
    "recorder-coarse-for-hold",
    "warning",
    summary="A recorder whose limit of error and step together are more than a sixth of the range of the hold.",
    why="At the edges of the range nobody can tell from the chart whether the weld was within it.",
    fix="Record with an instrument that is good enough, or correct its error and resolution.",
    source="common practice, no source; wire and attachment have their errors besides",
    basis="practice",
    edges=(
        Edge(
            (("error       +/- 1.5 degC", "error       +/- {}"),),
            keeps="4.0 degC",
            breaks="4.1 degC",
            says="4.1 degC (7.38 degF) … 1 K (1.8 degF) … 30 K (54 degF)",
        ),
    ),
    good=(Good((("resolution  1 K", "resolution  2 K"),)),),
    agrees=(
        Agreement("recorder.error", "cycle.hold.range", "small against its width"),
        Agreement("recorder.resolution", "cycle.hold.range", "small against its width"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    recorder = treatment.recorder
    if recorder is None or recorder.error is None or recorder.resolution is None:
        return
    # Such steps are told as that, whatever the range.
    if recorder.resolution > _COARSEST:
        return
    taken = recorder.error + recorder.resolution
    for hold, held in holds(case, treatment):
        assert held.low is not None and held.high is not None
        width = held.high - held.low
        # So narrow a range is told by itself.
        if width < _NARROWEST or taken.value * _SHARE <= width.value:
            continue
        field = "resolution" if recorder.resolution >= recorder.error else "error"
        case.add(
            RULE.found(
                f"{recorder.name} errs by up to {recorder.error.both()} and shows steps of "
                f"{recorder.resolution.both()}; the range of the hold is {width.both()} wide",
                recorder.place(field),
                address=treatment.address,
                others=[Label(hold.place("range"), "the hold")],
                basis=RULE.basis,
            )
        )
        return
