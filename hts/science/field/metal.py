"""Heat content and conductivity of a steel as tables that are fast to look up."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from hts.base.arguments import NotCovered, positive
from hts.science.heat.properties import Material

Values = NDArray[np.float64]

#: Distance of the temperatures in a table, K: the peak of carbon steel is 10 K wide.
_STEP = 0.1
_ROUNDING = 1e-6


class Metal:
    """Tables over temperature: heat content J/kg, specific heat J/(kg K), conductivity W/(m K).

    The heat content is the exact integral at every point of the table, and the specific heat the
    slope between two points, so that no heat is lost however long a step is.
    """

    def __init__(
        self,
        name: str,
        density: float,
        low: float,
        high: float,
        content: Callable[[float], float],
        conductivity: Callable[[float], float],
    ) -> None:
        """`content` and `conductivity` are given from `low` to `high` degC."""
        positive(density=density, span=high - low)
        self.name, self.density, self.low = name, density, low
        count = int(np.ceil((high - low) / _STEP - 1e-9))
        points = np.minimum(low + _STEP * np.arange(count + 1), high)
        self.high = high
        self._content = np.array([content(float(t)) for t in points])
        self._heat = np.diff(self._content) / np.diff(points)
        self._conductivity = np.array([conductivity(float(t)) for t in points])

    def scaled(self, conductivity: float = 1.0, heat: float = 1.0) -> Metal:
        """The same metal with conductivity and specific heat multiplied by factors."""
        positive(conductivity=conductivity, heat=heat)
        other = Metal.__new__(Metal)
        other.name, other.density, other.low, other.high = (
            self.name, self.density, self.low, self.high,
        )  # fmt: skip
        other._content = self._content * heat
        other._heat = self._heat * heat
        other._conductivity = self._conductivity * conductivity
        return other

    def at(self, celsius: Values) -> tuple[Values, Values, Values]:
        """Heat content, specific heat and conductivity at temperatures in degC, of any shape.

        Beyond the table the last figures stand, so that a pass may go beyond and come back:
        what it settles to is put to `check`.
        """
        place = (celsius - self.low) / _STEP
        index = np.clip(place.astype(np.intp), 0, len(self._heat) - 1)
        over = celsius - (self.low + _STEP * index)
        heat = self._heat[index]
        rise = self._conductivity[index + 1] - self._conductivity[index]
        conductivity = self._conductivity[index] + rise * np.clip(over / _STEP, 0.0, 1.0)
        return self._content[index] + heat * over, heat, conductivity

    def check(self, celsius: Values) -> None:
        """Raise NotCovered where a temperature, degC, lies beyond the table."""
        lowest, highest = float(celsius.min()), float(celsius.max())
        if not (lowest >= self.low - _ROUNDING and highest <= self.high + _ROUNDING):
            worst = highest if highest > self.high else lowest
            subject = f"temperature for the properties of {self.name}"
            raise NotCovered(subject, worst, self.low, self.high, "degC")


def metal(material: Material, low: float = 0.0, high: float | None = None) -> Metal:
    """The tables of `material` from `low` degC to `high`, or to where its properties end.

    Below its range the first figure stands, so that metal colder than the room can be met.
    """
    heat, conductivity = material.specific_heat, material.conductivity
    top = min(heat.high, conductivity.high) if high is None else high
    start = max(heat.low, conductivity.low)
    below = heat.at(start)

    def content(t: float) -> float:
        return heat.between(start, t) if t >= start else below * (t - start)

    return Metal(material.name, material.density, min(low, start), top, content,
                 lambda t: conductivity.at(max(t, start)))  # fmt: skip


def tabulated(
    name: str,
    density: float,
    conductivity: Sequence[tuple[float, float]],
    specific_heat: Sequence[tuple[float, float]],
    low: float = -100.0,
    high: float = 1300.0,
) -> Metal:
    """A metal of straight lines between (degC, value), constant beyond the first and last."""
    warm, heat = (np.array(column, dtype=float) for column in zip(*specific_heat, strict=True))
    knots = np.concatenate(([min(low, warm[0]) - 1.0], warm, [max(high, warm[-1]) + 1.0]))
    values = np.concatenate(([heat[0]], heat, [heat[-1]]))
    sums = np.concatenate(([0.0], np.cumsum(np.diff(knots) * (values[1:] + values[:-1]) / 2.0)))

    def content(t: float) -> float:
        k = min(max(int(np.searchsorted(knots, t, "right")) - 1, 0), len(knots) - 2)
        over = t - knots[k]
        slope = (values[k + 1] - values[k]) / (knots[k + 1] - knots[k])
        return float(sums[k] + values[k] * over + slope * over**2 / 2.0)

    places, figures = zip(*conductivity, strict=True)
    return Metal(name, density, low, high, content,
                 lambda t: float(np.interp(t, places, figures)))  # fmt: skip
