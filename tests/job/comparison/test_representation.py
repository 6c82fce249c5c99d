"""What says the same is no change, however it is written."""

from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hts.job.comparison import Change, compare
from tests.job.comparison.texts import GOOD, converted, laid_out, reordered, spec, text_of
from tests.rows import each_row
from tests.sampling import whose_turn

#: Under books that print a pair of values for the two systems of units: a wall in inches stands
#: under the other one of the pair, so that what is in force changes, and nothing that is stated.
#: Of a controller that is said to be set in degC it is told that all else is in degF.
PAIRS = {"gas-line-nycrr", "turnaround-many", "equipment"}
#: The list of 120 welds takes long to compare.
MOST = [
    pytest.param(path, marks=[pytest.mark.long] * (path.stem == "turnaround-list")) for path in GOOD
]


def _name(path: Path) -> str:
    return path.stem


def stated(path: Path, changes: tuple[Change, ...]) -> tuple[Change, ...]:
    """The changes, without those of what is in force or told where the unit matters."""
    if path.stem not in PAIRS:
        return changes
    return tuple(c for c in changes if c.row.area not in ("limit", "check", "document"))


@each_row("path", GOOD, ids=_name)
def test_the_same_text(path: Path) -> None:
    found = compare(spec(path), spec(path))
    assert (found.changes, found.representations) == ((), ())


@pytest.mark.parametrize("path", whose_turn(MOST, 3), ids=_name)
def test_after_fmt(path: Path) -> None:
    disorderly = text_of(path).replace("  ", "   ").replace("\n\n", "\n\n\n")
    found = compare(spec(path, disorderly), spec(path, laid_out(disorderly)))
    assert found.changes == ()
    assert [each.what for each in found.representations] == ["layout"]


@pytest.mark.parametrize("path", whose_turn(MOST, 3), ids=_name)
def test_every_quantity_in_another_unit(path: Path) -> None:
    text = converted(text_of(path))
    found = compare(spec(path), spec(path, text))
    assert stated(path, found.changes) == ()
    count = sum(each.what == "unit or spelling" for each in found.representations)
    # The preheat has few quantities; a library of joints none but in those that use it.
    assert count >= 4 or path.stem == "materials"


@pytest.mark.parametrize("path", whose_turn(MOST, 3), ids=_name)
@settings(max_examples=2)
@given(seed=st.integers(0, 10**6))
def test_in_another_order(path: Path, seed: int) -> None:
    found = compare(spec(path), spec(path, reordered(text_of(path), Random(seed))))
    assert found.changes == ()
    assert {each.what for each in found.representations} <= {"order", "comments", "layout"}


@pytest.mark.parametrize("path", whose_turn(MOST, 3), ids=_name)
def test_all_at_once(path: Path) -> None:
    text = laid_out(converted(reordered(text_of(path), Random(1))))
    assert stated(path, compare(spec(path), spec(path, text)).changes) == ()
    assert stated(path, compare(spec(path, text), spec(path)).changes) == ()


def test_comments_are_told_apart() -> None:
    path = GOOD[0]
    found = compare(spec(path), spec(path, text_of(path) + "# another comment\n"))
    assert found.changes == ()
    assert [(e.what, e.old != e.new) for e in found.representations] == [("comments", True)]
