"""Steels and states of a bore, entered a second time: a figure that slips in one of the two fails.

From memory of handbooks, as the tables say of themselves; no public source was found for most.
"""

from __future__ import annotations

import itertools

import pytest

from hts.science.field.states import LINING, STATES, UNKNOWN, behind_lining
from hts.science.field.steels import STEELS, family

#: Steel: what is known of conductivity, W/(m K), and of specific heat, J/(kg K), by degC.
FIGURES = {
    "9Cr": (
        {20: 26, 100: 27, 200: 28, 300: 28, 400: 29, 500: 30, 600: 30, 820: 30},
        {20: 440, 100: 480, 200: 510, 300: 550, 400: 630, 500: 660, 600: 770, 700: 860, 780: 950,
         820: 995},
    ),
    "2.25Cr": (
        {20: 36.5, 200: 36.5, 400: 35, 500: 33.5, 600: 31.5, 700: 29.5, 800: 27.5},
        {20: 440, 100: 490, 200: 530, 300: 570, 400: 620, 500: 680, 600: 790, 700: 900, 760: 1000,
         800: 1067},
    ),
    "1.25Cr": (
        {20: 44.9, 200: 41.9, 400: 37.8, 500: 35.4, 600: 32.8, 700: 30.1, 800: 27.4},
        {20: 440, 100: 490, 200: 530, 300: 570, 400: 620, 500: 680, 600: 790, 700: 900, 760: 1000,
         800: 1067},
    ),
}  # fmt: skip
#: Spread of conductivity and of heat, as shares, and from where on figures are of low confidence.
SPREADS = {
    "carbon": (0.06, 0.03, 1200), "1.25Cr": (0.10, 0.10, 20), "2.25Cr": (0.08, 0.10, 600),
    "9Cr": (0.12, 0.10, 600), "austenitic": (0.10, 0.05, 1200),
}  # fmt: skip
#: Mean and its least and most, W/(m2 K), how much more at the bottom, and emissivity.
BORES = {
    "lined": (4, 4 / 1.5, 6, 0, 0), "packed": (4, 4 / 1.5, 6, 0, 0),
    "closed and still": (4, 4 / 1.5, 6, 0.3, 0.8), "open": (12, 8, 18, 0.7, 0.8),
    "draughty": (25, 25 / 1.5, 37.5, 0.7, 0.8), UNKNOWN: (12, 4, 25, 0.7, 0.8),
}  # fmt: skip


def test_figures_of_steels() -> None:
    for name, (conductivity, heat) in FIGURES.items():
        material = STEELS[name].material
        for curve, figures in (
            (material.conductivity, conductivity),
            (material.specific_heat, heat),
        ):
            for celsius, figure in figures.items():
                assert curve.at(celsius) == pytest.approx(figure, rel=1e-12), (name, celsius)
            pairs = list(figures.items())
            for (low, first), (high, last) in itertools.pairwise(pairs):
                assert curve.at((low + high) / 2) == pytest.approx((first + last) / 2), (name, low)


def test_spreads_of_steels() -> None:
    found = {n: (s.conductivity_spread, s.heat_spread, s.beyond) for n, s in STEELS.items()}
    assert found == SPREADS


@pytest.mark.parametrize(
    ("chromium", "name"),
    [(0, "carbon"), (0.69, "carbon"), (0.7, "1.25Cr"), (1.69, "1.25Cr"), (1.7, "2.25Cr"),
     (3.49, "2.25Cr"), (3.5, None), (7.49, None), (7.5, "9Cr"), (10.49, "9Cr"), (10.5, None)],
)  # fmt: skip
def test_a_family_by_chromium(chromium: float, name: str | None) -> None:
    assert family(chromium) == name
    assert family(chromium, austenitic=True) == "austenitic"


def test_states_of_a_bore() -> None:
    found = {n: (s.mean, s.low, s.high, s.lean, s.emissivity) for n, s in STATES.items()}
    assert found == {name: pytest.approx(figures) for name, figures in BORES.items()}
    assert all(name == state.name for name, state in STATES.items())


def test_a_thicker_lining_loses_less() -> None:
    lined = STATES["lined"]
    assert behind_lining(lined, None) is lined
    assert behind_lining(STATES["open"], 0.1) is STATES["open"]
    half = behind_lining(lined, 2 * LINING)
    assert (half.mean, half.low, half.high) == pytest.approx((2, 4 / 3, 3))
    # Never less than 1 W/(m2 K), however thick.
    thick = behind_lining(lined, 1.0)
    assert (thick.mean, thick.low, thick.high) == pytest.approx((1, 2 / 3, 1.5))
