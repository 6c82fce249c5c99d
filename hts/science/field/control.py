"""Ideal control: the fluxes that bring each thermocouple to its setpoint, within their caps."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Values = NDArray[np.float64]

_MOST_TURNS = 40


def within_caps(
    answer: Values, wanted: Values, follows: NDArray[np.bool_], fluxes: Values, most: Values
) -> Values:
    """The changes of the fluxes that give the changes `wanted`, K, as far as the caps allow.

    `answer` is K for 1 W/m2, of (thermocouple, zone). An active set: zones at a cap are held
    there while their thermocouple asks for more than it.
    """
    low, high = -fluxes, most - fluxes
    at_low, at_high = ~follows, np.zeros_like(follows)
    change = low.copy()
    for _ in range(_MOST_TURNS):
        free = follows & ~at_low & ~at_high
        change = np.where(at_high, high, low)
        if free.any():
            held = np.where(free, 0.0, change)
            rest = wanted[free] - answer[free] @ held
            change[free] = np.linalg.solve(answer[np.ix_(free, free)], rest)
        over = free & (change > high)
        under = free & (change < low)
        if over.any() or under.any():
            at_high |= over
            at_low |= under
            continue
        if not (follows & (at_high | at_low)).any():
            return change
        reached = np.where(follows, np.nan_to_num(answer) @ change - np.nan_to_num(wanted), 0.0)
        back = follows & ((at_high & (reached > 1e-9)) | (at_low & (reached < -1e-9)))
        if not back.any():
            return change
        # One at a time, so that the set cannot run in a circle of two.
        worst = int(np.argmax(np.where(back, np.abs(reached), -1.0)))
        at_high[worst] = at_low[worst] = False
    return change
