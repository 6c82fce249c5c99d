"""Steels and states of a bore: which holds for what, and how they stand to each other.

Most of their figures are from memory of handbooks, as the tables say of themselves; no public
source was found, and `tests/mutants/SURVIVORS.md` lists them. Carbon and stainless steel are held
to EN 1993-1-2 in `tests/science/heat/test_properties.py`.
"""

from __future__ import annotations

import pytest

from hts.science.field.states import LINING, STATES, UNKNOWN, behind_lining
from hts.science.field.steels import STEELS, family
from hts.science.heat.properties import CHROMIUM_2_STEEL, CHROMIUM_9_STEEL, Material
from tests.rows import each_row


@each_row(
    ("chromium", "name"),
    [(0, "carbon"), (0.69, "carbon"), (0.7, "1.25Cr"), (1.69, "1.25Cr"), (1.7, "2.25Cr"),
     (3.49, "2.25Cr"), (3.5, None), (7.49, None), (7.5, "9Cr"), (10.49, "9Cr"), (10.5, None)],
)  # fmt: skip
def test_a_family_by_chromium(chromium: float, name: str | None) -> None:
    assert family(chromium) == name
    assert family(chromium, austenitic=True) == "austenitic"


@each_row("celsius", [*range(100, 1101, 100)])
def test_austenitic_steel_lies_within_its_spread_of_another_fit(celsius: float) -> None:
    """Fits for type 316, T in K, as a page on solid properties of open-source software quotes them
    from Mills. Above 600 degC the heats part: the fit for 316 is 12 % above EN 1993-1-2 at 800."""
    steel, kelvin = STEELS["austenitic"], celsius + 273.15
    conductivity = 6.308 + 0.02716 * kelvin - 7.301e-6 * kelvin**2
    heat = 428.46 + 0.1816 * kelvin
    within = steel.conductivity_spread, steel.heat_spread
    assert steel.material.conductivity.at(celsius) == pytest.approx(conductivity, rel=within[0])
    assert steel.material.specific_heat.at(celsius) == pytest.approx(heat, rel=within[1])


@pytest.mark.parametrize(
    ("name", "table"), [("2.25Cr", CHROMIUM_2_STEEL), ("9Cr", CHROMIUM_9_STEEL)]
)
def test_below_600_a_steel_is_that_of_the_tables(name: str, table: Material) -> None:
    for celsius in range(20, 601, 20):
        for curve in ("conductivity", "specific_heat"):
            here = getattr(STEELS[name].material, curve).at(celsius)
            assert here == pytest.approx(getattr(table, curve).at(celsius)), (name, curve, celsius)


def test_states_of_a_bore_in_order() -> None:
    """The more air moves, the more is lost; what is not known may be any of them."""
    assert all(name == state.name for name, state in STATES.items())
    known = [state for name, state in STATES.items() if name != UNKNOWN]
    for state in known:
        # A factor either way.
        assert state.high / state.mean == pytest.approx(state.mean / state.low)
    means = [STATES[name].mean for name in ("lined", "closed and still", "open", "draughty")]
    assert means == sorted(means)
    unknown = STATES[UNKNOWN]
    assert (unknown.low, unknown.high) == (min(means), max(means))
    assert unknown.mean == STATES["open"].mean and unknown.lean == STATES["open"].lean
    # Behind a lining nothing radiates across, and top and bottom are alike.
    assert all((STATES[n].lean, STATES[n].emissivity) == (0, 0) for n in ("lined", "packed"))
    assert all(state.emissivity > 0 for state in known if state.name not in ("lined", "packed"))


def test_a_thicker_lining_loses_less() -> None:
    lined = STATES["lined"]
    assert behind_lining(lined, None) is lined
    assert behind_lining(STATES["open"], 0.1) is STATES["open"]
    half = behind_lining(lined, 2 * LINING)
    for name in ("mean", "low", "high"):
        assert getattr(half, name) == pytest.approx(getattr(lined, name) / 2)
    # Never less than 1 W/(m2 K), however thick.
    thick = behind_lining(lined, 1.0)
    assert (thick.mean, thick.low, thick.high) == pytest.approx((1, 2 / 3, 1.5))
