"""What says the same is no change, however it is written."""

from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hts.job.comparison import compare
from tests.job.comparison.texts import GOOD, converted, laid_out, reordered, spec, text_of

IDS = [path.stem for path in GOOD]


@pytest.mark.parametrize("path", GOOD, ids=IDS)
def test_the_same_text(path: Path) -> None:
    found = compare(spec(path), spec(path))
    assert (found.changes, found.representations) == ((), ())


@pytest.mark.parametrize("path", GOOD, ids=IDS)
def test_after_fmt(path: Path) -> None:
    disorderly = text_of(path).replace("  ", "   ").replace("\n\n", "\n\n\n")
    found = compare(spec(path, disorderly), spec(path, laid_out(disorderly)))
    assert found.changes == ()
    assert [each.what for each in found.representations] == ["layout"]


@pytest.mark.parametrize("path", GOOD, ids=IDS)
def test_every_quantity_in_another_unit(path: Path) -> None:
    text = converted(text_of(path))
    found = compare(spec(path), spec(path, text))
    assert found.changes == ()
    count = sum(each.what == "unit or spelling" for each in found.representations)
    # The preheat has few quantities; a library of joints none but in those that use it.
    assert count >= 4 or path.stem == "materials"


@pytest.mark.parametrize("path", GOOD, ids=IDS)
@settings(max_examples=5)
@given(seed=st.integers(0, 10**6))
def test_in_another_order(path: Path, seed: int) -> None:
    found = compare(spec(path), spec(path, reordered(text_of(path), Random(seed))))
    assert found.changes == ()
    assert {each.what for each in found.representations} <= {"order", "comments", "layout"}


@pytest.mark.parametrize("path", GOOD, ids=IDS)
def test_all_at_once(path: Path) -> None:
    text = laid_out(converted(reordered(text_of(path), Random(1))))
    assert compare(spec(path), spec(path, text)).changes == ()
    assert compare(spec(path, text), spec(path)).changes == ()


def test_comments_are_told_apart() -> None:
    path = GOOD[0]
    found = compare(spec(path), spec(path, text_of(path) + "# another comment\n"))
    assert found.changes == ()
    assert [(e.what, e.old != e.new) for e in found.representations] == [("comments", True)]
