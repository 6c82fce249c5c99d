"""A plan with all that it rests on, and its moments in words."""

from __future__ import annotations

import datetime
from typing import NamedTuple

from hts.job.compiler import Job
from hts.plan.timetable import Terms, Timetable

PROPOSAL = (
    "A proposal, not an order: it changes nothing of the specification, and whoever is responsible "
    "decides."
)
_HOUR, _DAY = 3600, 86_400


class Plan(NamedTuple):
    """All that is told: the timetable, the least number of heats, what could not be planned, and
    what the plan rests on. `begin` is None for days counted from the first."""

    job: Job
    table: Timetable
    least_heats: int
    left_out: list[str]
    terms: Terms
    begin: datetime.datetime | None
    shift: int

    def at(self, seconds: int) -> str:
        """A moment of the plan."""
        return moment(self.begin, seconds)


def moment(begin: datetime.datetime | None, seconds: int) -> str:
    """A moment of a plan that begins then; by days counted from its first where none is told."""
    if begin is not None:
        return f"{begin + datetime.timedelta(seconds=seconds):%Y-%m-%d %H:%M}"
    day, rest = divmod(seconds, _DAY)
    return f"day {day + 1} {rest // _HOUR:02}:{rest % _HOUR // 60:02}"
