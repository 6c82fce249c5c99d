"""The hours of crews: how many heats are looked after when, and for how long without a break."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from hts.language.vocabulary.crew import Crew

#: Minutes of a day.
DAY = 24 * 60


class Shift(NamedTuple):
    """The hours of a crew in minutes from midnight, `end` after `begin`, on the next day where need
    be; and how many heats it watches at once."""

    crew: str
    begin: int
    end: int
    heats: int

    def covers(self, minute: int) -> bool:
        """Whether it is there in the minute that begins then, of whichever day."""
        return (minute - self.begin) % DAY < self.end - self.begin


class Stretch(NamedTuple):
    """A part of the day in minutes from midnight, with the crews that are there all of it, and how
    many heats they watch at once together."""

    begin: int
    end: int
    crews: tuple[str, ...]
    heats: int


def shifts(crews: Iterable[Crew]) -> list[Shift]:
    """The shifts of the crews that could be read, in the order of the text. From and to the same
    time is the whole day."""
    found = []
    for crew in crews:
        if crew.begins is None or crew.ends is None or crew.watches is None:
            continue
        begin = _minutes(crew.begins) % DAY
        found.append(Shift(crew.name, begin, begin + length(crew), crew.watches))
    return found


def length(crew: Crew) -> int:
    """Minutes of a shift, 0 where a time of it is not known."""
    if crew.begins is None or crew.ends is None:
        return 0
    return (_minutes(crew.ends) - _minutes(crew.begins)) % DAY or DAY


def _minutes(time: str) -> int:
    hour, _, minute = time.partition(":")
    return int(hour) * 60 + int(minute)


def day(stated: Sequence[Shift]) -> list[Stretch]:
    """A day from midnight to midnight in stretches at which the same crews are there; one with
    nobody there is one of them."""
    times = {0, DAY} | {time % DAY for shift in stated for time in (shift.begin, shift.end)}
    ordered = sorted(times)
    found = []
    for begin, end in pairwise(ordered):
        there = [shift for shift in stated if shift.covers(begin)]
        names = tuple(shift.crew for shift in there)
        found.append(Stretch(begin, end, names, sum(shift.heats for shift in there)))
    return found


def longest(stated: Sequence[Shift]) -> int | None:
    """The most minutes without a break at which somebody is there; None where that is always."""
    twice = [*day(stated), *day(stated)]
    if all(stretch.heats for stretch in twice):
        return None
    most = run = 0
    for stretch in twice:
        run = run + stretch.end - stretch.begin if stretch.heats else 0
        most = max(most, run)
    return most


def unwatched(stated: Sequence[Shift]) -> list[str]:
    """The hours at which nobody is there, in words."""
    gaps: list[list[int]] = []
    for stretch in day(stated):
        if stretch.heats:
            continue
        if gaps and gaps[-1][1] == stretch.begin:
            gaps[-1][1] = stretch.end
        else:
            gaps.append([stretch.begin, stretch.end])
    if len(gaps) > 1 and gaps[0][0] == 0 and gaps[-1][1] == DAY:
        gaps[-1][1] = gaps.pop(0)[1]
    return [f"from {clock(begin)} to {clock(end)}" for begin, end in gaps]


def lasting(minutes: int) -> str:
    """How long that is, as hours and minutes."""
    return f"{minutes // 60}:{minutes % 60:02} h"


def clock(minute: int) -> str:
    """A time of the day as it is written."""
    return "24:00" if minute == DAY else f"{minute % DAY // 60:02}:{minute % 60:02}"
