"""Axes count right and read easily."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.paper.drawings import axes
from hts.paper.drawings.axes import Scale
from hts.paper.drawings.canvas import Box, Canvas
from tests.paper.drawings.reading import inks


def test_scale_by_hand() -> None:
    # 0 to 800 over 100 mm upward from 120: 200 is a quarter of the way.
    assert Scale(0, 800, 120, 20).at(200) == 95


@given(
    low=st.floats(-200, 900),
    span=st.floats(1, 2000),
    room=st.floats(20, 300),
    apart=st.floats(5, 15),
)
def test_steps(low: float, span: float, room: float, apart: float) -> None:
    found = axes.steps(low, low + span, room, apart)
    step = [b - a for a, b in pairwise(found)]
    assert all(low - 1e-6 <= value <= low + span + 1e-6 for value in found)
    assert all(s * room / span >= apart * (1 - 1e-6) for s in step)
    # No wider than the next readable step, 2.5 times what is needed at most, and a rounding.
    assert len(found) >= room / (2.5 * apart) - 1
    for s in step[:1]:
        leading = float(f"{s:e}".split("e")[0])
        assert min(abs(leading - r) for r in (1, 2, 2.5, 5, 10)) < 1e-3


@given(seconds=st.floats(60, 3_000_000), room=st.floats(30, 300))
def test_times(seconds: float, room: float) -> None:
    found = axes.time_steps(seconds, room, 11)
    assert found[0] == 0 and found[-1] <= seconds
    assert all((b - a) * room / seconds >= 11 * (1 - 1e-6) for a, b in pairwise(found))
    assert all(value % 60 == 0 for value in found)


def test_time_text() -> None:
    assert [axes.time_text(s) for s in (0, 5400, 36000, 360_000)] == [
        "0:00",
        "1:30",
        "10:00",
        "100:00",
    ]


def test_two_units_on_one_scale() -> None:
    """100 degC and 212 degF, the boiling point of water, lie at the same height."""
    canvas = Canvas(150, 100, "axes")
    plot = Box(20, 10, 130, 90)
    scale = axes.temperatures(0, 120, plot)
    axes.temperature_axes(canvas, scale, plot, ("degC", "degF"))
    middle = {(text, ink[0] > 75): (ink[1] + ink[3]) / 2 for text, ink in inks(canvas.svg())}
    assert middle["100", False] == pytest.approx(scale.at(100), abs=0.1)
    # 50 degF is 10 degC, 200 degF is 93.3 degC.
    assert middle["50", True] == pytest.approx(scale.at(10), abs=0.1)
    assert middle["200", True] == pytest.approx(scale.at(93.333), abs=0.1)
