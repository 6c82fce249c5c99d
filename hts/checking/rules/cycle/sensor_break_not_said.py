"""What a broken thermocouple makes the controller do is said."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment

_BREAK = "  sensor break        upscale\n"
_ALARM = ("  rate margin  ", "  deviation alarm 12 K\n  rate margin  ")
#: What else is set at the controller, in the order of the vocabulary, and last which it is.
_SET = ("alarm_high", "alarm_low", "deviation", "controlled_by")

RULE = Rule(
    "Y130",
    "sensor-break-not-said",
    "advice",
    summary="A controlled heat treatment that does not say what the controller does when a "
    "thermocouple breaks.",
    why="Left as it was set for another job the controller may take the metal for cold and give full "
    "power, and no alarm sounds.",
    fix="Write `sensor break upscale`.",
    source="common practice, no source",
    basis="practice",
    about=(
        "cycle.sensor break",
        "bake.sensor break",
    ),
    bad=(
        Bad(((_BREAK, ""), _ALARM), at="12 K", says="C1 … thermocouple breaks"),
        Bad(((_BREAK, ""),), at="C1", says="C1 … thermocouple breaks"),
    ),
    good=(Good((_ALARM,)),),
    agrees=(
        Agreement("cycle.sensor break", "cycle.deviation alarm", "stated where alarms are"),
        Agreement("cycle.sensor break", "cycle.alarm above", "stated where alarms are"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry, controller = treatment.entry, treatment.controller
    if entry.sensor_break is not None or entry.says("sensor_break") or controller is None:
        return
    heating = treatment.joint.entry.heating
    if heating is not None and heating.method == "furnace":
        return
    # A bake is watched, and seldom has a program of its own: there it is asked beside alarms alone.
    asked = _SET[:-1] if treatment.is_bake else _SET
    alarm = next((field for field in asked if getattr(entry, field, None) is not None), None)
    if alarm is None:
        return
    case.add(
        RULE.found(
            f"nothing says what {controller.name} does in {treatment.name} when a thermocouple breaks",
            entry.place(alarm),
            address=treatment.address,
            others=[Label(controller.place("name"), "the controller")],
            basis=RULE.basis,
        )
    )
