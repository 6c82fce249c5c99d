"""Fluxes within their caps, by what the answer has to be: a thermocouple is where it was wanted, or
its zone stands at a cap that keeps it from going further (the conditions of complementarity)."""

import numpy as np
import pytest

from hts.science.field.control import within_caps


@pytest.mark.parametrize("couples", [1, 2, 3, 5])
def test_each_is_where_it_was_wanted_or_at_a_cap(couples: int) -> None:
    chance = np.random.default_rng(couples)
    held = 0
    for _ in range(60):
        # Each zone warms its own thermocouple most, and those beside it less.
        answer = chance.uniform(0.0, 0.9 / couples, (couples, couples)) + np.eye(couples)
        wanted = chance.normal(0.0, 4.0, couples)
        most = chance.uniform(2.0, 6.0, couples)
        fluxes = chance.uniform(0.0, most)
        follows = chance.random(couples) < 0.8
        change = within_caps(answer, wanted, follows, fluxes, most)
        assert change[~follows] == pytest.approx(-fluxes[~follows])
        assert (change >= -fluxes - 1e-9).all() and (change <= most - fluxes + 1e-9).all()
        off = answer @ change - wanted
        high, low = np.isclose(change, most - fluxes), np.isclose(change, -fluxes)
        for n in np.flatnonzero(follows):
            assert abs(off[n]) < 1e-9 or (high[n] and off[n] < 0) or (low[n] and off[n] > 0)
            held += abs(off[n]) >= 1e-9
    assert held > 10
