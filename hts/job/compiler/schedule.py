"""The setpoint minute by minute, to read a chart against."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import TEMPERATURE, Quantity
from hts.job.compiler.errors import CannotCompile
from hts.job.compiler.program import Program
from hts.job.compiler.steps import HOLD, Step

#: A schedule longer than this is nothing anyone reads.
MOST_LINES = 20_000


class Point(NamedTuple):
    """The setpoint at `elapsed` seconds; `is_free` where the program waits for no time."""

    elapsed: Fraction
    setpoint: Quantity
    step: Step


def schedule(program: Program, every: Quantity) -> list[Point]:
    """The begin and end of each step and every full interval between. Raises CannotCompile.

    A free step takes no time on this clock and has one line, the temperature it ends at.
    """
    seconds = every.value
    total = sum((step.times.duration or 0 for step in program.steps), Fraction(0))
    if total / seconds > MOST_LINES:
        name = f"{program.joint.name}/{program.name}"
        raise CannotCompile([f"{name}: every {every} makes more than {MOST_LINES} lines"])
    found: list[Point] = []
    for step in program.steps:
        for point in _points(step, seconds):
            last = found[-1] if found else None
            if last is None or (last.elapsed, last.setpoint.value, last.step.is_free) != (
                point.elapsed,
                point.setpoint.value,
                point.step.is_free,
            ):
                found.append(point)
    return found


def _points(step: Step, every: Fraction) -> list[Point]:
    times = step.times
    if step.is_free:
        return [Point(times.finish, step.end, step)] if step.end is not None else []
    begin = step.start if step.action != HOLD else step.end
    assert begin is not None and step.end is not None
    found = [Point(times.begin, begin, step)]
    if times.duration:
        slope = (step.end.value - begin.value) / times.duration
        at = (times.begin // every + 1) * every
        while at < times.finish:
            value = begin.value + slope * (at - times.begin)
            setpoint = Quantity.of(value, "degC", TEMPERATURE)
            found.append(Point(at, setpoint, step))
            at += every
        found.append(Point(times.finish, step.end, step))
    return found
