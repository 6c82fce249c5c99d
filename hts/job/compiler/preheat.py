"""Preheat as a program: brought to temperature, kept there until welding has ended."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import Interval, Quantity
from hts.checking.govern import JointLimits
from hts.job.compiler.alarms import alarmed
from hts.job.compiler.assumed import READING, SWING
from hts.job.compiler.derivations import derivations, undecided
from hts.job.compiler.errors import CannotCompile
from hts.job.compiler.hold import HoldPlan, printed
from hts.job.compiler.keyed import Keys, keyed, keys
from hts.job.compiler.program import (
    PREHEAT,
    Program,
    ambient_start,
    default_margin,
    settings,
    zone_rows,
)
from hts.job.compiler.steps import Walk
from hts.job.compiler.tolerance import wire_error
from hts.job.compiler.units import Units, led_by
from hts.job.compiler.why import Why, demanded, derived, stated
from hts.language.model.instrument import error_at
from hts.language.model.joint import Joint
from hts.language.vocabulary.equipment import Controller
from hts.language.vocabulary.preheat import Preheat
from hts.language.vocabulary.segments import Heat


class Target(NamedTuple):
    """The setpoint of a preheat, and why it lies there."""

    at: Quantity
    why: Why


def of_preheat(joint: Joint, entry: Preheat, limits: JointLimits, units: Units) -> Program:
    """The preheat of a joint. Raises CannotCompile."""
    least, most = limits.preheat(), limits.interpass()
    lacking = [
        f"{joint.name}/preheat: no rule gives the {what}"
        for what, value in (("minimum preheat", least), ("maximum interpass temperature", most))
        if value is None
    ]
    if least is None or most is None:
        raise CannotCompile(lacking)
    if least > most:
        raise CannotCompile([f"{joint.name}/preheat: {least} is above the interpass {most}"])
    window = printed(Interval(least, most), limits, "preheat", "interpass")
    controller = entry.controlled_by.target if entry.controlled_by is not None else None
    known = keys(controller, units)
    zones = zone_rows(joint)
    target = _target(joint, entry, window, controller, known)
    start = ambient_start(target.at)
    margin, margin_why = default_margin()
    walk = Walk(f"{joint.name}/preheat", start.at, None, margin, limits, led_by(units, known.unit))
    window_why = (
        _why(entry, "at_least", limits, "preheat", "minimum"),
        _why(entry, "interpass", limits, "interpass", "maximum"),
    )
    held = HoldPlan(
        window,
        window_why,
        target.at,
        target.why,
        None,
        None,
        None,
        f"until {entry.until}" if entry.until else "until the end of welding",
    )
    walk.ramp(1, target.at, _heating(entry))
    if entry.soak is not None:
        walk.hold_at(
            1,
            held._replace(
                least=entry.soak, least_why=stated(entry, "soak"), note="before the arc is struck"
            ),
            None,
        )
    walk.hold_at(1, held, None)
    by_hand = controller is None or entry.method == "gas" or not any(zone.control for zone in zones)
    steps = walk.steps if by_hand else alarmed(walk.steps, joint, controller, known)
    return Program(
        PREHEAT,
        PREHEAT,
        joint,
        entry,
        zones,
        tuple(keyed(steps, known)),
        start,
        margin,
        margin_why,
        controller,
        entry.recorded_by.target if entry.recorded_by is not None else None,
        settings(entry),
        tuple(derivations(limits, (PREHEAT,))),
        tuple(undecided(limits, (PREHEAT,))),
        known.unit,
        by_hand,
    )


def _heating(entry: Preheat) -> Heat:
    """Heating to preheat as a step of a treatment, so that the same limits are looked up."""
    heat = Heat()
    heat.source, heat.start, heat.end, heat.places = (
        entry.source,
        entry.start,
        entry.end,
        dict(entry.places),
    )
    heat.rate = entry.rate
    return heat


def _why(entry: Preheat, field: str, limits: JointLimits, quantity: str, direction: str) -> Why:
    stated_value = getattr(entry, field)
    stated_value = getattr(stated_value, "at_most", stated_value)
    found = limits.derived(quantity, direction)
    if isinstance(stated_value, Quantity) or found is None:
        return stated(entry, field, str(stated_value))
    return demanded(found.demand, direction)  # type: ignore[arg-type]


def _target(
    joint: Joint, entry: Preheat, window: Interval, controller: Controller | None, known: Keys
) -> Target:
    """The least preheat and on top the errors and the swing, so that a true reading is never below
    it; the middle of the range where these would carry it past the interpass temperature."""
    least, most = window.low, window.high
    assert least is not None and most is not None
    errors = _errors(joint, entry, least, controller)
    wanted = least
    for error, _ in errors:
        wanted = wanted + error
    numbers = " + ".join([str(least), *(f"{error} ({what})" for error, what in errors)])
    assumed = [what for _, what in errors if what.startswith("assumed")]
    why = derived("least preheat + errors and swing, rounded up", numbers)
    if assumed:
        why = why._replace(basis="practice", confidence="medium", note=numbers)
    setpoint = known.put(wanted, "up")
    if setpoint > most:
        middle = known.inside((least + (most - least) / 2), window)
        return Target(
            middle,
            derived("middle of the range", f"{least} to {most}", note=f"too narrow for {numbers}"),
        )
    return Target(setpoint, why)


def _errors(
    joint: Joint, entry: Preheat, least: Quantity, controller: Controller | None
) -> list[tuple[Quantity, str]]:
    """What may lie between the setpoint and the coldest true temperature, each with its name."""
    errors: list[tuple[Quantity, str]] = []
    wire = wire_error(joint, least)
    if wire is not None:
        errors.append((wire.error, "wire"))
    reads = controller
    name = f"controller {controller.name}" if controller is not None else ""
    if reads is None and entry.recorded_by is not None:
        reads, name = entry.recorded_by.target, f"recorder {entry.recorded_by.name}"
    error = error_at(reads, least) if reads is not None else None
    if error is not None:
        errors.append((error, name))
    else:
        errors.append((READING, "assumed: error of the reading"))
    if controller is not None and controller.tolerance is not None:
        errors.append((controller.tolerance, f"swing of {controller.name}"))
    else:
        errors.append((SWING, "assumed: swing about the setpoint"))
    return errors
