"""The units on paper: what `show` says, the governing system first."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from hts.base.quantities import DIFFERENCE, LENGTH, RATE, TEMPERATURE, Dimension
from hts.language.model import Spec

_SYMBOLS = {
    "SI": {TEMPERATURE: "degC", RATE: "degC/h", DIFFERENCE: "K", LENGTH: "mm"},
    "US": {TEMPERATURE: "degF", RATE: "degF/h", DIFFERENCE: "degF", LENGTH: "in"},
}
_SYSTEMS = {
    "SI": ("SI",),
    "US": ("US",),
    "SI and US": ("SI", "US"),
    "US and SI": ("US", "SI"),
}


class Units(NamedTuple):
    """The systems of units on paper; the first is the one programs are made in."""

    systems: tuple[str, ...] = ("SI",)

    def symbols(self, dimension: Dimension) -> tuple[str, ...]:
        """The units a value of `dimension` is shown in, each once."""
        return _symbols(self.systems, dimension)

    def first(self, dimension: Dimension) -> str:
        """The unit a value of `dimension` is set in."""
        return self.symbols(dimension)[0]


@lru_cache(maxsize=64)
def _symbols(systems: tuple[str, ...], dimension: Dimension) -> tuple[str, ...]:
    shown = (_SYMBOLS[system].get(dimension, dimension.canonical) for system in systems)
    return tuple(dict.fromkeys(shown))


def units_of(spec: Spec) -> Units:
    """What the job says under `show`; SI where it says nothing."""
    show = spec.file.job.show if spec.file.job else None
    return Units(_SYSTEMS[show or "SI"])


def led_by(units: Units, symbol: str) -> Units:
    """The same with the system of a unit of temperature first, for what is set in that unit."""
    system = next(name for name, known in _SYMBOLS.items() if known[TEMPERATURE] == symbol)
    return Units((system, *(one for one in units.systems if one != system)))
