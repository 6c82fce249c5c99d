"""When each heat begins: no machine used twice at once, nothing late if that can be, done early."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import ceil, floor
from typing import Any, NamedTuple

from hts.language.model.shifts import Shift
from hts.paper.sheet.needed import needed
from hts.plan.crews import most_ticks, room, runs
from hts.plan.heats import Heat
from hts.plan.keeping import Keeping, keepings
from hts.plan.solving import solve

#: s; a plan is made in quarters of an hour.
TICK = 900
_EFFORT = 10.0
_TIDY = 2.0
_DAY = ceil(86_400 / TICK)
#: An hour of preheat kept on weighs as much as so many of waiting.
_KEPT = 10


class Terms(NamedTuple):
    """Seconds for setting up and for cooling off and taking down, and how many heats the crews can
    look after at once (None: any number). `ready` are seconds from the begin of the plan at which
    welding of a joint ends, by its name. `shifts` are the hours of crews, where the text states
    them, and `clock` how many seconds after midnight the plan begins."""

    set_up: int
    cool_off: int
    crews: int | None
    ready: Mapping[str, int]
    shifts: tuple[Shift, ...] = ()
    clock: int = 0

    @property
    def most_ticks(self) -> int | None:
        """The most ticks without a break at which a crew is there; None where one always is."""
        return most_ticks(self.shifts, self.clock, TICK) if self.shifts else None

    def ticks_of(self, seconds: int) -> int:
        """What a program of so many seconds takes in all, set up and cooled off."""
        return sum(ceil(part / TICK) for part in (self.set_up, seconds, self.cool_off))


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


class NoRoom(ValueError):
    """Preheat cannot be kept as the text asks on these machines."""


class _Model(NamedTuple):
    """The model of the solver with what is to be found of each heat, in ticks."""

    model: Any
    starts: list[Any]
    begins: list[Any]
    lengths: list[int]
    lateness: dict[int, Any]
    end: Any
    after: int


def timetable(heats: Sequence[Heat], terms: Terms) -> Timetable:
    """A timetable for the heats. Raises MissingPackage, NoRoom, and ValueError where none can be
    found in the effort allowed."""
    cp: Any = needed("ortools.sat.python.cp_model", "plan")
    built = _built(cp, heats, terms)
    model, starts, lateness = built.model, built.starts, built.lateness
    late = least_late = 0
    if lateness:
        late, least_late = _least(cp, model, sum(lateness.values()))
        model.Add(sum(lateness.values()) <= late)
    last, least = _least(cp, model, built.end)
    model.Add(built.end <= last)
    # Then all as early as can be, above all where preheat is kept on until then; how good that is,
    # nobody needs to know.
    weights = [_KEPT if any(unit.kept for unit in heat.units) else 1 for heat in heats]
    model.Minimize(sum(w * s for w, s in zip(weights, starts, strict=True)))
    solver, status = solve(cp, model, _TIDY)
    if status not in (cp.OPTIMAL, cp.FEASIBLE):
        raise ValueError("no timetable was found in the effort allowed")
    slots = []
    for n, (heat, length) in enumerate(zip(heats, built.lengths, strict=True)):
        begin, start, late_by = map(solver.Value, (built.begins[n], starts[n], lateness.get(n, 0)))
        ends = start + length
        times = (begin, start, ends, ends + built.after, late_by)
        slots.append(Slot(heat, *(time * TICK for time in times)))
    slots.sort(key=lambda slot: (slot.begin, slot.heat.first.controller.name, slot.heat.first.name))
    return Timetable(slots, last * TICK, least * TICK, late * TICK, least_late * TICK)


def has_room(heats: Sequence[Heat], terms: Terms) -> bool:
    """Whether all these can be heated with the preheat kept that is to be. Raises
    MissingPackage."""
    cp: Any = needed("ortools.sat.python.cp_model", "plan")
    _, status = solve(cp, _built(cp, heats, terms).model, _TIDY)
    return bool(status in (cp.OPTIMAL, cp.FEASIBLE))


def _built(cp: Any, heats: Sequence[Heat], terms: Terms) -> _Model:
    model = cp.CpModel()
    before, after = ceil(terms.set_up / TICK), ceil(terms.cool_off / TICK)
    lengths = [ceil(heat.first.seconds / TICK) for heat in heats]
    releases = [_release(heat, terms) for heat in heats]
    horizon = max(releases, default=0) + sum(lengths) + len(heats) * (before + after)
    if terms.most_ticks is not None:
        # Each may have to wait until somebody is there again.
        horizon += len(heats) * _DAY
    kept = [keepings(heat, terms.ready) for heat in heats]
    starts = []
    begins: list[Any] = []
    occupied, hot, others = [], [], []
    for n, length in enumerate(lengths):
        own = any(each.own for each in kept[n])
        # Heaters that keep preheat are there already; all others are set up after welding.
        first = max(releases[n], 0) + (0 if own else before)
        start = model.NewIntVar(first, horizon + before, "")
        if own:
            begins.append(_set_up_before_welding(kept[n], before))
            occupied.append(_taken(model, begins[n], start + length + after, horizon))
        else:
            begins.append(start - before)
            size = before + length + after
            occupied.append(model.NewFixedSizeIntervalVar(start - before, size, ""))
        for each in kept[n]:
            if not each.own:
                since = max(0, floor(each.since / TICK))
                others.append((each.controller, _taken(model, since, start, horizon)))
        hot.append(model.NewFixedSizeIntervalVar(start, length, ""))
        starts.append(start)
    _machines(model, heats, occupied, hot, others, terms)
    _watched(model, occupied, terms, horizon + before + max(lengths, default=0) + after)
    _in_order(model, heats, starts, lengths)
    _alike(model, heats, starts, releases)
    lateness = _lateness(model, heats, starts, terms, horizon)
    end = model.NewIntVar(0, horizon, "")
    for start, length in zip(starts, lengths, strict=True):
        model.Add(end >= start + length + after)
    return _Model(model, starts, begins, lengths, lateness, end, after)


def _set_up_before_welding(kept: list[Keeping], before: int) -> int:
    """From when the controller of a heat is taken that keeps its preheat from the end of welding
    on."""
    return max(0, floor(min(each.since for each in kept if each.own) / TICK) - before)


def _taken(model: Any, begin: int, end: Any, horizon: int) -> Any:
    """What takes a machine from a fixed tick until a time that is to be found."""
    size = model.NewIntVar(0, 2 * horizon, "")
    return model.NewIntervalVar(begin, size, end, "")


def _release(heat: Heat, terms: Terms) -> int:
    """When all its joints are welded, in ticks."""
    joints = [name for unit in heat.units for name in unit.joints]
    return ceil(max((terms.ready.get(name, 0) for name in joints), default=0) / TICK)


def _machines(
    model: Any,
    heats: Sequence[Heat],
    occupied: list[Any],
    hot: list[Any],
    others: list[tuple[str, Any]],
    terms: Terms,
) -> None:
    """A controller runs one program at once; recorders and supplies serve several controllers.
    `others`: controllers that keep the preheat of a heat on another one."""
    by_controller: dict[str, list[Any]] = {}
    for n, heat in enumerate(heats):
        if heat.first.controller.name:
            by_controller.setdefault(heat.first.controller.name, []).append(occupied[n])
    for name, interval in others:
        by_controller.setdefault(name, []).append(interval)
    for intervals in by_controller.values():
        model.AddNoOverlap(intervals)
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


def _watched(model: Any, occupied: list[Any], terms: Terms, ticks: int) -> None:
    """From setting up until it has cooled off a heat is looked after, by crews that are there."""
    if not terms.shifts:
        return
    heats = room(terms.shifts, terms.clock, ticks, TICK)
    most = max(heats, default=0)
    away = [(begin, end, most - there) for begin, end, there in runs(heats) if there < most]
    model.AddCumulative(
        [*occupied, *(model.NewFixedSizeIntervalVar(b, e - b, "") for b, e, _ in away)],
        [*(1 for _ in occupied), *(missing for _, _, missing in away)],
        most,
    )


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
        if alone and heat.first.within is None and not heat.first.kept:
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
    model.Minimize(what)
    solver, status = solve(cp, model, _EFFORT)
    if status == cp.INFEASIBLE:
        raise NoRoom("preheat cannot be kept as the text asks")
    if status not in (cp.OPTIMAL, cp.FEASIBLE):
        raise ValueError("no timetable was found in the effort allowed")
    return round(solver.ObjectiveValue()), ceil(solver.BestObjectiveBound() - 1e-6)
