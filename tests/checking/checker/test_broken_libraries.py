"""A broken library is told at the `use` that brings it in."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.base.text import Source
from hts.checking.checker.run import check_spec
from hts.language.model import Loader, Spec

_GOOD = "spec 1\n"
_BROKEN = 'spec 1\nmaterial steel { grade "A106-B" colour red }\n'


@pytest.mark.parametrize(
    ("files", "at"),
    [
        # Two files whose names end alike.
        ({"steel.hts": _GOOD, "stainless-steel.hts": _BROKEN}, "stainless-steel.hts"),
        ({"a/steel.hts": _GOOD, "b/steel.hts": _BROKEN}, "b/steel.hts"),
        # One that is used by a library.
        (
            {"a.hts": _GOOD, "b.hts": 'spec 1\nuse "c/steel.hts"\n', "c/steel.hts": _BROKEN},
            "b.hts",
        ),
    ],
)
def test_the_use_is_the_one_that_names_it(tmp_path: Path, files: dict[str, str], at: str) -> None:
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, "utf-8")
    used = [name for name in files if not name.startswith("c/")]
    text = "spec 1\n" + "".join(f'use "{name}"\n' for name in used)
    source = Source(text, "job.hts", str(tmp_path / "job.hts"))
    found = [
        f for f in check_spec(Spec(source, Loader(str(tmp_path)))) if "of its own" in f.message
    ]
    assert [finding.at.span.text for finding in found] == [f'"{at}"']
