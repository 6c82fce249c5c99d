"""A rule book of a repository's own, from the specification that names it to paper and diff.

Tern Island and its order TIO 7 are invented.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

import hts
from hts.checking.checker.check_paths import check_paths
from hts.job.comparison.compare import Comparison, compare
from hts.language.model import Loader, Spec
from tests.limits.test_book_file import ISLAND

SPECS = Path(__file__).parents[3] / "specs"
BOOKS = "governed by  asme-b31.3 edition 2018, local-heating"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """The carbon-steel job of Tern Island under an order of its own, too."""
    root = tmp_path / "island"
    for folder in (".git", "books"):
        (root / folder).mkdir(parents=True)
    shutil.copytree(SPECS / "library", root / "library")
    shutil.copy(SPECS / "hts.toml", root)
    text = (SPECS / "carbon-steel-butt.hts").read_text(encoding="utf-8")
    text = text.replace(BOOKS, f"{BOOKS}, island-law edition 2024")
    text = text.replace("\njob ", '\nbook "books/island-law.yaml"\n\njob ', 1)
    (root / "books" / "island-law.yaml").write_text(ISLAND, encoding="utf-8")
    (root / "job.hts").write_text(text, encoding="utf-8")
    return root / "job.hts"


def loaded(path: Path) -> Spec:
    loader = Loader(str(path.parent))
    return Spec(loader.read(str(path)), loader)


def rewritten(path: Path, old: str, new: str) -> None:
    book = path.parent / "books" / "island-law.yaml"
    text = book.read_text(encoding="utf-8")
    assert old in text
    book.write_text(text.replace(old, new), encoding="utf-8")


def named(path: Path) -> list[str]:
    return [finding.kind.name for finding in hts.check(loaded(path)) if finding.severity == "error"]


def test_it_governs_like_any_other(job: Path) -> None:
    # 1 h/in for each started inch: 29.1 mm is 1.15 in, so 2 h; the procedure asks for 72.75 min.
    made = hts.compile(loaded(job))
    hold = next(
        bound
        for sheet in made.joints
        for run in sheet.runs
        for bound in run.program.derived
        if bound.quantity == "hold time" and bound.direction == "minimum"
    )
    assert hold.value.to("h") == 2
    assert "TIO 7-2024 table 3" in hold.why.citation


def test_a_changed_row_outdates_the_paper_and_shows_in_the_diff(job: Path) -> None:
    before = loaded(job)
    paper = hts.compile(before).document.digest
    rewritten(job, "1 h/in * round_up(t, 1 in)", "2 h/in * round_up(t, 1 in)")
    after = loaded(job)
    assert hts.compile(after).document.digest != paper
    found: Comparison = compare(before, after)
    told = {(change.kind, change.action): change for change in found.changes}
    assert told["rows of a book", "changed"].verdict == "re-approve"
    assert "time-p1" in told["rows of a book", "changed"].new.text
    assert ("lower limit in force", "tightened") in told


def test_another_remark_in_the_file_is_no_change_of_the_book(job: Path) -> None:
    before = loaded(job)
    rewritten(job, "rows:", "# a remark\nrows:")
    assert not compare(before, loaded(job)).changes


def test_an_outcome_is_not_kept_when_the_book_changes(job: Path, tmp_path: Path) -> None:
    def run() -> list[str]:
        found = check_paths([str(job)], today="2026-11-20", cache=str(tmp_path / "kept"))
        return [finding.kind.name for finding in found.findings]

    clean = run()
    assert clean == run()
    rewritten(job, "is: thicker_wall", "is: thicker_wal")
    assert "unsound-book" in run()


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [
        ("is: thicker_wall", "is: thicker_wal", "unsound-book"),
        ("id: island-law", "id: asme-ix", "unsound-book"),
        ('"2024": {}', '"2025": {}', "unsound-book"),
        ("id: island-law", "id: other-law", "unknown-book"),
    ],
)
def test_what_cannot_be_used_fails(job: Path, old: str, new: str, kind: str) -> None:
    rewritten(job, old, new)
    assert kind in named(job)


def test_an_edition_it_lacks_is_told(job: Path) -> None:
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace("edition 2024", "edition 2023"), encoding="utf-8")
    assert "unknown-edition" in named(job)


@pytest.mark.parametrize("path", ["../out.yaml", "/etc/passwd", "books/none.yaml"])
def test_a_book_stays_inside_the_repository(job: Path, path: str) -> None:
    text = job.read_text(encoding="utf-8")
    job.write_text(text.replace("books/island-law.yaml", path), encoding="utf-8")
    assert "unusable-file" in named(job)
