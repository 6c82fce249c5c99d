"""What stays of the demands found: some replace others, and equal ones of all sides are one."""

from __future__ import annotations

from hts.limits.demand import Demand, Unanswered
from hts.limits.quantities import DIRECTIONS, Direction


def displaced_by(found: list[Demand]) -> tuple[list[Demand], list[Demand]]:
    """What stays, and what another limit stands in for on the same side.

    A limit of a procedure is replaced in the directions the line in its place has a bound for; one
    that is for where others are silent goes where they are not.
    """
    if not any(demand.limit.replaces or demand.limit.silent for demand in found):
        return found, []
    kept: list[Demand] = []
    displaced: list[Demand] = []
    for demand in found:
        gone: set[Direction] = set()
        for other in found:
            if other is not demand and other.side == demand.side:
                gone |= _gone(demand, other)
        if not gone:
            kept.append(demand)
            continue
        displaced.append(demand)
        left = {way: bound for way, bound in demand.bounds.items() if way not in gone}
        if left:
            kept.append(
                Demand(demand.limit, demand.side, demand.facts, left, demand.above, demand.within)
            )
    return kept, displaced


def _gone(demand: Demand, other: Demand) -> set[Direction]:
    """The directions in which one limit stands in for another; all of them for a whole row."""
    limit = demand.limit
    name = limit.source.name
    rows = {id if "/" in id else f"{other.limit.source.name}/{id}" for id in other.limit.replaces}
    if f"{name}/{limit.id}" in rows:
        return set(DIRECTIONS)
    if f"{name}/*{limit.quantity}" in rows:
        return set(other.bounds)
    silent = limit.silent and other.limit.source.name != name
    return set(other.bounds) & set(demand.bounds) if silent else set()


def merged(found: list[Demand], sides: int) -> list[Demand]:
    """Demands that are the same on every side become one of the whole joint."""
    together: list[Demand] = []
    by_limit: dict[int, list[Demand]] = {}
    for demand in found:
        by_limit.setdefault(id(demand.limit), []).append(demand)
    for same in by_limit.values():
        first = same[0]
        if len(same) == sides and all(first.same_as(other) for other in same):
            first.side = None
            together.append(first)
        else:
            together += same
    return together


def merged_unanswered(found: list[Unanswered], sides: int) -> list[Unanswered]:
    """One entry for a limit that lacks the same on several sides."""
    together: dict[tuple[int, tuple[str, ...], str], Unanswered] = {}
    for item in found:
        key = (id(item.limit), item.names, item.reason)
        whole = key in together or sides == 1
        together[key] = item._replace(side=None) if whole else item
    return list(together.values())
