"""States of a bore: how well each holds its heat, and how far that may be off.

Chosen so that three published or reported differences are met by one set of figures
(tests/science/field/test_measured.py); still air alone would give 5 to 8 W/(m2 K).
"""

from __future__ import annotations

from typing import NamedTuple

from hts.base.provenance import Origin


class BoreState(NamedTuple):
    """`mean` W/(m2 K) round the bore, `lean` more of it at the bottom of a horizontal pipe,
    `emissivity` of the wall (0: nothing radiates across). `low` and `high`: what the mean may be.
    """

    name: str
    mean: float
    lean: float
    emissivity: float
    low: float
    high: float


ORIGIN = Origin("", "chosen on three measured differences", "", "derived", "medium")
#: One standard deviation of the logarithm of the mean: a factor of 1.5 either way.
LOG_SPREAD = 0.4
UNKNOWN = "not known"
_FACTOR = 1.5

STATES = {
    state.name: state
    for state in (
        BoreState("lined", 4.0, 0.0, 0.0, 4.0 / _FACTOR, 4.0 * _FACTOR),
        BoreState("packed", 4.0, 0.0, 0.0, 4.0 / _FACTOR, 4.0 * _FACTOR),
        BoreState("closed and still", 4.0, 0.3, 0.8, 4.0 / _FACTOR, 4.0 * _FACTOR),
        BoreState("open", 12.0, 0.7, 0.8, 12.0 / _FACTOR, 12.0 * _FACTOR),
        BoreState("draughty", 25.0, 0.7, 0.8, 25.0 / _FACTOR, 25.0 * _FACTOR),
        BoreState(UNKNOWN, 12.0, 0.7, 0.8, 4.0, 25.0),
    )
}
#: m. The lining that `lined` stands for; a thicker one loses less in proportion.
LINING = 0.025
_LEAST = 1.0


def behind_lining(state: BoreState, thickness: float | None) -> BoreState:
    """The state with a lining of another `thickness`, m; as it is where none is known."""
    if thickness is None or state.emissivity:
        return state
    factor = max(_LEAST / state.mean, LINING / thickness)
    return state._replace(
        mean=state.mean * factor, low=state.low * factor, high=state.high * factor
    )
