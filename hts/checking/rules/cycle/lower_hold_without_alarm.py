"""Of several holds each has an alarm that comes in time."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Treatment

#: K above a range; an alarm that comes later comes too late. Common practice, no source.
_BEYOND = 30

_HEAT = "  heat  to 715 degC   at most 200 degC/h\n"
_LOWER = f"  heat  to 685 degC   at most 200 degC/h\n  hold  675 .. 695 degC for 2 h\n{_HEAT}"
_MARGIN = "  rate margin  "
_ALARM = f"  alarm above  729 degC\n{_MARGIN}"

RULE = Rule(
    "Y129",
    "lower-hold-without-alarm",
    "advice",
    summary="A cycle with a lower hold whose only alarm stands at its hottest one.",
    why="At the lower hold the metal can run away by a hundred degrees before anything sounds.",
    fix="Add `deviation alarm`, which follows the setpoint.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_HEAT, _LOWER), (_MARGIN, "  alarm above  {}\n" + _MARGIN)),
            keeps="725 degC",
            breaks="726 degC",
            says="726 degC (1339 degF) … 695 degC (1283 degF)",
        ),
    ),
    good=(Good(((_HEAT, _LOWER), (_MARGIN, f"  deviation alarm 15 K\n{_ALARM}"))),),
    agrees=(Agreement("cycle.alarm above", "cycle.hold.range", "near each, or a deviation alarm"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    alarm = entry.alarm_high
    if alarm is None or entry.deviation is not None:
        return
    for hold, held in holds(case, treatment):
        assert held.high is not None
        if alarm.value > held.high.value + _BEYOND and len(list(holds(case, treatment))) > 1:
            case.add(
                RULE.found(
                    f"the alarm at {alarm.both()} is far above the hold that ends at "
                    f"{held.high.both()}, and no deviation alarm follows the setpoint",
                    treatment.place("alarm_high"),
                    address=treatment.address,
                    others=[Label(hold.place(), "the lower hold")],
                    basis=RULE.basis,
                )
            )
            return
