"""Figures in words, in the units of the job."""

from __future__ import annotations

from functools import lru_cache

from hts.base.quantities import DIFFERENCE, LENGTH, RATE, TEMPERATURE, TIME, Interval, Quantity
from hts.job.compiler.units import Units
from hts.job.outputs.show import number

_DEGF = 9 / 5


class Words:
    """Shows readings (floats, in degC, K, K/h and s) and limits (exact) alike."""

    def __init__(self, units: Units) -> None:
        self._units = units
        self._us = units.first(TEMPERATURE) == "degF"

    def temperature(self, celsius: float, limit: float | None = None, places: int = 1) -> str:
        """`702.4 degC`; with a `limit` as many decimals as tell the two apart."""
        number, bound = celsius, limit
        if self._us:
            number = celsius * _DEGF + 32
            bound = None if limit is None else limit * _DEGF + 32
        return f"{apart(number, bound, places)} {self._units.first(TEMPERATURE)}"

    def difference(self, kelvin: float, limit: float | None = None, places: int = 1) -> str:
        return self._scaled(kelvin, limit, places, self._units.first(DIFFERENCE))

    def rate(self, kelvin_per_hour: float, limit: float | None = None) -> str:
        return self._scaled(kelvin_per_hour, limit, 0, self._units.first(RATE))

    def edge(self, celsius: float) -> str:
        """A limit of temperature: `300 degC`, with a decimal only where there is one."""
        return self.temperature(celsius).replace(".0 ", " ")

    def limit(self, quantity: Quantity) -> str:
        """A stated or derived value, exact as far as it is of use at the pipe."""
        if quantity.dimension is TIME:
            return time(float(quantity.value))
        if quantity.dimension is LENGTH:
            return str(quantity)
        return _shown(quantity, self._units.first(quantity.dimension))

    def range(self, window: Interval) -> str:
        assert window.low is not None and window.high is not None
        return _range(window.low, window.high, self._units.first(window.dimension))

    def _scaled(self, value: float, limit: float | None, places: int, unit: str) -> str:
        scale = _DEGF if self._us else 1.0
        bound = None if limit is None else limit * scale
        return f"{apart(value * scale, bound, places)} {unit}"


@lru_cache(maxsize=256)
def _shown(quantity: Quantity, symbol: str) -> str:
    return f"{number(quantity, symbol)} {symbol}"


@lru_cache(maxsize=64)
def _range(low: Quantity, high: Quantity, symbol: str) -> str:
    return f"{number(low, symbol)} .. {number(high, symbol)} {symbol}"


def time(seconds: float, limit: float | None = None) -> str:
    """`1 h 46 min`, `12 min 20 s`, `40 s`; with seconds where that tells it from the limit."""
    whole = int(seconds + 0.5)
    if limit is not None and whole == int(limit + 0.5) and abs(seconds - limit) > 1e-3:
        return f"{seconds:.3f} s"
    hours, minutes, rest = whole // 3600, whole // 60 % 60, whole % 60
    parts = []
    if hours:
        parts.append(f"{hours} h")
    if minutes or (hours and rest):
        parts.append(f"{minutes} min")
    if rest or not parts:
        parts.append(f"{rest} s")
    return " ".join(parts)


def apart(value: float, limit: float | None, places: int) -> str:
    """Rounded to `places`, or to as many as keep it off a limit it is not at; both in one unit."""
    for digits in range(places, 7):
        text = f"{value:.{digits}f}"
        if limit is None or text != f"{limit:.{digits}f}" or abs(value - limit) < 1e-6:
            break
    return "0" if float(text) == 0 else text
