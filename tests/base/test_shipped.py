"""References and examples are found in a working copy and where the package was installed."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

import hts
from hts.base.provenance import Origin
from hts.base.shipped import shipped


def test_both_places(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    package = tmp_path / "hts"
    (package / "examples").mkdir(parents=True)
    (tmp_path / "specs").mkdir()
    for place in (package / "examples" / "a.hts", tmp_path / "specs" / "b.hts"):
        place.write_text("")
    monkeypatch.setattr(hts, "__file__", str(package / "__init__.py"))
    assert shipped("examples", "a.hts") == str(package / "examples" / "a.hts")
    assert shipped("examples", "b.hts") == str(tmp_path / "specs" / "b.hts")
    assert shipped("examples", "c.hts") is None
    assert shipped("examples") == str(package / "examples")
    assert shipped("grammar") is None


def test_what_this_copy_has() -> None:
    for folder, name in (("grammar", "LANGUAGE.md"), ("examples", "p22-header.hts")):
        path = shipped(folder, name)
        assert path is not None
        assert os.path.getsize(path) > 1000


def test_where_a_figure_comes_from() -> None:
    assert str(Origin("ASME B31.3", "331.1", "2016", "published", "high")) == (
        "ASME B31.3, 331.1, 2016 [published, high]"
    )
    assert str(Origin("a table", "", "", "memory", "low")) == "a table [memory, low]"
