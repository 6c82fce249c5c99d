"""Stretches of time, worked by hand: what touches, what is cut, what lies just at an edge."""

from __future__ import annotations

import numpy as np
import pytest

from hts.record.judging.stretches import (
    below,
    between,
    beyond,
    inside,
    runs,
    total,
    touch,
    union,
    within,
    without,
)
from hts.record.judging.verdict import Stretch
from tests.rows import each_row

TIMES = np.array([0.0, 10.0, 20.0, 30.0])
S = Stretch


def at(values: list[float], low: float, high: float, gap: float = 10.0) -> list[tuple[float, ...]]:
    readings = np.array(values)
    found = inside(TIMES, readings, readings, low, high, gap)
    return [(pytest.approx(a, abs=1e-4), pytest.approx(b, abs=1e-4)) for a, b in found]


@each_row(
    ("values", "expected"),
    [
        ([0, 0, 0, 0], [(0, 30)]),  # just at the low end: inside
        ([10, 10, 10, 10], [(0, 30)]),  # just at the high end: inside
        ([-1, -1, -1, -1], []),
        ([11, 11, 11, 11], []),
        ([-5, 5, 5, 15], [(5, 25)]),  # in half way up from -5 to 5, out half way from 5 to 15
        ([15, 5, 5, -5], [(5, 25)]),  # the same on the way down
        ([-10, 20, 20, 20], [(10 / 3, 20 / 3)]),  # crossed between two readings
        ([20, -10, -10, -10], [(10 / 3, 20 / 3)]),
        ([5, -5, -5, 5], [(0, 5), (25, 30)]),
        ([5, np.nan, 5, 5], [(20, 30)]),  # nothing counts beside a blank
    ],
)
def test_inside(values: list[float], expected: list[tuple[float, float]]) -> None:
    assert at(values, 0.0, 10.0) == expected


def test_a_step_as_long_as_the_longest_gap_counts_and_a_longer_one_does_not() -> None:
    assert at([5, 5, 5, 5], 0.0, 10.0, gap=10.0) == [(0, 30)]
    assert at([5, 5, 5, 5], 0.0, 10.0, gap=9.9) == []
    assert at([5, 15, 15, 5], 0.0, 10.0, gap=9.9) == []


@each_row(
    ("values", "expected"),
    [
        ([10, 10, 10, 10], []),  # just at the limit: not beyond
        ([10, 10.1, 10.1, 10], [(0, 30)]),
        ([0, 20, 20, 0], [(5, 25)]),
        ([0, np.nan, 20, np.nan], [(20, 20)]),  # alone among blanks, for no known time
        ([20, np.nan, 20, 20], [(0, 0), (20, 30)]),
        ([20, 20, np.nan, 20], [(0, 10), (30, 30)]),
    ],
)
def test_beyond_and_below_are_mirrored(
    values: list[float], expected: list[tuple[float, float]]
) -> None:
    readings = np.array(values)
    for found in (beyond(TIMES, readings, 10.0, 10.0), below(TIMES, -readings, -10.0, 10.0)):
        assert [(pytest.approx(a, abs=1e-3), pytest.approx(b, abs=1e-3)) for a, b in found] \
            == expected  # fmt: skip


def test_within_keeps_what_touches_the_ends() -> None:
    several = [S(0, 10), S(10, 20), S(20, 30), S(30, 40)]
    assert within(several, 10, 30) == [S(10, 10), S(10, 20), S(20, 30), S(30, 30)]
    assert within(several, 12, 18) == [S(12, 18)]
    assert within(several, 41, 50) == []


@each_row(
    ("one", "taken", "left"),
    [
        (S(0, 10), [], [S(0, 10)]),
        (S(0, 10), [S(0, 10)], []),
        (S(0, 10), [S(2, 4), S(6, 8)], [S(0, 2), S(4, 6), S(8, 10)]),
        (S(0, 10), [S(-5, 4)], [S(4, 10)]),
        (S(0, 10), [S(4, 15)], [S(0, 4)]),
        (S(0, 10), [S(0, 4)], [S(4, 10)]),
        (S(0, 10), [S(4, 10)], [S(0, 4)]),
        (S(0, 10), [S(-5, -1), S(11, 12)], [S(0, 10)]),
        (S(0, 10), [S(-5, 0), S(10, 12)], [S(0, 10)]),  # cuts that only touch take nothing
        (S(5, 5), [S(0, 4)], [S(5, 5)]),
        (S(5, 5), [S(0, 5)], []),
        (S(5, 5), [S(5, 9)], []),
    ],
)
def test_without(one: Stretch, taken: list[Stretch], left: list[Stretch]) -> None:
    assert without([one], taken) == left


@each_row(
    ("other", "expected"),
    [(S(0, 9.9), False), (S(0, 10), True), (S(12, 13), True), (S(20, 30), True),
     (S(20.1, 30), False)],
)  # fmt: skip
def test_touch(other: Stretch, expected: bool) -> None:
    assert touch(S(10, 20), other) is touch(other, S(10, 20)) is expected


def test_union_between_and_total() -> None:
    # 0 to 10 holds 2 to 5 and touches 10 to 12; 12.5 to 13 is apart by half a second.
    parts = [S(12.5, 13), S(10, 12), S(0, 10), S(2, 5)]
    joined = union(parts)
    assert joined == [S(0, 12), S(12.5, 13)]
    assert between(joined) == [S(12, 12.5)]
    assert total(joined) == 12.5
    assert union([]) == between([S(0, 1)]) == [] and total([]) == 0


def test_runs() -> None:
    flags = np.array([True, False, False, True, True, False, True])
    assert runs(flags) == [(0, 0), (3, 4), (6, 6)]
    assert runs(np.array([False])) == []
