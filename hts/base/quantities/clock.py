"""Places round a pipe, told by the clock as seen in the stated view."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities.dimensions import LENGTH
from hts.base.quantities.quantity import Quantity

PI = Fraction(314159265358979323846264338327950288419716939937510, 10**50)
"""Ratio of circumference to diameter, cut after 50 decimals: a rational stand-in whose error on
any pipe is far below one atom, so that arc lengths are exact fractions like everything else."""

_TURN = 360
_HALF_DAY = 720  # minutes
_DEGREES_PER_MINUTE = Fraction(_TURN, _HALF_DAY)


class ClockError(ValueError):
    """The text is not a clock position; `suggestion` is what was meant, if that is plain."""

    def __init__(self, text: str, suggestion: str | None) -> None:
        meant = "" if suggestion is None else f"; did you mean {suggestion!r}?"
        super().__init__(f"{text!r} is not a clock position from 1:00 to 12:59{meant}")
        self.text = text
        self.suggestion = suggestion


class ClockPosition:
    """A place on the circumference: `degrees` clockwise from 12:00, exact, 0 <= degrees < 360."""

    __slots__ = ("degrees",)

    def __init__(self, degrees: Fraction | int) -> None:
        self.degrees = Fraction(degrees) % _TURN

    @staticmethod
    def read(text: str) -> ClockPosition:
        """`6:15`: hours 1 to 12 without a leading zero, two digits of minutes. ClockError."""
        hours, colon, minutes = text.partition(":")
        digits = text.isascii() and hours.isdigit() and minutes.isdigit()
        if not (colon and digits and len(hours) <= 2 and len(minutes) == 2 and int(minutes) < 60):
            raise ClockError(text, None)
        hour = int(hours)
        if not 1 <= hour <= 12 or hours.startswith("0"):
            meant = f"{hour % 12 or 12}:{minutes}" if hour < 24 else None
            raise ClockError(text, meant)
        return ClockPosition.from_minutes(60 * hour + int(minutes))

    @staticmethod
    def from_minutes(minutes: Fraction | int) -> ClockPosition:
        """`minutes` of the clock past 12:00; one minute is half a degree."""
        return ClockPosition(minutes * _DEGREES_PER_MINUTE)

    @property
    def minutes(self) -> Fraction:
        """Minutes of the clock past 12:00, 0 <= minutes < 720; whole for every written position."""
        return self.degrees / _DEGREES_PER_MINUTE

    @property
    def mirrored(self) -> ClockPosition:
        """The same place seen from the other side of the joint: 3:00 becomes 9:00."""
        return ClockPosition(-self.degrees)

    def distance_to(self, other: ClockPosition) -> Fraction:
        """Degrees between two places the shorter way round, 0 to 180."""
        apart = (other.degrees - self.degrees) % _TURN
        return min(apart, _TURN - apart)

    def __str__(self) -> str:
        """The position to the nearest minute, `6:15`."""
        whole = int(self.minutes + Fraction(1, 2)) % _HALF_DAY
        return f"{whole // 60 or 12}:{whole % 60:02d}"

    def __repr__(self) -> str:
        return f"<ClockPosition {self}>"

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, ClockPosition):
            return NotImplemented
        return self.degrees == other.degrees

    def __hash__(self) -> int:
        return hash(("clock position", self.degrees))


class Arc:
    """Part of the circumference, clockwise from `start` to `end`.

    Start and end in one place mean the whole circumference, for an empty arc heats nothing.
    """

    __slots__ = ("end", "span", "start")

    def __init__(self, start: ClockPosition, end: ClockPosition) -> None:
        self.start = start
        self.end = end
        self.span: Fraction = (end.degrees - start.degrees) % _TURN or Fraction(_TURN)

    @property
    def middle(self) -> ClockPosition:
        """Half way from start to end."""
        return ClockPosition(self.start.degrees + self.span / 2)

    def contains(self, position: ClockPosition) -> bool:
        """Whether `position` lies on the arc, both ends included."""
        return self._offset(position) <= self.span

    def overlaps(self, other: Arc) -> bool:
        """Whether the arcs share more than an end."""
        return self._offset(other.start) < self.span or other._offset(self.start) < other.span

    def _offset(self, position: ClockPosition) -> Fraction:
        """Degrees clockwise from the start to `position`."""
        return (position.degrees - self.start.degrees) % _TURN

    def __str__(self) -> str:
        return f"{self.start} to {self.end}"

    def __repr__(self) -> str:
        return f"<Arc {self}>"

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Arc):
            return NotImplemented
        return (self.start, self.end) == (other.start, other.end)

    def __hash__(self) -> int:
        return hash((self.start, self.end))


def circumference(outside_diameter: Quantity) -> Fraction:
    """Length once round the outside, mm. TypeError for anything but a length."""
    return PI * _millimetres(outside_diameter)


def arc_length(outside_diameter: Quantity, position: ClockPosition) -> Fraction:
    """Length along the outside from 12:00 clockwise to `position`, mm."""
    return circumference(outside_diameter) * position.degrees / _TURN


def position_at(outside_diameter: Quantity, length: Quantity) -> ClockPosition:
    """The position at `length` along the outside from 12:00 clockwise.

    ValueError when that is negative or once round and more.
    """
    around = circumference(outside_diameter)
    if not 0 <= _millimetres(length) < around:
        raise ValueError(f"{length} is not within one turn of a pipe of {outside_diameter}")
    return ClockPosition(_millimetres(length) * _TURN / around)


def _millimetres(length: Quantity) -> Fraction:
    if length.dimension is not LENGTH:
        raise TypeError(f"{length} is not a length")
    return length.value
