"""Times shown as a clock-watcher reads them: `2 h 30 min`, not `9000 s`."""

from __future__ import annotations

from hts.base.quantities.dimensions import TIME
from hts.base.quantities.number import round_to
from hts.base.quantities.quantity import Quantity

_PARTS = (("h", 3600), ("min", 60), ("s", 1))


def show_duration(time: Quantity, smallest: str = "min", toward: str = "nearest") -> str:
    """`time` in hours, minutes and, when `smallest` is "s", seconds.

    Rounded to the smallest part, "nearest", "up" (for a least time) or "down" (for a most time).
    Parts that are zero are left out. TypeError when it is no time, ValueError for another
    `smallest`.
    """
    if time.dimension is not TIME:
        raise TypeError(f"{time} is not a time")
    sizes = dict(_PARTS)
    if smallest not in sizes:
        raise ValueError(f"smallest is h, min or s, not {smallest!r}")
    step = sizes[smallest]
    seconds = int(round_to(time.value / step, 0, toward)) * step
    sign, seconds = ("-", -seconds) if seconds < 0 else ("", seconds)
    parts = []
    for symbol, size in _PARTS:
        count, seconds = divmod(seconds, size)
        if count:
            parts.append(f"{count} {symbol}")
    return sign + " ".join(parts) if parts else f"0 {smallest}"
