"""Pictures of predictions: contours that are right, and every picture says what it is."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from functools import cache
from math import hypot

import numpy as np
import pytest

from hts.checking.govern.case import Case
from hts.checking.rules.examples import BASES
from hts.job.compiler.document import document
from hts.paper.drawings.canvas import Box, Canvas
from hts.paper.predicted import files
from hts.paper.predicted.raster import RANGE, Raster, draw, fill_of, fills
from hts.predict.outlook import Physics, outlook_of, physics_of
from hts.predict.setting import setting_of
from hts.predict.told import PREDICTION
from tests.texts import spec_of


@cache
def physics() -> Physics:
    """Of the plain text, which from where it is looked at does not change."""
    case = Case(spec_of(BASES["butt"]))
    setting = setting_of(case, next(iter(case.treatments(next(iter(case.joints()))))))
    return physics_of(setting, samples=2)


def test_the_end_of_the_range_of_a_cone_is_a_circle() -> None:
    down, across = np.mgrid[0:41, 0:41]
    cone = 702.0 - np.hypot(down - 20.0, across - 20.0)
    canvas = Canvas(140.0, 110.0, "cone")
    draw(canvas, Raster(cone, Box(20.0, 20.0, 60.0, 60.0)), (690.0, 720.0), labels=True)
    svg = ET.fromstring(canvas.svg())
    paths = list(svg.iter("{http://www.w3.org/2000/svg}path"))
    [ring] = [p for p in paths if float(p.get("stroke-width", 0)) == RANGE.width]
    pairs = re.findall(r"([\d.]+),([\d.]+)", ring.get("d", ""))
    points = [(float(x), float(y)) for x, y in pairs]
    assert len(points) > 30
    assert [hypot(x - 40, y - 40) for x, y in points] == pytest.approx(
        [12.0] * len(points), abs=0.06
    )
    # Beyond it the fill of what is too cold, with the ring as a hole in it.
    colder = next(p for p in paths if p.get("fill") == fill_of(685.0, (690.0, 720.0)))
    assert colder.get("d", "").count("M") == 2
    assert "690" in "".join(svg.itertext())


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
    outlook = outlook_of(setting, physics(), widths=False)
    made = files([outlook, outlook], document(case.spec, case.authorities))
    assert len(made) == 8  # of two treatments of one name neither is lost
    for svg in made.values():
        text = " ".join(" ".join(ET.fromstring(svg).itertext()).split())
        assert PREDICTION in text
        assert "W12" in text and "fingerprint" in text


def test_the_unrolled_prediction_is_no_mirror_image() -> None:
    """On the outside laid flat, right × up points at the reader: seen against the end that is up,
    the clock runs from right to left, as on the drawing of the joint."""
    text = BASES["butt"]
    assert text.count("with flow") == 1
    for viewed, leftward in (("with flow", False), ("against flow", True)):
        case = Case(spec_of(text.replace("with flow", viewed)))
        joint = next(iter(case.joints()))
        setting = setting_of(case, next(iter(case.treatments(joint))))
        assert (setting.up, setting.leftward) == ("downstream", leftward)
        outlook = outlook_of(setting, physics(), widths=False)
        (picture,) = (
            data
            for name, data in files([outlook], document(case.spec, case.authorities)).items()
            if "unrolled" in name
        )
        written = [
            (one.text or "", float(one.get("x", 0)))
            for one in ET.fromstring(picture.decode()).iter("{http://www.w3.org/2000/svg}text")
        ]
        (three, nine) = (
            next(x for text, x in written if text == hour) for hour in ("3:00", "9:00")
        )
        assert (three > nine) == leftward
        assert any(text == "downstream is up" for text, _ in written)
