"""The list from the cache: there at once, and never older than the texts."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import pytest

from hts.checking.rules.examples import changed
from hts.view import shelf as shelves
from hts.view.shelf import Shelf


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path / "cache"))
    made = tmp_path / "work"
    (made / ".git").mkdir(parents=True)
    for name in ("a", "b"):
        (made / f"{name}.hts").write_text(changed("butt", ()))
    return made


def names(folder: Path) -> list[str]:
    """The texts that have a row at the first look."""
    return sorted(one.name for one in Shelf(str(folder)).list(str) if one.row is not None)


def test_rows_are_there_at_the_next_start(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = Shelf(str(folder))
    assert names(folder) == []
    first.list(str)
    first.fill_now()
    # Nothing is checked again for it.
    monkeypatch.setattr(shelves, "Checked", lambda *_: pytest.fail("checked"))
    again = Shelf(str(folder)).list(str)
    assert [one.row for one in again] == [one.row for one in first.list(str)]
    assert all(one.row is not None and "no findings" in one.row.result for one in again)


def test_what_changed_is_checked_again(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = Shelf(str(folder))
    made.list(str)
    made.fill_now()
    assert names(folder) == ["a.hts", "b.hts"]
    (folder / "a.hts").write_text(changed("butt", ()) + "\n")
    assert names(folder) == ["b.hts"]
    # Other settings may judge otherwise.
    (folder / "hts.toml").write_text("")
    assert names(folder) == []
    (folder / "hts.toml").unlink()
    assert names(folder) == ["b.hts"]
    # Another day, and another commit.
    with monkeypatch.context() as later:
        later.setattr("hts.view.kept_rows.day_of", lambda _: "2099-01-01")
        assert names(folder) == []
    (folder / ".git/HEAD").write_text("ref: refs/heads/other\n")
    assert names(folder) == []


def test_what_another_wrote_counts_as_empty(folder: Path) -> None:
    made = Shelf(str(folder))
    made.list(str)
    made.fill_now()
    [kept] = (folder.parent / "cache").iterdir()
    head, text = kept.read_bytes().split(b"\n", 1)
    body = json.loads(text)
    for row in body["rows"].values():
        row["result"] = "<script>alert(1)</script>"
    kept.write_bytes(head + b"\n" + json.dumps(body).encode() + b"\n")
    assert names(folder) == []


def test_a_text_that_could_not_be_checked_is_tried_again(folder: Path) -> None:
    (folder / "a.hts").write_bytes(b"\xff\xfe")
    made = Shelf(str(folder))
    made.list(str)
    made.fill_now()
    assert names(folder) == ["b.hts"]


def test_papers_are_looked_at_anew(folder: Path) -> None:
    import hts
    from hts.job.outputs import files

    subprocess.run(["git", "init", "-q", str(folder)], check=True)
    made = Shelf(str(folder))
    made.list(str)
    made.fill_now()
    before = made.list_state()
    (folder / "out").mkdir()
    (folder / "out/job.json").write_bytes(
        files(hts.compile(hts.load(folder / "a.hts")))["job.json"]
    )
    assert made.list_state() != before
    assert {one.paper for one in made.list(str)} == {"● current"}
