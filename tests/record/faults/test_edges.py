"""Edges of what is looked for, worked by hand on a few readings. Where no source is named the
figure is practice of ours."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from hts.record.faults import agreement, filled_in, find, whole_record
from hts.record.faults.signals import Signals
from tests.record.faults.runs import readings, record, times
from tests.rows import each_row


def lines(*bends: tuple[int, float]) -> np.ndarray:
    """A column in tenths: from each row on so much more with each row."""
    rows = np.arange(50.0)
    steps = np.zeros(50)
    for row, step in bends:
        steps[row:] = step
    return np.round(500.0 + np.concatenate(([0.0], np.cumsum(steps)[:-1])) + 0 * rows, 1)


@each_row(
    ("seconds", "expected"),
    [
        # Two lines with a corner between, each as long as it goes; at least five minutes long.
        (60.0, [(5, 20), (20, 34)]),
        (30.0, [(5, 20), (20, 34)]),
        (20.0, [(5, 20)]),
        (19.0, []),
    ],
)
def test_straight_lines(seconds: float, expected: list[tuple[int, int]]) -> None:
    values = np.array([lines((0, 1.0), (20, -0.5)), lines((0, -0.7), (20, 0.3))])
    found = filled_in._lines(values, np.arange(50) * seconds, np.array([0.1, 0.1]), 5, 34)
    assert list(found) == expected


def test_fewer_than_eight_steps_are_no_line() -> None:
    values, at = np.array([lines((0, 1.0)), lines((0, -0.7))]), np.arange(50) * 60.0
    digits = np.array([0.1, 0.1])
    assert list(filled_in._lines(values, at, digits, 5, 12)) == []
    assert list(filled_in._lines(values, at, digits, 5, 13)) == [(5, 13)]
    # A tenth off the line from end to end is rounding; more is a reading.
    for off, expected in ((0.1, [(5, 25)]), (0.2, [(5, 14)])):
        bumped = values.copy()
        bumped[:, 15] += off
        assert list(filled_in._lines(bumped, at, digits, 5, 25))[:1] == expected


@pytest.mark.parametrize(("columns", "told"), [(("T1", "T2"), True), (("T1",), False)])
def test_two_columns_with_noise_tell_what_was_filled_in(
    columns: tuple[str, ...], told: bool
) -> None:
    hours = times(30.0) / 3600
    known = (hours <= 2) | (hours >= 2.5)
    run = {
        tag: np.round(np.interp(hours, hours[known], values[known]), 1)
        for tag, values in readings(30.0).items()
        if tag in columns
    }
    # One in coarse digits shows no noise, and tells nothing.
    run["T9"] = np.round(readings(30.0)["T3"])
    assert ("filled-in" in {one.kind for one in find(record(run))}) == told


@pytest.mark.parametrize(
    ("celsius", "apart"),
    [
        # Type K class 2: 2.5 K or 0.75 % (IEC 60584-1:2013, table 12); extension cable class 2
        # 2.5 K (IEC 60584-3:2021); a recorder of 1.5 K. Rectangular (JCGM 100:2008, 4.3.7): twice
        # the root of two times the sum of squares over three, and 5 K between places.
        # sqrt(2.5^2 + 2.5^2 + 1.5^2) = 3.8406, over sqrt 3 2.2174; times 2 sqrt 2 6.2717.
        (20.0, 11.2717),
        # 4.5 K at 600 degC: 5.3619, 3.0957, 8.7560.
        (600.0, 13.7560),
    ],
)
def test_what_two_sound_chains_may_differ_by(celsius: float, apart: float) -> None:
    assert agreement.furthest_apart(np.array([celsius]))[0] == pytest.approx(apart, abs=1e-3)


@each_row(
    ("one", "other", "said"),
    [
        # One is off the others by less than half of what the other is.
        (520.0, 509.9, "; the others read as B"),
        (509.9, 520.0, "; the others read as A"),
        (520.0, 510.0, ""),
        (520.0, 489.0, ""),
    ],
)
def test_which_of_two_reads_as_the_others(one: float, other: float, said: str) -> None:
    def chain(tag: str, at: float) -> Any:
        return SimpleNamespace(tag=tag, values=np.full(4, at), required=True)

    a, b = chain("A", one), chain("B", other)
    peers = [chain(tag, 500.0) for tag in ("C", "D", "E")]
    signals: Any = SimpleNamespace(peers=lambda tag: [a, *peers], coarse=np.arange(4))
    signals.peers = lambda tag: [p for p in (a, b, *peers) if p.tag != tag]
    assert agreement._sides(signals, a, b) == said
    few: Any = SimpleNamespace(peers=lambda tag: peers[:2], coarse=np.arange(4))
    assert agreement._sides(few, a, b) == ""


@each_row(
    ("blank", "apart", "cold"),
    [(0, 0.0, 20.0), (300, 0.0, 20.0), (330, 0.0, None), (0, 15.9, 20.0), (0, 16.1, None)],
)
def test_what_a_record_begins_with(blank: int, apart: float, cold: float | None) -> None:
    """Readings within five minutes; the middle half of them within 8 K, which is half of what five
    that stand evenly are `apart`."""
    at = np.arange(0.0, 3600.0, 30.0)
    run = {f"T{n}": np.full(at.size, 20.0 + apart * (n - 2) / 4) for n in range(5)}
    rows = list(range(blank // 30))
    made = record(run, 30.0, at, blanks=dict.fromkeys(run, rows))
    found = whole_record._first(Signals(made, None))
    assert (None if np.isnan(found) else found) == cold


@each_row(("step", "told"), [(3.9, False), (4.1, True)])
@each_row(("others", "most"), [(0, True), (2, True), (3, False)])
def test_all_step_at_once(step: float, told: bool, others: int, most: bool) -> None:
    """4 K from one row to the next, and eight of ten that do so alike, within 3 K."""
    at = np.arange(0.0, 7200.0, 30.0)
    run = {}
    for n in range(10):
        by = 0.0 if n < others else step
        run[f"T{n}"] = np.round(200 + at / 60 * 2 + n + np.where(at >= 3600, by, 0.0), 2)
    found = whole_record.cold_junction(Signals(record(run, 30.0, at), None))
    assert bool(found) == (told and most)
    if found:
        assert found[0].start == 3600.0 and "up at once" in found[0].evidence
