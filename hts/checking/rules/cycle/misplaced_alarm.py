"""Alarms come when something is wrong, and before harm is done."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment

#: K above the range; an alarm that comes later comes too late. Common practice, no source.
_BEYOND = 10


def _with(line: str) -> tuple[str, str]:
    return ("  rate margin  ", f"  {line}\n  rate margin  ")


RULE = Rule(
    "Y115",
    "misplaced-alarm",
    "warning",
    summary="A high alarm that is not above the setpoint, comes no sooner than the lower critical "
    "temperature, or stands far above the hold range.",
    why="An alarm that always sounds is switched off; one that sounds too late saves nothing.",
    fix="Set it at the top of the hold range or just below.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (_with("alarm above 805 degC"),),
            at="805 degC",
            says="805 degC (1481 degF) … of 805 degC (1481 degF)",
        ),
    ),
    edges=(
        Edge(
            (_with("alarm above {}"),),
            keeps="716 degC",
            breaks="715 degC",
            says="715 degC (1319 degF) … of 715 degC (1319 degF)",
        ),
        Edge(
            (_with("alarm above {}"),),
            keeps="740 degC",
            breaks="741 degC",
            says="741 degC (1366 degF) … at 730 degC (1346 degF)",
        ),
    ),
    good=(Good((_with("alarm above 728 degC"),)), Good((_with("alarm above 735 degC"),))),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    alarm = treatment.entry.alarm_high
    top = hottest(case, treatment) if alarm is not None else None
    if alarm is None or top is None:
        return
    hold = top[0]
    held = case.limits(treatment.joint, treatment).hold_range(hold)
    assert held is not None and held.low is not None and held.high is not None
    setpoint = hold.target or held.low + (held.high - held.low) / 2
    address = treatment.address
    if alarm <= setpoint:
        case.add(
            RULE.found(
                f"the alarm at {alarm.both()} is not above the setpoint of {setpoint.both()}",
                treatment.place("alarm_high"),
                address=address,
                others=[Label(hold.place(), "the hold")],
                basis=RULE.basis,
            )
        )
        return
    for side in treatment.joint.sides:
        figure = side.figure("lower_critical")
        critical = figure.value if figure is not None else None
        if isinstance(critical, Quantity) and alarm >= critical:
            case.add(
                RULE.found(
                    f"the alarm at {alarm.both()} comes no sooner than the lower critical "
                    f"temperature of {critical.both()}",
                    treatment.place("alarm_high"),
                    address=address,
                    basis=RULE.basis,
                )
            )
            return
    if alarm.value > held.high.value + _BEYOND:
        case.add(
            RULE.found(
                f"the alarm at {alarm.both()} comes too late: the range ends at {held.high.both()}",
                treatment.place("alarm_high"),
                address=address,
                others=[Label(hold.place(), "the hold")],
                basis=RULE.basis,
            )
        )
