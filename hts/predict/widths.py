"""The narrowest heated band that keeps the soak band within a spread, if any does."""

from __future__ import annotations

from typing import NamedTuple

from hts.predict.building import Builder
from hts.predict.scatter import band_of
from hts.predict.setting import Setting
from hts.science.field.states import STATES, BoreState

#: m, half of the widest band tried: wider ones change nothing at the weld any more.
_WIDEST = 1.6
_NEAR_ENOUGH = 0.005
#: Insulation beyond the band tried, m.
_BEYOND = 0.3


class Width(NamedTuple):
    """For one state of the bore: the whole width of the band, m, None where no width does it;
    `left` is how far the lowest stays below the setpoint with the widest band, K.
    """

    state: str
    band: float | None
    left: float


def narrowest(setting: Setting, spread: float) -> tuple[Width, ...]:
    """For the bore as it is and for other states; `spread` is K below the setpoint."""
    states = [setting.bore, *(STATES[name] for name in ("lined", "closed and still", "open"))]
    seen: dict[str, BoreState] = {}
    for state in states:
        seen.setdefault(state.name, state)
    return tuple(_narrowest(setting, state, spread) for state in seen.values())


def _narrowest(setting: Setting, state: BoreState, spread: float) -> Width:
    least = max(setting.soak + 0.01, 0.03)
    left = _behind(setting, state, _WIDEST)
    if left > spread:
        return Width(state.name, None, left)
    low, high = least, _WIDEST
    if _behind(setting, state, low) <= spread:
        return Width(state.name, 2.0 * low, left)
    while high - low > _NEAR_ENOUGH:
        middle = (low + high) / 2.0
        if _behind(setting, state, middle) <= spread:
            high = middle
        else:
            low = middle
    return Width(state.name, 2.0 * high, left)


def _behind(setting: Setting, state: BoreState, half: float) -> float:
    """How far the lowest of the soak band stays below the setpoint, K."""
    zones = tuple(
        zone._replace(
            start=-half if zone.start < 0.0 else 0.0,
            end=half if zone.end > 0.0 else 0.0,
            power=None,
        )
        for zone in setting.zones
    )
    tried = setting._replace(
        heated=half, insulated=half + _BEYOND, zones=zones, bore=state,
        beyond=None if state.emissivity else STATES["closed and still"], lined=None,
    )  # fmt: skip
    field, _ = Builder(tried).model().steady(targets=[setting.target] * len(zones))
    lowest, _ = field.extremes(*band_of(tried, field))
    return setting.target - lowest.celsius
