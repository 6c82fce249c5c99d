"""What is right passes without a word: no false alarm on other right work, or on the same written
otherwise."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.specs.found import SPECS, changed, checked
from tests.specs.variations import VARIATIONS, Variation

HERE = Path(__file__).parent
RIGHT = sorted((HERE / "right").glob("*.hts"))

#: Right work that has findings all the same, and why it still does.
STILL_TOLD: dict[str, str] = {}


def test_there_are_forty() -> None:
    assert len(VARIATIONS) + len(RIGHT) >= 40
    assert len({variation.name for variation in VARIATIONS}) == len(VARIATIONS)


@pytest.mark.parametrize("variation", VARIATIONS, ids=lambda v: v.name)
def test_a_right_variation_has_no_finding(variation: Variation) -> None:
    path = next(
        folder / f"{variation.job}.hts"
        for folder in (SPECS, HERE / "jobs")
        if (folder / f"{variation.job}.hts").exists()
    )
    text = changed(path.read_text("utf-8"), variation.changes)
    assert [str(finding.message) for finding in checked(path, text)] == []


@pytest.mark.parametrize("path", RIGHT, ids=lambda path: path.stem)
def test_right_work_has_no_finding(path: Path) -> None:
    found = [str(finding.message) for finding in checked(path, path.read_text("utf-8"))]
    if path.stem in STILL_TOLD:
        assert found, "told no more: take it off the list"
        pytest.xfail(STILL_TOLD[path.stem])
    assert found == []
