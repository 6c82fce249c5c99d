"""The saddle of a branch against solid geometry done by other means.

Independent of the program: points are sought in space where two implicit cylinders meet
(scipy.optimize), and lengths along a surface are those of strings led along it step by step.
"""

from math import cos, degrees, pi, radians, sin, sqrt

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from hts.base.arguments import NotCovered
from hts.science.saddle.crossing import Crossing, OnRun
from tests.sampling import whose_turn

SHAPES = [(203.2, 109.55, 90.0, 0.0), (203.2, 109.55, 45.0, 30.0), (762.0, 84.15, 60.0, -500.0)]
TURNS = [0.0, 35.0, 90.0, 150.0, 217.5, 270.0]


class Surface:
    """A cylinder by its axis alone."""

    def __init__(self, foot: np.ndarray, axis: np.ndarray, radius: float) -> None:
        self.foot, self.axis, self.radius = foot, axis, radius

    def _across(self, points: np.ndarray) -> np.ndarray:
        rel = points - self.foot
        return rel - np.outer(rel @ self.axis, self.axis)  # type: ignore[no-any-return]

    def outside(self, points: np.ndarray) -> np.ndarray:
        """Distance out of the surface, negative inside."""
        return np.linalg.norm(self._across(points), axis=1) - self.radius  # type: ignore[no-any-return]

    def normal(self, points: np.ndarray) -> np.ndarray:
        across = self._across(points)
        return across / np.linalg.norm(across, axis=1)[:, None]  # type: ignore[no-any-return]


class Space:
    """The two cylinders in space: the run along x, the branch leaning toward +x, turn 90 at -y."""

    def __init__(self, run: float, branch: float, angle: float, offset: float) -> None:
        self.run, self.branch = run, branch
        lean = radians(angle)
        self.axis = np.array([cos(lean), 0.0, sin(lean)])
        self.foot = np.array([0.0, -offset, 0.0])
        # Seen along the branch at the run, turn 0 toward the crotch and turn 90 clockwise of it.
        self.toward = np.cross(np.array([0.0, 1.0, 0.0]), self.axis)
        self.right = np.array([0.0, -1.0, 0.0])
        assert np.allclose(np.cross(-self.axis, self.toward), self.right)

    def on_branch(self, turn: float, height: float) -> np.ndarray:
        t = radians(turn)
        ray = cos(t) * self.toward + sin(t) * self.right
        return self.foot + self.branch * ray + height * self.axis  # type: ignore[no-any-return]

    def on_run(self, place: OnRun) -> np.ndarray:
        theta = place.round / self.run
        return np.array([place.along, -self.run * sin(theta), self.run * cos(theta)])

    def weld(self, turn: float) -> float:
        """Height at which the line up the branch comes out of the run."""

        def inside(height: float) -> float:
            point = self.on_branch(turn, height)
            return float(point[1] ** 2 + point[2] ** 2 - self.run**2)

        middle = -float(self.on_branch(turn, 0.0)[2]) / float(self.axis[2])
        return float(brentq(inside, middle, middle + 10 * self.run, xtol=1e-10))


def shot(start: np.ndarray, own: Surface, other: Surface, most: float) -> float:
    """How far the weld is along a surface: strings are led off in all directions, bent with the
    surface and never aside, until one passes the other cylinder."""
    count, step = 720, most / 250
    normal = own.normal(start[None, :])[0]
    u = np.cross(normal, own.axis)
    headings = np.linspace(0, 2 * pi, count, endpoint=False)[:, None]
    points = np.repeat(start[None, :], count, axis=0)
    ways = np.cos(headings) * u + np.sin(headings) * own.axis
    before = other.outside(points)
    for number in range(1, 400):
        moved = points + step * ways
        # Back onto the surface, and the heading laid into it again.
        moved -= own.outside(moved)[:, None] * own.normal(moved)
        ways = ways - (ways * own.normal(moved)).sum(axis=1)[:, None] * own.normal(moved)
        ways /= np.linalg.norm(ways, axis=1)[:, None]
        points, now = moved, other.outside(moved)
        passed = (before > 0) != (now > 0)
        if passed.any():
            part = before[passed] / (before[passed] - now[passed])
            return float((number - 1 + part.min()) * step)
        before = now
    raise AssertionError("the weld is not reached")


@pytest.mark.parametrize("shape", SHAPES)
def test_the_curve_lies_on_both(shape: tuple[float, float, float, float]) -> None:
    crossing, space = Crossing(*shape), Space(*shape)
    for turn in TURNS:
        height = space.weld(turn)
        assert crossing.height(turn) == pytest.approx(height, abs=1e-6)
        there = space.on_branch(turn, height)
        assert space.on_run(crossing.on_run(turn)) == pytest.approx(there, abs=1e-6)


