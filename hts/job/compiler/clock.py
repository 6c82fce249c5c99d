"""The time a program takes: as programmed, at the earliest and at the latest."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities.number import round_to

_MINUTE = 60


class Times(NamedTuple):
    """Seconds since the clock started. None: open, because nothing limits it.

    `duration` is as programmed. A free step has none, and no time is counted for it: not in the
    program, and not in the earliest and latest times, which are those the limits allow without
    the margin of the program.
    """

    duration: Fraction | None
    begin: Fraction
    finish: Fraction
    earliest_begin: Fraction
    earliest_finish: Fraction
    latest_begin: Fraction | None
    latest_finish: Fraction | None


class ElapsedClock:
    """Adds up step by step."""

    def __init__(self) -> None:
        self._nominal = Fraction(0)
        self._earliest = Fraction(0)
        self._latest: Fraction | None = Fraction(0)

    def stand(self) -> Times:
        """The times of a step without a time of its own."""
        times = self.run(Fraction(0), Fraction(0), Fraction(0))
        return times._replace(duration=None)

    def run(self, duration: Fraction | None, fastest: Fraction, slowest: Fraction | None) -> Times:
        """The times of the next step. `slowest` None: nothing limits how long it takes."""
        nominal, earliest, latest = self._nominal, self._earliest, self._latest
        self._nominal += duration or 0
        self._earliest += fastest
        self._latest = None if latest is None or slowest is None else latest + slowest
        return Times(
            duration, nominal, self._nominal, earliest, self._earliest, latest, self._latest
        )


def whole_minutes(seconds: Fraction, longest: Fraction | None = None) -> Fraction:
    """`seconds` rounded up to whole minutes, or as little as keeps within `longest`.

    A hold is never shorter and a ramp never faster than what was worked out.
    """
    for step in (_MINUTE, 1):
        rounded = round_to(seconds / step, 0, "up") * step
        if longest is None or rounded <= longest:
            return rounded
    return seconds
