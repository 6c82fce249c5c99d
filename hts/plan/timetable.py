"""When each heat begins: no machine used twice at once, nothing late if that can be, done early."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import ceil, floor
from typing import Any, NamedTuple

from hts.paper.sheet.needed import needed
from hts.plan.heats import Heat, settle

#: s; a plan is made in quarters of an hour.
TICK = 900
_EFFORT = 10.0
_TIDY = 2.0
#: An hour of preheat kept on weighs as much as so many of waiting.
_KEPT = 10


class Terms(NamedTuple):
    """Seconds for setting up and for cooling off and taking down, and how many heats the crews can
    look after at once (None: any number). `ready` are seconds from the begin of the plan at which
    welding of a joint ends, by its name."""

    set_up: int
    cool_off: int
    crews: int | None
    ready: Mapping[str, int]


class Slot(NamedTuple):
    """A heat with its times in seconds from the begin of the plan: setting up, program, program
    done, machine free. `late` is how long the program begins after it has to."""

    heat: Heat
    begin: int
    start: int
    finish: int
    end: int
    late: int


class Timetable(NamedTuple):
    """The slots by time, the end of the last one, and an end no timetable can be before. `late` and
    `least_late` are the same for the sum of lateness, in seconds."""

    slots: list[Slot]
    end: int
    least: int
    late: int
    least_late: int


def timetable(heats: Sequence[Heat], terms: Terms) -> Timetable:
    """A timetable for the heats. Raises MissingPackage, and ValueError where none can be found."""
    cp: Any = needed("ortools.sat.python.cp_model", "plan")
    model = cp.CpModel()
    before, after = ceil(terms.set_up / TICK), ceil(terms.cool_off / TICK)
    lengths = [ceil(heat.first.seconds / TICK) for heat in heats]
    releases = [_release(heat, terms) for heat in heats]
    horizon = max(releases, default=0) + sum(lengths) + len(heats) * (before + after)
    starts = [model.NewIntVar(max(r, 0) + before, horizon + before, "") for r in releases]
    occupied = [
        model.NewFixedSizeIntervalVar(start - before, before + length + after, "")
        for start, length in zip(starts, lengths, strict=True)
    ]
    hot = [
        model.NewFixedSizeIntervalVar(start, length, "")
        for start, length in zip(starts, lengths, strict=True)
    ]
    _machines(model, heats, occupied, hot, terms)
    _in_order(model, heats, starts, lengths)
    _alike(model, heats, starts, releases)
    lateness = _lateness(model, heats, starts, terms, horizon)
    end = model.NewIntVar(0, horizon, "")
    for start, length in zip(starts, lengths, strict=True):
        model.Add(end >= start + length + after)
    late = least_late = 0
    if lateness:
        late, least_late = _least(cp, model, sum(lateness.values()))
        model.Add(sum(lateness.values()) <= late)
    last, least = _least(cp, model, end)
    model.Add(end <= last)
    # Then all as early as can be, above all where preheat is kept on until then; how good that is,
    # nobody needs to know.
    weights = [_KEPT if any(unit.kept for unit in heat.units) else 1 for heat in heats]
    solver = cp.CpSolver()
    settle(solver, _TIDY)
    model.Minimize(sum(w * s for w, s in zip(weights, starts, strict=True)))
    if solver.Solve(model) not in (cp.OPTIMAL, cp.FEASIBLE):
        raise ValueError("no timetable was found in the effort allowed")
    slots = [
        _slot(heat, solver.Value(start), length, before, after, solver.Value(lateness.get(n, 0)))
        for n, (heat, start, length) in enumerate(zip(heats, starts, lengths, strict=True))
    ]
    slots.sort(key=lambda slot: (slot.begin, slot.heat.first.controller.name, slot.heat.first.name))
    return Timetable(slots, last * TICK, least * TICK, late * TICK, least_late * TICK)


def _slot(heat: Heat, start: int, length: int, before: int, after: int, late: int) -> Slot:
    times = (start - before, start, start + length, start + length + after, late)
    return Slot(heat, *(time * TICK for time in times))


def _release(heat: Heat, terms: Terms) -> int:
    """When all its joints are welded, in ticks."""
    joints = [name for unit in heat.units for name in unit.joints]
    return ceil(max((terms.ready.get(name, 0) for name in joints), default=0) / TICK)


def _machines(
    model: Any, heats: Sequence[Heat], occupied: list[Any], hot: list[Any], terms: Terms
) -> None:
    """A controller runs one program at once; recorders and supplies serve several controllers."""
    by_controller: dict[str, list[int]] = {}
    for n, heat in enumerate(heats):
        if heat.first.controller.name:
            by_controller.setdefault(heat.first.controller.name, []).append(n)
    for numbers in by_controller.values():
        model.AddNoOverlap([occupied[n] for n in numbers])
    for kind, what, capacity, intervals in (
        ("recorder", "inputs", "channels", occupied),
        ("supply", "circuits", "circuits", occupied),
        ("supply", "watts", "watts", hot),
    ):
        shared: dict[str, list[int]] = {}
        for n, heat in enumerate(heats):
            machine = getattr(heat.first, kind)
            if machine.name and getattr(machine, capacity) is not None:
                shared.setdefault(machine.name, []).append(n)
        for numbers in shared.values():
            limit = getattr(getattr(heats[numbers[0]].first, kind), capacity)
            model.AddCumulative(
                [intervals[n] for n in numbers], [heats[n].total(what) for n in numbers], limit
            )
    if terms.crews is not None:
        model.AddCumulative(occupied, [1] * len(heats), terms.crews)


def _in_order(model: Any, heats: Sequence[Heat], starts: list[Any], lengths: list[int]) -> None:
    """The treatments of a joint one after another, as the text has them."""
    of_joint: dict[str, list[tuple[int, int]]] = {}
    for n, heat in enumerate(heats):
        for unit in heat.units:
            for name in unit.joints:
                of_joint.setdefault(name, []).append((_rank(heats, unit), n))
    for ranked in of_joint.values():
        numbers = [n for _, n in sorted(ranked)]
        for first, then in pairwise(numbers):
            model.Add(starts[then] >= starts[first] + lengths[first])


def _alike(model: Any, heats: Sequence[Heat], starts: list[Any], releases: list[int]) -> None:
    """Heats that are alike come in the order of the text: one of their many orders is enough."""
    same: dict[tuple[object, ...], list[int]] = {}
    for n, heat in enumerate(heats):
        takes = tuple(heat.total(what) for what in ("inputs", "circuits", "watts"))
        alone = all(len(unit.joints) == 1 for unit in heat.units)
        if alone and heat.first.within is None:
            same.setdefault((heat.first.group, takes, releases[n]), []).append(n)
    for numbers in same.values():
        for first, then in pairwise(numbers):
            model.Add(starts[then] >= starts[first])


def _rank(heats: Sequence[Heat], unit: Any) -> int:
    return 0 if unit.treatment == "bake" else 1


def _lateness(
    model: Any, heats: Sequence[Heat], starts: list[Any], terms: Terms, horizon: int
) -> dict[int, Any]:
    """By number of a heat how late its program begins; only where welding has a time."""
    found = {}
    for n, heat in enumerate(heats):
        latest = [
            terms.ready[name] + unit.within
            for unit in heat.units
            if unit.within is not None
            for name in unit.joints
            if name in terms.ready
        ]
        if latest:
            found[n] = model.NewIntVar(0, horizon, "")
            model.Add(found[n] >= starts[n] - floor(min(latest) / TICK))
    return found


def _least(cp: Any, model: Any, what: Any) -> tuple[int, int]:
    """The least sum of lateness that was found, and one no timetable can be below."""
    solver = cp.CpSolver()
    settle(solver, _EFFORT)
    model.Minimize(what)
    if solver.Solve(model) not in (cp.OPTIMAL, cp.FEASIBLE):
        raise ValueError("no timetable was found in the effort allowed")
    return round(solver.ObjectiveValue()), ceil(solver.BestObjectiveBound() - 1e-6)
