"""Zones round the pipe, sorted by the side of the weld their heaters lie on."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.quantities.clock import Arc
from hts.checking.rules.helpers.places import goes_round
from hts.language.model.joint import Joint, Zone


def sides(joint: Joint) -> Iterator[list[tuple[Zone, Arc]]]:
    """The same for each side by itself: what heats both sides counts on either."""
    found = list(rings(joint))
    if found or not goes_round(joint):
        yield from found
        return
    arcs = [(zone, zone.arc) for zone in joint.zones if not zone.entry.all_round]
    known = [(zone, arc) for zone, arc in arcs if arc is not None]
    if len(known) < len(arcs):
        return
    named = {zone.entry.side for zone, _ in known} - {None, "both"}
    for side in named if len(named) > 1 else (*named, ""):
        on_it = [item for item in known if item[0].entry.side in (None, "both", side)]
        yield sorted(on_it, key=lambda item: item[1].start.degrees)


def rings(joint: Joint) -> Iterator[list[tuple[Zone, Arc]]]:
    """The zones of each side with their arcs, by where these begin.

    Nothing where a zone does not say its arc: what it leaves open cannot be told.
    """
    if not goes_round(joint):
        return
    sides: dict[str, list[tuple[Zone, Arc]]] = {}
    for zone in joint.zones:
        arc = zone.arc
        if arc is None:
            if zone.entry.all_round:
                continue
            return
        sides.setdefault(zone.entry.side or "both", []).append((zone, arc))
    if len(sides) > 1 and "both" in sides:
        return
    for ring in sides.values():
        yield sorted(ring, key=lambda item: item[1].start.degrees)
