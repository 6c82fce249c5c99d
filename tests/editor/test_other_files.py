"""Texts that use other texts: what is found there is told where they are named, and a change of
them, on the disk or in the editor, is seen at once."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.checking.configuration import ConfigurationError
from hts.editor.buffer import uri_of
from hts.editor.look import Looker, Wanted
from hts.editor.proof import edits_between
from hts.editor.workspace import Workspace

TODAY = "2026-11-20"
LIBRARY = 'spec 1\nmaterial m {\n  grade "A335 P22"\n}\n'
WRONG = LIBRARY.replace("grade", "grad")
TEXT = (
    'spec 1\nuse "first.hts"\nuse "second.hts"\n'
    "joint W1 {\n  kind girth butt\n  between m and m\n}\n"
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / ".git").mkdir()
    (tmp_path / "first.hts").write_text('spec 1\nmaterial n {\n  grade "A106-B"\n}\n')
    (tmp_path / "second.hts").write_text(LIBRARY)
    (tmp_path / "weld.hts").write_text(TEXT)
    return tmp_path


def looked(looker: Looker, folder: Path, opened: dict[str, str] | None = None) -> list[str]:
    """Where findings of the second library are told."""
    path = str(folder / "weld.hts")
    wanted = Wanted("weld.hts", TEXT, path, str(folder), opened or {}, False, "utf-16", TODAY)
    data, case = looker.look(wanted)
    assert case is not None, data
    return [
        TEXT[one["start"] : one["end"]]
        for one in data["findings"]
        if "second.hts" in str((one["message"], one["others"]))
    ]


def test_what_is_wrong_in_a_library_is_told_where_it_is_used(folder: Path) -> None:
    (folder / "second.hts").write_text(WRONG)
    found = looked(Looker(), folder)
    assert found and set(found) == {'"second.hts"'}


def test_a_change_of_a_library_is_seen(folder: Path) -> None:
    looker, path = Looker(), str(folder / "second.hts")
    assert looked(looker, folder) == []
    kept = looker._loaders[str(folder)]
    # Nothing changed, or another text that nobody uses: what was read is read no second time.
    assert looked(looker, folder) == []
    assert looked(looker, folder, {str(folder / "other.hts"): WRONG}) == []
    assert looker._loaders[str(folder)] is kept
    # Written in the editor, thrown away there, written to the disk.
    assert looked(looker, folder, {path: WRONG})
    assert looked(looker, folder, {path: WRONG})
    assert looked(looker, folder) == []
    Path(path).write_text(WRONG)
    os.utime(path, ns=(1, 1))
    assert looked(looker, folder)
    # Its own text is that of the request, whatever else is said to be open.
    assert looked(looker, folder, {str(folder / "weld.hts"): "spec 1\n"})


@pytest.mark.parametrize("saved", [True, False])
def test_the_files_a_text_uses_are_links(folder: Path, saved: bool) -> None:
    workspace = Workspace([str(folder)], "utf-16")
    uri = uri_of(str(folder / "weld.hts")) if saved else "untitled:1"
    buffer = workspace.open(uri, TEXT.replace("second", "missing"), 1)
    found = [(TEXT[start:end], path) for (start, end), path in workspace.links(buffer)]
    assert found == [('"first.hts"', str(folder / "first.hts"))]


@given(st.text("ab\n"), st.text("ab\n"))
def test_the_edit_between_two_texts_is_as_short_as_its_ends_allow(before: str, after: str) -> None:
    edit = edits_between(before, after)
    removed = before[edit.start : edit.end]
    assert before[: edit.start] + edit.text + before[edit.end :] == after
    if removed and edit.text:
        assert removed[0] != edit.text[0]
        assert removed[-1] != edit.text[-1]


def test_what_is_offered_keeps_to_the_settings_of_the_folder(folder: Path) -> None:
    text = TEXT.replace("kind", "knd")
    wanted = Wanted("weld.hts", text, None, str(folder), {}, False, "utf-16", TODAY)
    between = (0, len(text))
    unsaved = Looker().actions(wanted, between)
    assert unsaved
    saved = wanted._replace(path=str(folder / "weld.hts"))
    assert len(Looker().actions(saved, between)) == len(unsaved)
    (folder / "hts.toml").write_text("no = settings\n")
    assert Looker().actions(wanted, between) == unsaved
    with pytest.raises(ConfigurationError):
        Looker().actions(saved, between)
