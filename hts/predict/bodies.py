"""Heavy sections beside the weld, and tapers of unequal walls, as a prediction takes them. SI."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from hts.base.quantities import Quantity
from hts.language.model.heavy import Heavy, heavy_sections, taper_of
from hts.language.model.joint import Joint
from hts.language.model.orientation import Orientation
from hts.science.field.pipe import Station


class Body(NamedTuple):
    """What is thicker than the pipe: `sign` of the end it lies toward; the wall grows by `extra` m
    from `begins` to `full` m off the weld and falls back at `ends`; `outward`: on the outside."""

    what: str
    sign: int
    begins: float
    full: float
    ends: float
    extra: float
    outward: bool


def bodies_of(joint: Joint, assumed: list[str]) -> tuple[Body, ...]:
    """Those the text states. What cannot be placed, or is no thicker than its pipe, is told."""
    found = []
    for heavy in heavy_sections(joint):
        rise = heavy.rise
        if rise is None or rise.value <= 0:
            assumed.append(f"the {heavy.entry.what} beside the weld left out: it is not thicker "
                           "than a pipe that is known")  # fmt: skip
            continue
        found.append(_body(joint, heavy, rise))
        assumed.append(f"the {heavy.entry.what} beside the weld taken as round, of the metal of "
                       "its side, and behind it the pipe again")  # fmt: skip
    return tuple(found)


def _body(joint: Joint, heavy: Heavy, rise: Quantity) -> Body:
    sign = Orientation(joint.entry).along(heavy.entry.where.side)[1]
    begins, full, ends = (float(at.value) / 1000.0 for at in heavy[4:])
    extra = float(rise.value) / 1000.0
    outward = heavy.entry.bore != "same outside"
    return Body(heavy.entry.what, sign, max(begins, 0.0), full, ends, extra, outward)


def taper_between(joint: Joint) -> float | None:
    """Length over which the thicker wall falls to the other, m; None where the text is silent."""
    walls = [side.wall.value for side in joint.sides if side.wall is not None]
    known = [wall for wall in walls if isinstance(wall, Quantity)]
    rise = max(known) - min(known) if len(known) > 1 else None
    for entry in joint.entry.sides:
        if entry.taper is not None or entry.slope is not None:
            length = taper_of(entry, rise)
            return float(length.value) / 1000.0
    return None


def with_bodies(stations: Sequence[Station], bodies: Sequence[Body]) -> list[Station]:
    """The stations of a pipe with what is thicker beside the weld laid over it. Bodies of which no
    bore would be left are cut down to a hundredth of the radius."""
    if not bodies:
        return list(stations)
    at = [station.z for station in stations]
    own = {*at, *(b.sign * z for b in bodies for z in (b.begins, b.full, b.ends))}
    places = sorted(z for z in own if at[0] <= z <= at[-1])
    found: list[Station] = []
    for z in places:
        for toward in (-1, 1):
            if (z == places[0] and toward < 0) or (z == places[-1] and toward > 0):
                continue
            inner = float(np.interp(z, at, [s.inner_radius for s in stations]))
            outer = float(np.interp(z, at, [s.outer_radius for s in stations]))
            for body in bodies:
                grown = _grown(body, z, toward)
                outer += grown if body.outward else 0.0
                inner -= 0.0 if body.outward else grown
            station = Station(z, max(inner, 0.01 * outer), outer)
            if not found or found[-1] != station:
                found.append(station)
    return found


def _grown(body: Body, z: float, toward: int) -> float:
    """How much thicker it is at `z`, seen from the side of `toward`, m."""
    off, away = body.sign * z, body.sign * toward > 0
    if off < body.begins or off > body.ends or (off == body.ends and away):
        return 0.0
    if off > body.full or (off == body.full and (away or body.begins < body.full)):
        return body.extra
    if body.begins == body.full or (off == body.begins):
        return 0.0
    return body.extra * (off - body.begins) / (body.full - body.begins)
