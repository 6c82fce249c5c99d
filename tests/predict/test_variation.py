"""What may vary, varies by itself; what the text settles does not. Arithmetic, no source."""

from __future__ import annotations

from itertools import combinations
from types import SimpleNamespace as Stub
from typing import Any

import numpy as np
import pytest

from hts.predict import scatter
from hts.predict.building import AS_STATED, Builder, Variation
from hts.predict.report import width_words
from hts.predict.widths import Width
from hts.science.field.states import STATES
from tests.predict.test_setting import setting


@pytest.mark.parametrize("known", [True, False])
def test_no_input_hangs_on_another(known: bool) -> None:
    """Of 200 samples two that are independent have a correlation of 0.07 and seldom of 0.2."""
    half = Stub(steel="carbon")
    setting: Any = Stub(
        zones=[1, 2], near=half, far=half, bore_known=known,
        bore=Stub(mean=5.0, lean=0.4, emissivity=0.8, low=2.0, high=8.0),
    )  # fmt: skip
    draws = scatter._draws(setting, 200)
    columns = {"errors 0": [one.errors[0] for one in draws],
               "errors 1": [one.errors[1] for one in draws]}  # fmt: skip
    for name in Variation._fields:
        values = [getattr(one, name) for one in draws]
        if name != "errors" and len({str(value) for value in values}) > 1:
            columns[name] = [float(value) for value in values]
    assert {"air", "lean", "emissivity", "insulation", "bare"} < set(columns)
    for one, other in combinations(columns, 2):
        together = float(np.corrcoef(columns[one], columns[other])[0, 1])
        assert abs(together) < 0.3, (one, other)


@pytest.mark.parametrize("horizontal", [True, False])
def test_the_bore_of_a_sample(horizontal: bool) -> None:
    builder = Builder.__new__(Builder)
    builder.setting = Stub(horizontal=horizontal)  # type: ignore[assignment]
    varied = Variation(air=6.0, lean=0.4, emissivity=0.7)
    found = builder._state(STATES["open"], varied)
    assert tuple(found)[:3] == (6.0, 0.4 if horizontal else 0.0, 0.7)
    found = builder._state(STATES["open"], AS_STATED)
    assert tuple(found)[:3] == (12.0, 0.7 if horizontal else 0.0, 0.8)
    # Behind a lining nothing radiates across and nothing flows, whatever is drawn.
    assert tuple(builder._state(STATES["lined"], varied))[:3] == (6.0, 0.0, 0.0)


def test_a_width_is_told_in_whole_millimetres() -> None:
    assert width_words(Width("open", 0.9996, 1.0)).startswith("1000 mm,")
    assert width_words(Width("open", 0.9994, 1.0)).startswith("999 mm,")


@pytest.mark.parametrize("other", ["carbon", "9Cr"])
def test_what_varies_in_a_model(other: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Conductivity of either side, insulation and bare pipe, each by its own factor."""
    monkeypatch.setattr("hts.predict.building.Model", lambda pipe, _, **its: Stub(pipe=pipe, **its))
    made = setting()
    made = made._replace(
        near=made.near._replace(steel="carbon"), far=made.far._replace(steel=other)
    )
    builder = Builder(made, 1)
    stated: Any = builder.model()
    varied: Any = builder.model(Variation(conductivity=1.1, insulation=1.2, bare=1.3))

    at = np.array([400.0])
    metals = [(varied.pipe.metal, stated.pipe.metal), (varied.pipe.other, stated.pipe.other)]
    assert stated.pipe.other is None or other == "9Cr"
    ratios = [one.at(at)[2][0] / its.at(at)[2][0] for one, its in metals if one and its]
    assert ratios == pytest.approx([1.1] * (2 if other == "9Cr" else 1))
    covers: Any = [*zip(varied.cover, stated.cover, strict=True)]
    factors = [float(one.coefficient(at)[0] / its.coefficient(at)[0]) for one, its in covers]
    assert factors == pytest.approx([1.2, 1.3, 1.3])
    half, far = made.insulated, 100.0
    reach = [(max(its.start, -far), min(its.end, far)) for _, its in covers]
    assert reach == [(-half, half), (half, far), (-far, -half)]
