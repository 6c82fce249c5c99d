"""Offsets, lines and columns."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.text import Source


@given(st.text(alphabet="ab\n\r\té😀", max_size=60), st.integers(0, 60))
def test_a_position_is_that_counted_by_hand(text: str, offset: int) -> None:
    offset = min(offset, len(text))
    before = text[:offset].split("\n")
    source = Source(text, "text.hts")
    assert source.position(offset) == (len(before), len(before[-1]) + 1)
    assert source.column(offset) == len(before[-1]) + 1


@given(st.text(alphabet="ab\né", max_size=60))
def test_lines_are_those_of_the_text(text: str) -> None:
    source = Source(text, "text.hts")
    lines = text.split("\n")
    assert [source.line(number) for number in range(1, len(lines) + 1)] == lines


def test_line_ends_are_no_part_of_a_line() -> None:
    source = Source("a\r\nb", "text.hts")
    assert [source.line(1), source.line(2)] == ["a", "b"]


@pytest.mark.parametrize(("offset", "place"), [(-5, (1, 1)), (99, (2, 2))])
def test_offsets_outside_count_as_the_ends(offset: int, place: tuple[int, int]) -> None:
    assert Source("a\nb", "text.hts").position(offset) == place


def test_a_span_knows_its_text() -> None:
    assert Source("wall 25 mm", "text.hts").span(5, 10).text == "25 mm"
