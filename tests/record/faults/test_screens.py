"""What looks at all chains together passes over many before they are looked at in full: nothing is
lost by that. The same records are looked at with every such screen open, and as much is found."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hts.record.faults import (
    Fault,
    agreement,
    changed_over,
    copied_part,
    copies,
    drawn_in,
    exchanged,
    find,
    heater_output,
    levels,
    matrix,
    misreading,
    put_in_again,
    signatures,
    still,
    whole_record,
    worked_out,
)
from hts.record.faults.digits import last_digit, last_digits
from hts.record.faults.matrix import Matrix, Middles, medians, middle
from hts.record.record import Floats, Record
from tests.record.faults.runs import readings, record, stress_relief, times
from tests.record.faults.test_told import WAYS
from tests.record.faults.test_written_over import WRITTEN_OVER
from tests.rows import each_row

#: Ways a record goes wrong, by their names.
EVERY_WAY = WAYS | {way: change for way, (change, _, _) in WRITTEN_OVER.items()}


def _open(screens: pytest.MonkeyPatch) -> None:
    """Lets everything through every screen."""

    def opened(room: Any, name: str, instead: Any) -> None:
        assert hasattr(room, name)
        screens.setattr(room, name, instead)

    opened(heater_output, "_may_go_with_heat", lambda signals, looked_at: looked_at)
    opened(signatures, "_best_moments", lambda look, moments: moments)
    opened(levels, "_may_have_lost", lambda signals, chains, air: chains)
    opened(changed_over, "_may_be_apart", lambda signals, pairs, spares: pairs)
    opened(exchanged, "_hardly_with_their_own", lambda together, chains: range(len(chains)))
    opened(agreement, "ALWAYS_ALLOWED", -1.0)
    opened(misreading, "ALWAYS_ALLOWED", -1.0)
    opened(whole_record, "_all_within", lambda *_: False)
    opened(put_in_again, "_may_come_again", lambda numbers: True)
    opened(copied_part, "_at_most", lambda signals, first, last: np.full(len(first), np.inf))
    opened(Matrix, "largest_steps", property(lambda self: np.full(len(self.values), np.inf)))
    opened(matrix, "medians_as_far", medians)
    opened(drawn_in, "_may_run_straight", lambda signals, chains: list(range(len(chains))))
    opened(worked_out, "_may_be_explained", lambda alike: True)
    opened(still, "_may_repeat", lambda signals: np.ones(len(signals.matrix.values), dtype=bool))
    opened(
        copies,
        "_hardly_unlike",
        lambda steps, most: np.argwhere(np.triu(np.ones((len(steps),) * 2), 1)).tolist(),
    )
    opened(
        copies,
        "_turns",
        lambda signals, chains, enough: np.array([copies._turned(c.values) for c in chains]),
    )


def _all_open(its: Record) -> tuple[Fault, ...]:
    with pytest.MonkeyPatch.context() as screens:
        _open(screens)
        return find(its, stress_relief())


def made(
    way: str, seed: int, noise: float, digit: float, interval: float, blanks: list[int]
) -> Record:
    """With two spares, as it went one way; blanks are rows of one thermocouple."""
    run = readings(interval, noise, digit, seed)
    random = np.random.default_rng(seed + 1)
    for spare, of in (("T1S", "T1"), ("T2S", "T2")):
        off = run[of] + random.normal(0.0, noise, run[of].size) + random.normal(0.0, 1.0)
        run[spare] = np.round(off / digit) * digit
    run = EVERY_WAY[way](run, times(interval))
    rows = [row for row in blanks if row < len(run["T3"])]
    return record(run, interval, blanks={"T3": rows} if rows else None)


@settings(max_examples=60)
@given(
    way=st.sampled_from(sorted(EVERY_WAY)),
    seed=st.integers(0, 10_000),
    noise=st.sampled_from([0.0, 0.05, 0.3, 1.0, 3.0]),
    digit=st.sampled_from([0.01, 0.1, 1.0]),
    interval=st.sampled_from([60.0, 120.0]),
    blanks=st.lists(st.integers(0, 400), max_size=3),
)
def test_nothing_is_lost_by_a_screen(
    way: str, seed: int, noise: float, digit: float, interval: float, blanks: list[int]
) -> None:
    its = made(way, seed, noise, digit, interval, blanks)
    assert find(its, stress_relief()) == _all_open(its)


@each_row("way", ["at a heater", "a copy", "comes loose", "rows again", "drift up"])
def test_a_screen_that_shuts_is_noticed(way: str) -> None:
    """The comparison means nothing where the open screens find nothing."""
    assert _all_open(made(way, 3, 0.3, 0.1, 60.0, []))


_COURSES = st.integers(2, 9).flatmap(
    lambda count: st.lists(
        st.lists(st.sampled_from([0.0, 1.0, 2.5, np.nan, 7.0]), min_size=count, max_size=count),
        min_size=1,
        max_size=6,
    )
)


@given(_COURSES)
def test_medians_of_all_but_one(rows: list[list[float]]) -> None:
    courses = np.array(rows).T
    others = Middles(courses).without_each
    for at in range(len(courses)):
        np.testing.assert_array_equal(others[at], middle(np.delete(courses, at, axis=0)))


@given(
    digit=st.sampled_from([0.001, 0.01, 0.05, 0.1, 0.5, 1.0, 5 / 9]),
    counts=st.lists(
        st.lists(st.integers(-2000, 18000), min_size=70, max_size=70), min_size=1, max_size=4
    ),
    off=st.sampled_from([0.0, 0.03, 273.15]),
    blank=st.booleans(),
)
def test_last_digits_of_all(digit: float, counts: list[list[int]], off: float, blank: bool) -> None:
    values: Floats = np.array(counts) * digit + off
    if blank:
        values[0, 5] = np.nan
    assert last_digits(values).tolist() == [last_digit(row) for row in values]
