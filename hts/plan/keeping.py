"""Preheat that is kept until the treatment begins: the machine that keeps it is taken meanwhile."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from hts.plan.heats import Heat
from hts.plan.work import Unit


class Keeping(NamedTuple):
    """A controller that is taken from the end of welding until the program of a heat begins.

    `since`: in seconds from the begin of the plan; `own`: it is the controller of the heat, so that
    it is set up before welding and stays with the heat until that is done.
    """

    controller: str
    since: int
    own: bool


def keepings(heat: Heat, ready: Mapping[str, int]) -> list[Keeping]:
    """What keeps the preheat of a heat, each controller once; nothing where the end of welding is
    not known."""
    since: dict[str, int] = {}
    for unit in heat.units:
        times = [ready[name] for name in unit.joints if name in ready]
        if unit.kept and unit.keeper and times:
            since[unit.keeper] = min(*times, since.get(unit.keeper, times[0]))
    return [Keeping(name, at, name == heat.first.controller.name) for name, at in since.items()]


class Clash(NamedTuple):
    """A heat that cannot be planned with its preheat kept, and why."""

    heat: Heat
    why: str


def clashes(
    heats: Sequence[Heat],
    ready: Mapping[str, int],
    times: tuple[int, int],
    at: Callable[[int], str],
) -> tuple[list[Heat], list[Clash]]:
    """The heats that can be planned, and those two of which would need one controller at the same
    time to keep preheat: the one whose welding ends first has it. `times`: seconds for setting up
    and for taking down."""
    taken: dict[str, list[tuple[int, int, Heat]]] = {}
    found: list[Clash] = []
    kept = [(keeping.since, n) for n, h in enumerate(heats) for keeping in keepings(h, ready)]
    out: set[int] = set()
    for _, n in sorted(kept):
        heat = heats[n]
        if n in out:
            continue
        mine = [_taken(heat, keeping, ready, times) for keeping in keepings(heat, ready)]
        why = ""
        for name, begin, end in mine:
            for other_begin, other_end, other in taken.get(name, ()):
                if other is not heat and begin < other_end and other_begin < end:
                    why = _why(heat, other, name, begin, other_end, at)
        if why:
            out.add(n)
            found.append(Clash(heat, why))
            continue
        for name, begin, end in mine:
            taken.setdefault(name, []).append((begin, end, heat))
    return [heat for n, heat in enumerate(heats) if n not in out], found


def _taken(
    heat: Heat, keeping: Keeping, ready: Mapping[str, int], times: tuple[int, int]
) -> tuple[str, int, int]:
    """A controller, and from when until when it is taken at least."""
    earliest = max(ready.get(name, 0) for unit in heat.units for name in unit.joints)
    if not keeping.own:
        return keeping.controller, keeping.since, earliest
    done = earliest + heat.first.seconds + times[1]
    return keeping.controller, max(0, keeping.since - times[0]), done


def _why(
    heat: Heat, other: Heat, controller: str, begin: int, end: int, at: Callable[[int], str]
) -> str:
    return (
        f"{_names(heat)}: its preheat has to be kept by {controller} from {at(begin)} on, but "
        f"{controller} is taken until {at(end)} at least by {_names(other)}, whose preheat is "
        "kept, too; weld one of them later, or keep the preheat of one by another controller"
    )


def no_room(heat: Heat, at: str) -> str:
    """Why a heat is left out whose preheat no machine has room to keep beside the others."""
    first = heat.first
    machines = "".join(f"{m.name}, " for m in (first.recorder, first.supply) if m.name)
    return (
        f"{_names(heat)}: its preheat has to be kept from {at} until it begins, and {machines}"
        "or the crews, have no room for it beside the others whose preheat is kept; weld one of "
        "them later, or state more machines"
    )


def _names(heat: Heat) -> str:
    units: list[Unit] = list(heat.units)
    return "; ".join(unit.name for unit in units)
