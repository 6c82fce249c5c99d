"""The course of each thermocouple that moved, and where its rate was greatest.

Nothing of it is worked out where the readings show by themselves that the limits were kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from hts.job.compiler.program import PREHEAT
from hts.record.judging.courses import (
    COVERAGE,
    Course,
    Range,
    Readings,
    Windows,
    courses,
    lines_of,
    windows_of,
    windows_over,
)
from hts.record.judging.evidence import Evidence, bridged, draw_lines
from hts.record.judging.hidden_rates import Hiding, look_together
from hts.record.judging.limits import Piece, limit_at, pieces
from hts.record.judging.line import Line
from hts.record.judging.plainly_kept import plainly_kept
from hts.record.judging.verdict import HoldClock, Stretch
from hts.record.plan import COOL, HEAT, Bound, Plan, Watched

#: K, and K/s, that no metal goes by from row to row: a spare that does was put in its place then.
#: Basis: practice, no source.
_LEAPS, _QUICKEST = 10.0, 0.15


class Fastest(NamedTuple):
    """The fastest rate of a thermocouple over the window where it is limited: `rate` K/h, `unsure`
    K/h either side of it, `times` the limit; over the window that begins at `at`, s."""

    times: float
    rate: float
    unsure: float
    tag: str
    at: float


class Along(NamedTuple):
    """A required thermocouple along its course, the windows that its rate is told over, and when it
    was over its limit for as long as matters; `worst` is the number of the fastest window."""

    watched: Watched
    line: Line
    course: Course
    windows: Windows
    over: list[Stretch]
    worst: int

    @property
    def times(self) -> float:
        """The fastest rate, times the limit."""
        return float(self.windows.ratio[self.worst])


class Moved(NamedTuple):
    """`by_action`, of those that are limited: the required thermocouples that moved that way; None
    where the readings show by themselves that the limits were kept. `hiding` is what they may
    hide."""

    by_action: dict[str, list[Along] | None]
    hiding: Hiding


def all_moved(runs: Sequence[tuple[Evidence, Sequence[HoldClock]]]) -> list[Moved]:
    """Of each run with its clocks; those of one plan are looked at together."""
    of_plan: dict[int, list[int]] = {}
    for at, (evidence, _) in enumerate(runs):
        of_plan.setdefault(id(evidence.plan), []).append(at)
    by_action: list[dict[str, list[Along] | None]] = [{} for _ in runs]
    due: list[tuple[list[int], str, list[Piece]]] = []
    for some in of_plan.values():
        plan = runs[some[0]][0].plan
        limited = {a: limits for a in (HEAT, COOL) if (limits := pieces(plan, a))}
        its_runs = [_kept(*runs[at]) for at in some]
        kept = plainly_kept(its_runs, limited, reach(plan), plan.window.value)
        for action, limits in limited.items():
            for at in some:
                by_action[at][action] = None
            if its := [at for at, plain in zip(some, kept, strict=True) if action not in plain]:
                due.append((its, action, limits))
    draw_lines([runs[at][0] for some, _, _ in due for at in some])
    for some, action, limits in due:
        found = moved_along([runs[at] for at in some], action, limits)
        for at, one in zip(some, found, strict=True):
            by_action[at][action] = one
    hiding = [Hiding(run, reach(run.plan)) for run, _ in runs]
    for some in of_plan.values():
        look_together([hiding[at] for at in some if any(by_action[at].values())])
    return [Moved(*its) for its in zip(by_action, hiding, strict=True)]


def allowed(plan: Plan) -> list[Bound]:
    return [b for b in (plan.rate_excursion_each, plan.rate_excursion_total) if b is not None]


def reach(plan: Plan) -> float:
    """s. The least time over which a rate that is too fast matters."""
    return max(1.0, min([plan.window.value, *(bound.value for bound in allowed(plan))]))


def moved_along(
    runs: Sequence[tuple[Evidence, Sequence[HoldClock]]], action: str, limits: list[Piece]
) -> list[list[Along]]:
    """Of each of some runs of one plan."""
    plan = runs[0][0].plan
    whose: list[tuple[int, Watched]] = []
    lines: list[Line] = []
    for at, (evidence, _) in enumerate(runs):
        for one, line in zip(evidence.required, evidence.lines, strict=True):
            parts = _of_each_wire(evidence, one, line)
            whose += [(at, one)] * len(parts)
            lines += parts
    ranges = [_ranges(evidence, clocks) for evidence, clocks in runs]
    along = courses(lines, limits, 1.0 if action == HEAT else -1.0, [ranges[at] for at, _ in whose])
    every = windows_of(along, plan.window.value)
    over = windows_over(along, reach(plan))
    found: list[list[Along]] = [[] for _ in runs]
    for (at, one), line, its, windows, spans in zip(whose, lines, along, every, over, strict=True):
        worst = int(np.argmax(windows.ratio)) if len(windows.ratio) else None
        if worst is not None and windows.ratio[worst] > 0:
            found[at].append(Along(one, line, its, windows, spans, worst))
    return found


def _of_each_wire(evidence: Evidence, one: Watched, line: Line | None) -> list[Line]:
    """The line of a thermocouple; where spares took over, that of each by itself, those of spares
    from a window before, or from when they were put where they are: from the one to the other it
    may leap, and no metal does."""
    taken = [e for e in evidence.replaced if e.tag == one.tag and e.by in evidence.record.series]
    if not taken:
        return [] if line is None else [line]
    begins = [-np.inf, *(event.at for event in taken)]
    ends = [*begins[1:], np.inf]
    window = evidence.plan.window.value
    values = []
    for tag, begin, end in zip((one.tag, *(e.by for e in taken)), begins, ends, strict=True):
        its = evidence.record.series.get(tag)
        within = (evidence.times >= begin - window) & (evidence.times < end)
        if its is None:
            continue
        leaps = within[1:] & (evidence.times[1:] <= begin)
        leaps &= np.abs(np.diff(its.values)) > _LEAPS + _QUICKEST * np.diff(evidence.times)
        if leaps.any():
            within[: int(np.flatnonzero(leaps)[-1]) + 1] = False
        values.append(np.where(within, its.values, np.nan))
    gap = evidence.longest_gap
    parts = np.stack([bridged(evidence.times, its, gap) for its in values])
    return [its for its in lines_of([Readings(evidence.times, parts, gap)])[0] if its is not None]


def _ranges(evidence: Evidence, clocks: Sequence[HoldClock]) -> list[Range]:
    # A preheat goes on after its soak, and then the arc heats as well.
    end = evidence.record.end if evidence.plan.kind == PREHEAT else 0.0
    return [
        Range(clock.low, clock.high, Stretch(clock.arrived, max(clock.left, end)))
        for clock in clocks
        if clock.arrived is not None and clock.left is not None
    ]


def _kept(evidence: Evidence, clocks: Sequence[HoldClock]) -> tuple[Evidence, list[Stretch]]:
    """With the times that holds were in their ranges."""
    return evidence, [one.during for one in _ranges(evidence, clocks)]


def fastest_of_all(moved: list[Along], limits: list[Piece], seconds: float) -> Fastest:
    return fastest(max(moved, key=lambda one: one.times), limits, seconds)


def fastest(one: Along, limits: list[Piece], seconds: float) -> Fastest:
    at = float(one.windows.starts[one.worst])
    rate = _rate(one.course, limits, at, seconds, one.times)
    unsure = COVERAGE * float(one.windows.slack[one.worst])
    unsure *= limit_of_window(one.course, limits, at, seconds)
    return Fastest(one.times, rate, unsure, one.watched.tag, at)


def fastest_of_each(
    evidence: Evidence, clocks: Sequence[HoldClock], action: str
) -> dict[str, Fastest]:
    """By tag, for the required thermocouples whose rate shows; empty where none is limited."""
    limits = pieces(evidence.plan, action)
    its = moved_along([(evidence, clocks)], action, limits)[0] if limits else []
    return {one.watched.tag: fastest(one, limits, evidence.plan.window.value) for one in its}


def limit_of_window(found: Course, limits: list[Piece], start: float, seconds: float) -> float:
    top = float(max(np.interp((start, start + seconds), found.times, found.values)))
    return limit_at(limits, top).limit


def _rate(found: Course, limits: list[Piece], start: float, seconds: float, ratio: float) -> float:
    """K/h over a window, positive in the direction of the action."""
    rate = abs(found.rise(start, start + seconds))
    # A window partly in a free stretch is not faster than the limit over all of it.
    return max(rate, ratio * limit_of_window(found, limits, start, seconds)) if ratio > 1 else rate
