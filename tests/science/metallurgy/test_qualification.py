"""Time at temperature against the qualification test piece, and holds in pieces."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.science.metallurgy.qualification import (
    aggregate,
    ledger,
    longest_production,
    needed_qualification,
)
from tests.rows import each_row

HOURS = st.fractions(0, 100, max_denominator=60)


def test_longest_production():
    # ASME IX QW-407.2, interpretation IX-07-06 (second-hand): a test of 10 h covers 12.5 h.
    assert longest_production(10) == Fraction(25, 2)
    assert needed_qualification(Fraction(25, 2)) == 10


def test_ledger():
    exactly = ledger(8, [4, Fraction(11, 2), Fraction(1, 2)])
    assert (exactly.allowed, exactly.used, exactly.left) == (10, 10, 0)
    assert exactly.covered
    over = ledger(8, [4, 5, 2])
    assert not over.covered
    assert over.left == -1


@each_row(
    ("pieces", "enough"),
    # Codes ask for 60 min at or above the minimum, not in one piece (from memory).
    [((40, 30), True), ((40, 15), False), ((60,), True), ((), False)],
)
def test_hold_in_pieces(pieces, enough):
    assert (aggregate(pieces) >= 60) is enough


@given(st.lists(HOURS, max_size=6), HOURS)
def test_covered_is_the_eighty_percent_rule(treatments, qualified):
    found = ledger(qualified, treatments)
    assert found.covered == (qualified >= Fraction(4, 5) * sum(treatments))
    assert found.covered == (needed_qualification(sum(treatments)) <= qualified)


def test_negative_time_is_refused():
    with pytest.raises(ValueError, match="negative"):
        ledger(8, [4, -1])
