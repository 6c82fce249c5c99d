"""What a broken thermocouple makes the controller do is said beside its alarms."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment

_BREAK = "  sensor break        upscale\n"
_ALARM = ("  rate margin  ", "  deviation alarm 12 K\n  rate margin  ")
#: What else is set at the controller, in the order of the vocabulary.
_SET = ("alarm_high", "alarm_low", "deviation")

RULE = Rule(
    "Y130",
    "sensor-break-not-said",
    "advice",
    summary="Alarms of a controller are stated, and not what it does when a thermocouple breaks.",
    why="Left as it was set for another job the controller may take the metal for cold and give full "
    "power, and no alarm sounds.",
    fix="Write `sensor break upscale`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_BREAK, ""), _ALARM), at="12 K", says="C1 … thermocouple breaks"),),
    good=(Good(((_BREAK, ""),)), Good((_ALARM,))),
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
    alarm = next((field for field in _SET if getattr(entry, field, None) is not None), None)
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
