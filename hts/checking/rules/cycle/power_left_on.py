"""Where people are told when to take the insulation off, the power is off by then."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment

_MARGIN = "  rate margin         10 %\n"
_STRIP = f"{_MARGIN}  remove insulation below 80 degC\n"

RULE = Rule(
    "Y143",
    "power-left-on",
    "advice",
    summary="A cycle that says when the insulation comes off, and not what the controller does at its "
    "end.",
    why="A controller left at its last setpoint keeps heaters live under the hands of those who strip "
    "them, and heats the metal again.",
    fix="Write `finally power off`.",
    source="common practice, no source",
    basis="practice",
    about=("cycle.finally",),
    bad=(
        Bad(
            ((_MARGIN, _STRIP),),
            at="80 degC",
            says="what C1 does at the end of stress-relief",
        ),
    ),
    good=(
        Good(((_MARGIN, f"{_STRIP}  finally power off\n"),)),
        Good(()),
    ),
    agrees=(
        Agreement("cycle.finally", "cycle.remove insulation below", "stated where insulation is"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle, controller = treatment.cycle, treatment.controller
    if cycle is None or controller is None or cycle.strip_below is None or cycle.says("finally_"):
        return
    case.add(
        RULE.found(
            f"nothing says what {controller.name} does at the end of {treatment.name}",
            cycle.place("strip_below"),
            address=treatment.address,
            others=[Label(controller.place("name"), "the controller")],
            basis=RULE.basis,
        )
    )
