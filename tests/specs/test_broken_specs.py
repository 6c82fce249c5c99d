"""Complete small jobs with one mistake each, and the finding that tells it.

The mistakes are those people make when they plan this work: common practice, no source. Beside
NAME.hts lies NAME.expected, one line for each finding: code, name, line:column, address.
"""

from __future__ import annotations

from pathlib import Path

from tests.rows import each_row
from tests.specs.found import SPECS, found

BROKEN = sorted((SPECS / "broken").glob("*.hts"))
#: A waiver that does not hold is told beside the finding it no longer covers.
TWO = {"waiver-expired", "waiver-of-safety-rule"}


def name(path: Path) -> str:
    return path.stem


def test_there_are_many_and_each_has_its_expectation() -> None:
    assert len(BROKEN) >= 45
    expected = {path.stem for path in (SPECS / "broken").glob("*.expected")}
    assert expected == {path.stem for path in BROKEN}


@each_row("path", BROKEN, ids=name)
def test_one_mistake_gives_one_finding_at_its_place(path: Path) -> None:
    lines = found(path)
    assert lines == path.with_suffix(".expected").read_text("utf-8").splitlines()
    assert len(lines) == (2 if path.stem in TWO else 1)


@each_row("path", BROKEN, ids=name)
def test_the_first_lines_tell_the_mistake_and_that_all_is_invented(path: Path) -> None:
    mistake, invented = path.read_text("utf-8").splitlines()[:2]
    assert mistake.startswith("# ")
    assert len(mistake) > 20
    assert invented.startswith("# Tern Island is an invented plant")