def test_ordinates_of_a_square_tee() -> None:
    """Pipes of one size at a right angle: the cut is R (1 - |cos|) deep, R at the flank (any
    handbook of pipe templates; here by elementary geometry)."""
    tee = Crossing(100.0, 100.0)
    for turn in range(0, 360, 15):
        assert tee.height(turn) == pytest.approx(100 * abs(cos(radians(turn))), abs=1e-6)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("turn", whose_turn([0.0, 35.0, 90.0, 217.5]))
def test_lengths_from_the_weld(shape: tuple[float, float, float, float], turn: float) -> None:
    """The place found is as far from the weld as asked: the shortest string says so."""
    crossing, space = Crossing(*shape), Space(*shape)
    run = Surface(np.zeros(3), np.array([1.0, 0.0, 0.0]), space.run)
    branch = Surface(space.foot, space.axis, space.branch)
    for distance in (44.0, 150.0):
        place = crossing.place_on_run(turn, distance)
        on_branch = space.on_branch(turn, crossing.place_on_branch(turn, distance))
        on_run = space.on_run(place)
        assert shot(on_branch, branch, run, distance) == pytest.approx(distance, rel=3e-3)
        assert shot(on_run, run, branch, distance) == pytest.approx(distance, rel=3e-3)
        seen = on_run - space.foot
        seen_turn = degrees(np.arctan2(np.dot(seen, space.right), np.dot(seen, space.toward))) % 360
        assert seen_turn == pytest.approx(turn % 360, abs=1e-4)
        assert crossing.turn_of(place) == pytest.approx(turn % 360, abs=1e-4)


@settings(max_examples=30, deadline=None)
@example(run=60.0, share=0.5, angle=30.0, aside=0.5, turn=5.960464477539063e-08, distance=5.0)
@example(run=60.0, share=0.5, angle=30.0, aside=0.5, turn=1e-4, distance=5.0)
@example(run=60.0, share=0.5, angle=30.0, aside=0.5, turn=179.99994, distance=5.0)
@example(run=60.0, share=0.5, angle=30.0, aside=0.5, turn=0.003, distance=5.0)
@given(
    run=st.floats(60, 1500),
    share=st.floats(0.05, 0.95),
    angle=st.floats(30, 90),
    aside=st.floats(-0.99, 0.99),
    turn=st.floats(0, 360),
    distance=st.floats(5, 150),
)
def test_any_shape(
    run: float, share: float, angle: float, aside: float, turn: float, distance: float
) -> None:
    branch = run * share
    crossing = Crossing(run, branch, angle, aside * (run - branch))
    height = crossing.place_on_branch(turn, distance)
    assert height - crossing.height(turn) >= distance * (1 - 1e-6)
    assert crossing.from_weld_on_branch(turn, height) == pytest.approx(distance, rel=1e-5)
    try:
        place = crossing.place_on_run(turn, distance)
    except NotCovered:
        return
    assert crossing.from_weld_on_run(place) == pytest.approx(distance, rel=1e-5)
    apart = (crossing.turn_of(place) - turn + 180) % 360 - 180
    assert apart == pytest.approx(0, abs=1e-3)


def test_a_branch_flush_with_the_side_of_a_vessel() -> None:
    # Offset so that it is tangent: R = 500, r = 100, e = 400; at turn 90 the weld lies at y = R.
    crossing = Crossing(500.0, 100.0, 90.0, 400.0)
    assert crossing.height(90) == pytest.approx(0, abs=1e-6)
    assert crossing.on_run(90).round == pytest.approx(500 * pi / 2)
    assert crossing.height(270) == pytest.approx(sqrt(500**2 - 300**2))


def test_what_cannot_be() -> None:
    with pytest.raises(NotCovered):
        Crossing(100.0, 80.0, 90.0, 30.0)
    with pytest.raises(NotCovered):
        Crossing(100.0, 80.0, 10.0)
    with pytest.raises(ValueError):
        Crossing(100.0, -1.0)
    with pytest.raises(NotCovered):
        Crossing(100.0, 60.0).place_on_run(90.0, 400.0)


@pytest.mark.parametrize("shape", SHAPES)
def test_edges_of_bands(shape: tuple[float, float, float, float]) -> None:
    crossing = Crossing(*shape)
    run, branch = crossing.edge_on_run(60.0), crossing.edge_on_branch(60.0)
    assert len(run) > 100 and len(branch) > 100
    assert [crossing.from_weld_on_run(p) for p in run] == pytest.approx([60.0] * len(run), rel=6e-3)
    lengths = [crossing.from_weld_on_branch(*p) for p in branch]
    assert lengths == pytest.approx([60.0] * len(branch), rel=6e-3)
    assert all(height > crossing.height(turn) for turn, height in branch)
