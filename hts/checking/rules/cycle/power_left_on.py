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
    "warning",
    summary="A cycle that says when the insulation comes off, and not what the controller does at its "
    "end, or that it holds on.",
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
            says="what C1 does at the end of stress-relief, and insulation comes off below 80 degC (176 degF)",
        ),
        Bad(
            ((_MARGIN, f"{_STRIP}  finally hold\n"),),
            at="hold",
            says="C1 goes on holding at the end of stress-relief, and insulation comes off below 80 degC (176 degF)",
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
    if cycle is None or controller is None or cycle.strip_below is None:
        return
    if cycle.finally_ == "hold":
        message = f"{controller.name} goes on holding at the end of {treatment.name}"
    elif not cycle.says("finally_"):
        message = f"nothing says what {controller.name} does at the end of {treatment.name}"
    else:
        return
    case.add(
        RULE.found(
            f"{message}, and insulation comes off below {cycle.strip_below.both()}",
            cycle.place("finally_" if cycle.finally_ else "strip_below"),
            address=treatment.address,
            others=[Label(controller.place("name"), "the controller")],
            basis=RULE.basis,
        )
    )
