"""Whether a run was truly met: the true temperatures held against the limits, by nothing of
`hts`."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from tests.record.physics.oven import Run
from tests.record.physics.plants import HOUR, MINUTE

MET, NOT_MET, NEAR = "met", "not met", "too near to say"

#: Nearer to a limit than this a recorder cannot decide, and such runs prove nothing: K, part of a
#: rate, s.
KELVIN, RATE, SECONDS = 1.5, 0.03, 90.0
#: s. All these jobs say `rate over 15 min`, or leave the window to the judge.
WINDOW = 15 * MINUTE


class Truth(NamedTuple):
    """`broken` and `near` name what was not kept, or neither kept nor broken clearly."""

    verdict: str
    broken: tuple[str, ...]
    near: tuple[str, ...]


def truth(run: Run) -> Truth:
    """Judges a run by its true temperatures."""
    limits = run.plant.limits
    weld = np.array([place.required for place in run.places])
    close = np.array([place.required or bool(place.partner) for place in run.places])
    step = float(run.seconds[1] - run.seconds[0])
    at = run.true[:, weld]
    margins: list[tuple[str, float, float]] = []  # name, room left, what cannot be decided
    inside = ((at >= limits.low) & (at <= limits.high)).all(axis=1)
    if not inside.any():
        return Truth(NOT_MET, ("never all in range",), ())
    first = int(np.argmax(inside))
    last = len(inside) - int(np.argmax(inside[::-1])) - 1
    counted = inside.sum() * step if limits.adds_up else longest(inside) * step
    outside = (~inside[first : last + 1]).sum() * step
    margins += [
        ("hold time", counted - limits.hold, SECONDS),
        ("time outside", limits.excursion - outside, SECONDS if outside else 0.0),
        ("highest", limits.high - run.true[:, close].max(), KELVIN),
    ]
    lengths = ((at >= limits.low) & (at <= limits.high)).sum(axis=0) * step
    margins.append(("longest hold", limits.longest - lengths.max(), SECONDS))
    spread = at.max(axis=1) - at.min(axis=1)
    margins.append(
        ("spread in hold", limits.holding_spread - spread[first : last + 1].max(), KELVIN)
    )
    hot = at.max(axis=1) > 300
    rising = hot & (np.arange(len(hot)) < first)
    falling = hot & (np.arange(len(hot)) > last)
    for part in (rising, falling):
        if part.any():
            margins.append(("spread", limits.heating_spread - spread[part].max(), KELVIN))
    if limits.too_fast:
        over = longest_too_fast(run.true[:, close], step, first, limits.heating)
        margins.append(("time too fast", limits.too_fast - over, 40.0))
    fastest, slowest = rates(run.true[:, close], step, first, last)
    if run.plant.limits.first_rate < 200:
        low = rates(run.true[:, close], step, first, last, 80)[0]
        margins.append(("first heating rate", limits.first_rate - low, RATE * limits.first_rate))
    if limits.too_fast:
        fastest = 0.0
    margins += [
        ("heating rate", limits.heating - fastest, RATE * limits.heating),
        ("cooling rate", limits.cooling - slowest, RATE * limits.cooling),
        ("start of the record", limits.starts_at - run.true[0, close].max(), KELVIN),
        ("end of the record", limits.ends_at - run.true[-1, close].max(), KELVIN),
    ]
    broken = tuple(name for name, room, doubt in margins if room < -doubt)
    near = tuple(name for name, room, doubt in margins if -doubt <= room < doubt)
    return Truth(NOT_MET if broken else NEAR if near else MET, broken, near)


def rates(
    at: np.ndarray, step: float, first: int, last: int, above: float = 300
) -> tuple[float, float]:
    """Fastest rise before and fall after the hold, K/h over the window, above a temperature."""
    width = round(WINDOW / step)
    rise = (at[width:] - at[:-width]) / (width * step) * HOUR
    start = np.arange(len(rise))[:, None]
    up = rise[(at[:-width] >= above) & (start + width <= first)]
    down = rise[(at[width:] >= above) & (start >= last)]
    return float(up.max(initial=0.0)), float(-down.min(initial=0.0))


def longest_too_fast(at: np.ndarray, step: float, first: int, limit: float) -> float:
    """s: the longest stretch in the heating that some place truly rose faster than the limit, by
    the slope over two minutes."""
    half = round(MINUTE / step)
    slope = (at[2 * half : first] - at[: first - 2 * half]) / (2 * half * step) * HOUR
    fast = (slope > limit) & (at[half : first - half] >= 300)
    return max(longest(column) for column in fast.T) * step


def longest(flags: np.ndarray) -> int:
    """Length of the longest stretch of True."""
    best = now = 0
    for flag in flags:
        now = now + 1 if flag else 0
        best = max(best, now)
    return best
