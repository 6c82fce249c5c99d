"""What a text can use, and the address a word stands in: a few of each, by hand."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace as Stub
from typing import Any

from hts.editor.buffer import Buffer, uri_of
from hts.editor.names import _whole_address
from hts.editor.workspace import Workspace


def test_a_text_can_use_those_beside_it_and_not_itself(tmp_path: Path) -> None:
    """Those of its folder and below it first, then by how deep they lie and by name."""
    (tmp_path / "hts.toml").write_text("")
    for name in ("jobs/a.hts", "jobs/b.hts", "jobs/deep/c.hts", "library.hts", "more/d.hts"):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text("spec 1\n")
    workspace = Workspace([str(tmp_path)], "utf-16")
    own = Buffer(uri_of(str(tmp_path / "jobs" / "a.hts")), "spec 1\n", 1, "utf-16")
    files = ["b.hts", "deep/c.hts", "../library.hts", "../more/d.hts"]
    assert workspace.files_for(own) == files
    new = Buffer(uri_of(str(tmp_path / "jobs" / "new.hts")), "spec 1\n", 1, "utf-16")
    assert workspace.files_for(new) == ["a.hts", *files]


def test_the_address_a_word_stands_in() -> None:
    """All of the value, without blanks; the word alone where it has no value."""
    place: Any = Stub(word="T5", value_span=Stub(text="W12 / thermocouples / T5"))
    assert _whole_address(place) == "W12/thermocouples/T5"
    place.value_span = None
    assert _whole_address(place) == "T5"
