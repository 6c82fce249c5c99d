"""Ways to write over what a recorder wrote, each told by its name: made by hand, arithmetic."""

from __future__ import annotations

import numpy as np

from hts.record.faults import find
from hts.record.faults.fault_kinds import EDITED, FILLED_IN, REPEATED, WRONG_SCALE
from hts.record.judging import MET, judge
from hts.record.record import Floats, Series
from tests.record.faults.runs import record, stress_relief, times
from tests.record.faults.test_told import Run, Way, _all, _from, _one, _sound
from tests.rows import each_row


def _typed_over(h: Floats, v: Floats) -> Floats:
    typed = 612 + np.abs(np.random.default_rng(5).normal(0.0, 2.5, v.size))
    return np.where((h > 4.8) & (h < 5.6), typed, v)


def _kept_up(h: Floats, v: Floats) -> Floats:
    """Too low in a part of the hold, and there no less than one figure but for its noise."""
    noise = np.random.default_rng(5).normal(0.0, 0.25, v.size)
    low = v - 9 * np.clip(np.minimum(h - 4.4, 6.4 - h) / 0.1, 0, 1)
    return np.where((h > 4.8) & (h < 6.2), 609 + noise, low)


def _an_hour_before(run: Run, at: Floats) -> Run:
    """In place of most of an hour of the hold stand rows from the one before, up to 1 K off."""
    random = np.random.default_rng(7)
    return _all(
        lambda h, v: (
            np.where((h > 5.5) & (h < 6.2), np.roll(v, 60), v)
            + np.where((h > 5.5) & (h < 6.2), random.integers(-1, 2, v.size), 0)
        )
    )(run, at)


def _by_column(run: Run, at: Floats) -> Run:
    """The same rows, another amount added to each column and every third reading a digit more."""
    rows = (at / 3600 > 5.2) & (at / 3600 < 6.3)
    return {
        tag: np.round(
            np.where(rows, np.roll(v, 60) + 3 + number / 2 + 0.1 * (np.arange(v.size) % 3 == 0), v),
            1,
        )
        for number, (tag, v) in enumerate(run.items())
    }


def _every_ten_minutes(run: Run, at: Floats) -> Run:
    """Of readings ten minutes apart, lines between."""
    return {
        tag: np.round(np.interp(at, at[::10], (v + 3 * np.sin(at / 1700))[::10]), 1)
        for tag, v in run.items()
    }


#: Each way, the kind of what is told of it and whose it is, "" for the record as a whole.
WRITTEN_OVER: dict[str, tuple[Way, str, str]] = {
    "rows again, up to 1 K off": (_an_hour_before, REPEATED.name, ""),
    "rows again, changed by column": (_by_column, REPEATED.name, ""),
    "rows between worked out": (_every_ten_minutes, FILLED_IN.name, ""),
    "the decimal mark lost": (
        _all(_from(2.0, lambda v: 10 * v, 2.5)),
        WRONG_SCALE.name,
        "",
    ),
    "the decimal mark lost in the hold": (
        _all(_from(5.0, lambda v: 10 * v, 5.5)),
        WRONG_SCALE.name,
        "",
    ),
    "kept from falling": (_one("T3", _kept_up), EDITED.name, "T3"),
    "typed over": (_one("T3", _typed_over), EDITED.name, "T3"),
}


@each_row("way", WRITTEN_OVER)
def test_what_was_written_over_is_told(way: str) -> None:
    change, kind, tag = WRITTEN_OVER[way]
    found = find(record(change(_sound(60.0), times(60.0)), 60.0), stress_relief())
    assert [(one.kind, one.tag) for one in found] == [(kind, tag)]


@each_row(
    ("column", "off", "told"),
    [
        ("T2 raw", -20.0, True), ("T2 (uncorrected)", 20.0, True), ("t2_raw", 20.0, True),
        # A correction of the wire is smaller; of another tag, and a set point, nothing is said.
        ("T2 raw", 1.5, False), ("T9 raw", 20.0, False), ("T2 SP", 20.0, False),
    ],
)  # fmt: skip
def test_a_second_column_of_one_thermocouple(column: str, off: float, told: bool) -> None:
    made = record(_sound(60.0), 60.0)
    raw = made.series["T2"]
    other = Series(column, raw.values + off, raw.status, column, "degC")
    made = made._replace(unmapped={column: other})
    found = find(made, stress_relief())
    assert [(one.kind, one.tag) for one in found] == [(EDITED.name, "T2")] * told
    assert not told or judge(made, stress_relief(), found).overall != MET
