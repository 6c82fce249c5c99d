"""Units that share a machine, packed into as few heats as can be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations
from math import ceil
from typing import Any, NamedTuple

from hts.paper.sheet.needed import needed
from hts.plan.solving import solve
from hts.plan.work import Unit

#: What the solver may spend on one packing; its own measure, so that the result never hangs on how
#: busy the machine is.
_EFFORT = 10.0


class Heat(NamedTuple):
    """Units that run one program on one controller at once."""

    units: tuple[Unit, ...]

    @property
    def first(self) -> Unit:
        return self.units[0]

    def total(self, what: str) -> int:
        """Sum of `loops`, `inputs`, `circuits` or `watts` (those not stated count nothing)."""
        return sum(getattr(unit, what) or 0 for unit in self.units)


def _capacities(unit: Unit) -> dict[str, int | None]:
    return {
        "loops": unit.controller.channels,
        "inputs": unit.recorder.channels,
        "circuits": unit.supply.circuits,
        "watts": unit.supply.watts,
    }


def heats(units: Sequence[Unit], ready: Mapping[str, int] | None = None) -> tuple[list[Heat], int]:
    """The heats, and a number of heats no packing can be below. Raises MissingPackage.

    ``ready``: seconds at which welding of a joint ends. What has to begin within a time from then
    shares no heat with what is welded later than that.
    """
    groups: dict[tuple[object, ...], list[Unit]] = {}
    for unit in units:
        groups.setdefault(unit.group, []).append(unit)
    found: list[Heat] = []
    least = 0
    for same in groups.values():
        packed, bound = _packed(same, ready or {})
        found += packed
        least += bound
    return found, least


def _apart(one: Unit, other: Unit, ready: Mapping[str, int]) -> bool:
    """Whether two units cannot begin at once, since one has to before the other is welded."""
    return _too_late(one, other, ready) or _too_late(other, one, ready)


def _too_late(one: Unit, other: Unit, ready: Mapping[str, int]) -> bool:
    if one.within is None:
        return False
    welded = [ready[name] for name in one.joints if name in ready]
    later = [ready[name] for name in other.joints if name in ready]
    return bool(welded and later) and max(later) > min(welded) + one.within


def _packed(units: list[Unit], ready: Mapping[str, int]) -> tuple[list[Heat], int]:
    if not units[0].controller.name:
        # Nothing says that they could share anything.
        return [Heat((unit,)) for unit in units], len(units)
    limits = {k: v for k, v in _capacities(units[0]).items() if v is not None}
    first = _first_fit(units, limits, ready)
    bound = max(
        (ceil(sum(getattr(u, k) or 0 for u in units) / v) for k, v in limits.items()), default=1
    )
    # Equal joints: no more fit beside each other than fit into one heat.
    bound = max(bound, ceil(len(units) / _most(units, limits)))
    if len(first) <= bound:
        return first, len(first)
    return _solved(units, limits, ready, first, bound)


def _most(units: list[Unit], limits: dict[str, int]) -> int:
    """How many of the smallest units fit into one heat."""
    counts = []
    for what, limit in limits.items():
        smallest = sorted(getattr(unit, what) or 0 for unit in units)
        total = number = 0
        for size in smallest:
            total += size
            if total > limit:
                break
            number += 1
        counts.append(max(1, number))
    return min(counts, default=len(units))


def _first_fit(units: list[Unit], limits: dict[str, int], ready: Mapping[str, int]) -> list[Heat]:
    bins: list[list[Unit]] = []
    for unit in units:
        for inside in bins:
            fits = all(
                sum(getattr(u, k) or 0 for u in (*inside, unit)) <= v for k, v in limits.items()
            )
            if fits and not any(_apart(unit, other, ready) for other in inside):
                inside.append(unit)
                break
        else:
            bins.append([unit])
    return [Heat(tuple(inside)) for inside in bins]


def _solved(
    units: list[Unit],
    limits: dict[str, int],
    ready: Mapping[str, int],
    first: list[Heat],
    bound: int,
) -> tuple[list[Heat], int]:
    cp: Any = needed("ortools.sat.python.cp_model", "plan")
    model = cp.CpModel()
    number = len(first)
    inside = [[model.NewBoolVar("") for _ in range(number)] for _ in units]
    used = [model.NewBoolVar("") for _ in range(number)]
    for row in inside:
        model.AddExactlyOne(row)
    pairs = combinations(range(len(units)), 2)
    apart = [(u, v) for u, v in pairs if _apart(units[u], units[v], ready)]
    for b in range(number):
        for what, limit in limits.items():
            sizes = [getattr(unit, what) or 0 for unit in units]
            model.Add(sum(s * inside[u][b] for u, s in enumerate(sizes)) <= limit * used[b])
        for u, v in apart:
            model.AddBoolOr([inside[u][b].Not(), inside[v][b].Not()])
        if b:
            model.AddImplication(used[b], used[b - 1])
    place = {id(unit): b for b, heat in enumerate(first) for unit in heat.units}
    for u, unit in enumerate(units):
        for b in range(number):
            model.AddHint(inside[u][b], place[id(unit)] == b)
    model.Add(sum(used) >= bound)
    model.Minimize(sum(used))
    solver, status = solve(cp, model, _EFFORT)
    if status not in (cp.OPTIMAL, cp.FEASIBLE):
        return first, bound
    bins = [
        [unit for u, unit in enumerate(units) if solver.Value(inside[u][b])] for b in range(number)
    ]
    least = max(bound, ceil(solver.BestObjectiveBound() - 1e-6))
    return [Heat(tuple(each)) for each in bins if each], least
