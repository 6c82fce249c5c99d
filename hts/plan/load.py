"""What the heats of a timetable draw and use at each time."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from hts.plan.timetable import Slot


class Load(NamedTuple):
    """From one time to the next, in seconds: W of programs that run, circuits and recorder channels
    in use, and how many heats that is."""

    begin: int
    end: int
    watts: int
    circuits: int
    inputs: int
    heats: int


def loads(slots: Sequence[Slot]) -> list[Load]:
    """The load over time, without times at which nothing is set up."""
    times = sorted({t for slot in slots for t in (slot.begin, slot.start, slot.finish, slot.end)})
    found = []
    for begin, end in pairwise(times):
        there = [slot for slot in slots if slot.begin <= begin < slot.end]
        hot = [slot for slot in there if slot.start <= begin < slot.finish]
        if there:
            found.append(
                Load(
                    begin,
                    end,
                    sum(slot.heat.total("watts") for slot in hot),
                    sum(slot.heat.total("circuits") for slot in there),
                    sum(slot.heat.total("inputs") for slot in there),
                    len(there),
                )
            )
    return found
