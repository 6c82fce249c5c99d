"""When crews are there in a plan: a heat is set up, runs and cools off watched."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor
from typing import NamedTuple

from hts.checking.rules.helpers.counted import counted
from hts.language.model.shifts import DAY, Shift, clock, day, unwatched

_DAY = DAY * 60


class Stint(NamedTuple):
    """Seconds from the begin of the plan between which the same crews are there, who that is, and
    how many heats they look after at once."""

    begin: int
    end: int
    crews: tuple[str, ...]
    heats: int


def stints(shifts: Sequence[Shift], since: int, until: int) -> Iterator[Stint]:
    """The stints from the begin of a plan on, ``since`` seconds after midnight, until a time of the
    plan."""
    midnight = -since
    while midnight < until:
        for part in day(shifts):
            begin, end = midnight + part.begin * 60, midnight + part.end * 60
            if end > 0 and begin < until:
                yield Stint(max(begin, 0), min(end, until), part.crews, part.heats)
        midnight += _DAY


def there(shifts: Sequence[Shift], since: int, at: int) -> tuple[str, ...]:
    """Who is there at a time of the plan."""
    return tuple(shift.crew for shift in shifts if shift.covers((since + at) // 60))


def room(shifts: Sequence[Shift], since: int, ticks: int, tick: int) -> list[int]:
    """How many heats are looked after all through each of so many ticks of a plan."""
    found = [max((part.heats for part in day(shifts)), default=0)] * ticks
    for stint in stints(shifts, since, ticks * tick):
        for at in range(floor(stint.begin / tick), min(ticks, ceil(stint.end / tick))):
            found[at] = min(found[at], stint.heats)
    return found


def runs(values: Sequence[int]) -> Iterator[tuple[int, int, int]]:
    """Begin, end and value of each run of equal values."""
    begin = 0
    for at in range(1, len(values) + 1):
        if at == len(values) or values[at] != values[begin]:
            yield begin, at, values[begin]
            begin = at


def most_ticks(shifts: Sequence[Shift], since: int, tick: int) -> int | None:
    """The most ticks without a break at which somebody is there; None where somebody always is."""
    there = [min(heats, 1) for heats in room(shifts, since, 3 * ceil(_DAY / tick), tick)]
    if all(there):
        return None
    return max((end - begin for begin, end, value in runs(there) if value), default=0)


def in_words(shifts: Sequence[Shift]) -> list[str]:
    """The crews with their hours, and the hours at which nobody is there."""
    found = [
        f"crew {shift.crew} from {clock(shift.begin)} to {clock(shift.end)} looks after "
        f"{counted(shift.heats, 'heat')} at once"
        for shift in shifts
    ]
    gaps = unwatched(shifts) if shifts else []
    if gaps:
        found.append(f"nobody is there {' or '.join(gaps)}: nothing is set up or heated then")
    return found
