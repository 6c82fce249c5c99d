"""Alarms of a program: those stated, else inside the hold range by the error of a reading."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.job.compiler.keyed import Keys, error_step
from hts.job.compiler.steps import Step
from hts.job.compiler.tolerance import wire_error
from hts.job.compiler.why import Why, derived, stated
from hts.language.model.instrument import error_at
from hts.language.model.joint import Joint
from hts.language.vocabulary.cycle import Treatment
from hts.language.vocabulary.equipment import Controller


def alarmed(
    steps: list[Step],
    joint: Joint,
    controller: Controller | None,
    known: Keys,
    entry: Treatment | None = None,
) -> list[Step]:
    """The steps with their alarms.

    Before a hold its upper end is watched, after the last one that of the hold before; a low
    alarm makes sense in a hold only. An alarm at the limit itself would tell when it is too late.
    """
    high = entry.alarm_high if entry is not None else None
    low = entry.alarm_low if entry is not None else None
    held = [step for step in steps if step.window is not None]
    found = []
    for step in steps:
        hold = next((one for one in held if one.number >= step.number), held[-1] if held else None)
        if high is not None and entry is not None:
            step = step._replace(
                alarm_high=high, alarm_high_why=stated(entry, "alarm_high", str(high))
            )
        elif hold is not None:
            above, why = _inside(hold, joint, controller, known, rising=True)
            step = step._replace(alarm_high=above, alarm_high_why=why)
        if step.window is not None and low is not None and entry is not None:
            step = step._replace(alarm_low=low, alarm_low_why=stated(entry, "alarm_low", str(low)))
        elif step.window is not None:
            below, why = _inside(step, joint, controller, known, rising=False)
            step = step._replace(alarm_low=below, alarm_low_why=why)
        found.append(step)
    return found


def _inside(
    hold: Step, joint: Joint, controller: Controller | None, known: Keys, *, rising: bool
) -> tuple[Quantity, Why]:
    """An end of the hold range, less the error of a reading: half of the way to the setpoint where
    that is less."""
    window, target = hold.window, hold.end
    assert window is not None and target is not None
    end = window.high if rising else window.low
    assert end is not None
    wire = wire_error(joint, end)
    errors = [(wire.error, "wire")] if wire is not None else []
    error = error_at(controller, end) if controller is not None else None
    if controller is not None and error is not None:
        errors.append((error, f"controller {controller.name}"))
    errors = errors or [(error_step(known), "one step of the setting")]
    at = end
    for error, _ in errors:
        at = at - error if rising else at + error
    sign = " - " if rising else " + "
    numbers = sign.join([str(end), *(f"{error} ({what})" for error, what in errors)])
    why = derived("end of the hold range, inside by the error of a reading", numbers)
    room = (end - target) / 2 if rising else (target - end) / 2
    near = target + room if rising else target - room
    if (at < near) if rising else (at > near):
        return near, why._replace(
            formula="half way from the setpoint to the end of the hold range",
            numbers=f"({target} + {end}) / 2",
        )
    return at, why
