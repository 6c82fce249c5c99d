"""Compiled loops against the arrays they stand for: the same to the last bit."""

import sys
from collections.abc import Iterator

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hts.record.judging import compiled
from hts.record.judging.corners import _came, corners_of_all
from hts.record.judging.fits import Part, Traces
from hts.record.judging.line import Line

SEEDS = st.integers(0, 2**32 - 1)
HAS_NUMBA = pytest.mark.skipif(
    compiled._started() is None, reason="the extra `fast` is not installed"
)


@pytest.fixture(autouse=True)
def _as_before() -> Iterator[None]:
    yield
    compiled.expect(0)


def _parts(random: np.random.Generator) -> list[Part]:
    """Runs at different times, in whole digits and not, with noise and without, and some that
    stand still."""
    found = []
    for _ in range(int(random.integers(1, 4))):
        rows = int(random.integers(3, 900))
        times = np.cumsum(random.choice([1.0, 5.0, 30.0, 30.5], rows))
        slopes = np.repeat(random.choice([-2.0, 0.0, 0.0, 0.5, 3.0], 9), rows // 9 + 1)[:rows]
        noise = random.normal(0.0, 1.0, (int(random.integers(1, 5)), rows))
        values = 300 + np.cumsum(slopes) + noise * random.choice([0.0, 0.1, 1.0])
        digit = random.choice([0.0, 0.1, 1.0])
        found.append(Part(times, np.round(values / digit) * digit if digit else values))
    return found


def _drawn(parts: list[Part], logs: int) -> list[Line]:
    compiled.expect(logs)
    return [line for its in corners_of_all(parts) for line in its]


@HAS_NUMBA
@settings(deadline=None)
@given(SEEDS)
def test_lines_are_the_same_to_the_last_bit(seed: int) -> None:
    parts = _parts(np.random.default_rng(seed))
    for one, other in zip(_drawn(parts, 0), _drawn(parts, compiled._MANY), strict=True):
        for by_arrays, by_loops in zip(one, other, strict=True):
            np.testing.assert_array_equal(by_arrays, by_loops)


@HAS_NUMBA
@settings(deadline=None)
@given(SEEDS)
def test_each_loop_does_what_the_arrays_do(seed: int) -> None:
    random = np.random.default_rng(seed)
    parts = _parts(random)
    compiled.expect(0)
    by_arrays = Traces(parts)
    compiled.expect(compiled._MANY)
    by_loops, loops = Traces(parts), compiled.loops()
    assert loops is not None
    np.testing.assert_array_equal(by_arrays._sums, by_loops._sums)

    trace = np.repeat(np.arange(len(by_loops.rows)), 3)
    rows = by_loops.rows[trace]
    first, after = np.zeros_like(rows), rows
    low, high = (np.floor(random.uniform(0, 1, len(rows)) * rows).astype(np.intp) for _ in "ab")
    for step in (1, 3):
        compiled.expect(0)
        wanted = by_arrays.best_corners(trace, first, low, high, after, step)
        compiled.expect(compiled._MANY)
        found = by_loops.best_corners(trace, first, low, high, after, step)
        for one, other in zip(wanted, found, strict=True):
            np.testing.assert_array_equal(one, other)

    marks = np.linspace(0, by_loops.rows, int(random.integers(2, 40))).astype(np.intp).T
    at_marks = by_loops.sums(np.arange(len(marks)), marks)
    charges = random.uniform(1, 50, len(marks))
    for at_once in (12, 5):
        np.testing.assert_array_equal(
            _came(at_marks, charges), loops.search(at_marks, charges, at_once, 1.0)
        )


def test_they_are_started_for_many_logs_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(compiled, "_started", lambda: sys)
    for logs, wanted in ((0, None), (compiled._MANY - 1, None), (compiled._MANY, sys)):
        compiled.expect(logs)
        assert compiled.loops() is wanted


@pytest.mark.parametrize(
    "trouble", [ModuleNotFoundError("numba"), RuntimeError("cannot cache"), OSError("disk full")]
)
def test_where_they_cannot_be_started_arrays_do(
    monkeypatch: pytest.MonkeyPatch, recwarn: pytest.WarningsRecorder, trouble: Exception
) -> None:
    def fails(name: str) -> None:
        raise trouble

    monkeypatch.setattr(compiled, "import_module", fails)
    monkeypatch.setattr(compiled, "_started", compiled._started.__wrapped__)
    compiled.expect(compiled._MANY)
    assert compiled.loops() is None
    assert not recwarn.list
