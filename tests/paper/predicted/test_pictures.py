"""Pictures of predictions: contours that are right, and every picture says what it is."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from math import hypot

import numpy as np
import pytest

from hts.checking.govern.case import Case
from hts.checking.rules.examples import BASES
from hts.job.compiler.document import document
from hts.paper.predicted import files
from hts.paper.predicted.raster import contour, fill_of, fills
from hts.predict.outlook import outlook_of, physics_of
from hts.predict.setting import setting_of
from hts.predict.told import PREDICTION
from tests.texts import spec_of


def test_contour_of_a_cone_is_a_circle() -> None:
    down, across = np.mgrid[0:41, 0:41]
    cone = np.hypot(down - 20.0, across - 20.0)
    ends = [end for segment in contour(cone, 12.0) for end in segment]
    assert len(ends) > 60
    assert [hypot(i - 20, j - 20) for i, j in ends] == pytest.approx([12.0] * len(ends), abs=0.05)
    assert list(contour(cone, 99.0)) == []


def test_fills_tell_the_range() -> None:
    window = (690.0, 720.0)
    told = dict(fills(window))
    for celsius, words in (
        (600.0, "below 630 °C"), (650.0, "to 660"), (670.0, "to 680"), (685.0, "to 690"),
        (690.0, "in the range"), (720.0, "in the range"), (725.0, "above 720"),
        (731.0, "above 730"),
    ):  # fmt: skip
        assert told[fill_of(celsius, window)] == words


def test_every_picture_says_it_is_a_prediction() -> None:
    case = Case(spec_of(BASES["butt"]))
    setting = setting_of(case, next(iter(case.treatments(next(iter(case.joints()))))))
    outlook = outlook_of(setting, physics_of(setting, samples=4), widths=False)
    made = files([outlook, outlook], document(case.spec, case.authorities))
    assert len(made) == 8  # of two treatments of one name neither is lost
    for svg in made.values():
        text = " ".join(" ".join(ET.fromstring(svg).itertext()).split())
        assert PREDICTION in text
        assert "W12" in text and "fingerprint" in text
