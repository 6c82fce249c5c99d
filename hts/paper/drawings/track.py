"""The steps of a program laid along the time axis of its chart."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from hts.job.compiler.steps import HOLD, Step
from hts.paper.drawings.axes import celsius

#: Width of a step that takes no programmed time, mm; the clock stands meanwhile.
_STANDING = 11.0


class Stretch(NamedTuple):
    """A step on paper: from x `left` to `right`, from temperature `start` to `end` in °C (None:
    wherever it cools to); `seconds` is None where no time is programmed."""

    step: Step
    left: float
    right: float
    start: float
    end: float | None
    begin: float
    seconds: float | None


class Track:
    """All stretches, and where an elapsed time lies."""

    def __init__(self, program: Sequence[Step], left: float, right: float) -> None:
        timed = sum(float(step.times.duration or 0) for step in program)
        standing = sum(1 for step in program if step.times.duration is None)
        share = _STANDING
        if standing:
            # Where nothing is timed the standing steps have it all; else never more than half.
            most = (right - left) * (0.5 if timed else 1.0) / standing
            share = min(_STANDING, most) if timed else most
        self.total = timed
        self.per_second = (right - left - share * standing) / timed if timed else 0.0
        self.stretches: list[Stretch] = []
        x = left
        for step in program:
            duration = step.times.duration
            seconds = None if duration is None else float(duration)
            wide = share if seconds is None else seconds * self.per_second
            begin = step.end if step.action == HOLD and step.end is not None else step.start
            self.stretches.append(
                Stretch(
                    step,
                    x,
                    x + wide,
                    celsius(begin),
                    celsius(step.end) if step.end is not None else None,
                    float(step.times.begin),
                    seconds,
                )
            )
            x += wide

    def x(self, elapsed: float) -> float:
        """Where an elapsed time is first reached; the clock starts behind the standing steps that
        come first, and stands while others last."""
        timed = [stretch for stretch in self.stretches if stretch.seconds is not None]
        for stretch in timed:
            if stretch.seconds is not None and elapsed <= stretch.begin + stretch.seconds:
                return stretch.left + max(elapsed - stretch.begin, 0.0) * self.per_second
        return timed[-1].right if timed else self.stretches[0].left

    def first(self, temperature: float, cooling: bool) -> tuple[float, float] | None:
        """Where the setpoint first is at a temperature, or last, when it cools: x and °C."""
        found = None
        for stretch in self.stretches:
            if stretch.end is None or stretch.step.action == HOLD:
                continue
            low, high = sorted((stretch.start, stretch.end))
            falls = stretch.end < stretch.start
            if falls == cooling and low <= temperature <= high and low < high:
                part = (temperature - stretch.start) / (stretch.end - stretch.start)
                found = (stretch.left + part * (stretch.right - stretch.left), temperature)
                if not cooling:
                    return found
        return found
