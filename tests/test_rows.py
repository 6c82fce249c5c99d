"""Rows of one test: none is passed over, and each that fails is told."""

from __future__ import annotations

import pytest

from tests.rows import each_row


def test_all_are_tried_and_those_that_fail_are_told() -> None:
    tried = []

    @each_row(("number", "word"), [(1, "a"), (2, "b"), pytest.param(3, "c", id="third")])
    @each_row("sign", "+-")
    def every(number: int, word: str, sign: str, shared: list[int]) -> None:
        shared.append(number)
        if number == 3:
            pytest.skip("what is left out would be missed by nobody")
        if (number, sign) == (2, "-"):
            with pytest.raises(ValueError):
                int("4")

    with pytest.raises(AssertionError) as failed:
        every(shared=tried)
    assert tried == [1, 1, 2, 2, 3, 3]
    told = str(failed.value)
    assert told.startswith("2 of 3 rows fail")
    assert [name in told for name in ("1, 'a'", "2, 'b'", "third")] == [False, True, True]
    assert "DID NOT RAISE" in told and "missed by nobody" in told


def test_rows_that_pass_are_no_failure() -> None:
    each_row("number", range(3), ids="abc")(lambda number: None)()


@pytest.mark.parametrize("cases", [[], [pytest.param(1, marks=pytest.mark.long)]])
def test_what_would_try_nothing_is_refused(cases: list[object]) -> None:
    with pytest.raises(AssertionError):
        each_row("number", cases)(lambda number: None)


def test_what_a_row_would_leave_to_the_next_is_refused() -> None:
    with pytest.raises(AssertionError):
        each_row("number", [1])(lambda number, tmp_path: None)
