"""What is bundled in the package for VS Code comes with its licence."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from hts.generate.package import CannotBuild, _notices

INPUTS = [
    "client.js",
    "node_modules/@tern/wire/lib/main.js",
    "node_modules/@tern/wire/lib/other.js",
    # A library within a library is another one, put beside it here.
    "node_modules/@tern/wire/node_modules/quay/index.js",
]


def _library(folder: Path, name: str, licence: str | None) -> None:
    where = folder / "node_modules" / name
    where.mkdir(parents=True)
    about = {"version": "1.2.0", "license": "MIT"}
    (where / "package.json").write_text(json.dumps(about), "utf-8")
    if licence is not None:
        (where / "LICENSE").write_text(licence, "utf-8")


def test_each_library_once_with_its_licence(tmp_path: Path) -> None:
    _library(tmp_path, "@tern/wire", "Words of one.\n")
    _library(tmp_path, "quay", "Words of two.\n")
    _library(tmp_path, "unused", "Words of none.\n")
    head, *parts = _notices(str(tmp_path), INPUTS).split("\n" + "-" * 78 + "\n\n")
    assert "these libraries" in head
    assert parts == [
        "@tern/wire 1.2.0 (MIT)\n\nWords of one.\n",
        "quay 1.2.0 (MIT)\n\nWords of two.\n",
    ]


def test_a_library_without_its_licence_is_refused(tmp_path: Path) -> None:
    _library(tmp_path, "@tern/wire", None)
    with pytest.raises(CannotBuild, match="@tern/wire comes without its licence"):
        _notices(str(tmp_path), INPUTS)
