"""Alarms come when something is wrong, and before harm is done."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.segments import Hold

#: K above the range: alarms are rounded. One that comes later comes when the metal has left it. Common practice, no
#: source.
_BEYOND = 1


_TOLERANCE = "  control tolerance  +/- 5 K\n"


def _with(line: str) -> tuple[str, str]:
    return ("  rate margin  ", f"  {line}\n  rate margin  ")


RULE = Rule(
    "Y115",
    "misplaced-alarm",
    "warning",
    summary="A high alarm that is not above the setpoint, comes no sooner than the lower critical "
    "temperature, or stands above the hold range; any alarm that sounds while the controller "
    "still keeps the tolerance it is said to keep.",
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
            (_with("alarm above {}"), (_TOLERANCE, "")),
            keeps="716 degC",
            breaks="715 degC",
            says="715 degC (1319 degF) … of 715 degC (1319 degF)",
        ),
        Edge(
            (_with("alarm above {}"),),
            keeps="731 degC",
            breaks="732 degC",
            says="732 degC (1350 degF) … at 730 degC (1346 degF)",
        ),
        Edge(
            (_with("alarm above {}"),),
            keeps="720 degC",
            breaks="719 degC",
            says="above 719 degC (1326 degF) … 4 K (7.2 degF) from the setpoint … 5 K (9 degF)",
        ),
        Edge(
            (_with("alarm above  728 degC\n  alarm below  {}"),),
            keeps="710 degC",
            breaks="711 degC",
            says="below 711 degC (1312 degF) … 4 K (7.2 degF) from the setpoint … 5 K (9 degF)",
        ),
        Edge(
            (_with("deviation alarm  {}"),),
            keeps="5.0 K",
            breaks="4.9 K",
            says="4.9 K (8.82 degF) from the setpoint … 5 K (9 degF)",
        ),
    ),
    good=(Good((_with("alarm above 728 degC"),)), Good((_with("alarm above 1346 degF"),))),
    agrees=(
        Agreement("cycle.alarm above", "controller.control tolerance", "beyond it"),
        Agreement("cycle.alarm below", "controller.control tolerance", "beyond it"),
        Agreement("cycle.deviation alarm", "controller.control tolerance", "no less"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    if entry.alarm_high is None and entry.alarm_low is None and entry.deviation is None:
        return
    top = hottest(case, treatment)
    if top is None:
        return
    hold = top[0]
    held = case.limits(treatment.joint, treatment).hold_range(hold)
    assert held is not None and held.low is not None and held.high is not None
    setpoint = hold.target or held.low + (held.high - held.low) / 2
    if entry.alarm_high is None or not _of_the_high_one(case, treatment, hold, held.high, setpoint):
        _within_tolerance(case, treatment, setpoint)


def _of_the_high_one(
    case: Case, treatment: Treatment, hold: Hold, highest: Quantity, setpoint: Quantity
) -> bool:
    """Tells of the high alarm by itself; whether it told."""
    alarm = treatment.entry.alarm_high
    assert alarm is not None
    message, others = "", [Label(hold.place(), "the hold")]
    if alarm <= setpoint:
        message = f"the alarm at {alarm.both()} is not above the setpoint of {setpoint.both()}"
    elif (critical := _reached(treatment.joint, alarm)) is not None:
        others = []
        message = (
            f"the alarm at {alarm.both()} comes no sooner than the lower critical temperature of "
            f"{critical.both()}"
        )
    elif alarm.value > highest.value + _BEYOND:
        message = f"the alarm at {alarm.both()} comes too late: the range ends at {highest.both()}"
    if message:
        case.add(
            RULE.found(
                message,
                treatment.place("alarm_high"),
                address=treatment.address,
                others=others,
                basis=RULE.basis,
            )
        )
    return bool(message)


def _reached(joint: Joint, alarm: Quantity) -> Quantity | None:
    """The lower critical temperature of a side that the metal reaches before the alarm."""
    for side in joint.sides:
        figure = side.figure("lower_critical")
        critical = figure.value if figure is not None else None
        if isinstance(critical, Quantity) and alarm >= critical:
            return critical
    return None


def _within_tolerance(case: Case, treatment: Treatment, setpoint: Quantity) -> None:
    """Tells of the first alarm that sounds while the controller keeps its tolerance. One on the
    wrong side of the setpoint has a finding of its own."""
    entry, controller = treatment.entry, treatment.controller
    if controller is None or controller.tolerance is None:
        return
    tolerance = controller.tolerance
    high, low, deviation = entry.alarm_high, entry.alarm_low, entry.deviation
    rooms = (
        ("alarm_high", None if high is None else high - setpoint),
        ("alarm_low", None if low is None else setpoint - low),
        ("deviation", deviation),
    )
    for field, room in rooms:
        if room is None or not 0 < room.value < tolerance.value:
            continue
        which = "of deviation"
        if field != "deviation":
            alarm: Quantity = getattr(entry, field)
            which = f"{'above' if field == 'alarm_high' else 'below'} {alarm.both()}"
        case.add(
            RULE.found(
                f"the alarm {which} comes {room.both()} from the setpoint, and {controller.name} "
                f"lets the temperature swing by {tolerance.both()}",
                treatment.place(field),
                address=treatment.address,
                others=[Label(controller.place("tolerance"), "its tolerance")],
                basis=RULE.basis,
            )
        )
        return
