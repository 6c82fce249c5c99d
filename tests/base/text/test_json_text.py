"""What is written as JSON can be shown on a screen, and is the same data."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import hts
from hts.base.text.json_text import json_text

#: What writes JSON by itself, and why: files for programs alone, ASCII, or one value in TOML.
ALONE = {
    "base/text/json_text.py": "the one place",
    "cli/config.py": "a value in TOML, put through `printable`",
    "job/comparison/approvals.py": "a file that people edit",
    "paper/sheet/typeset.py": "for the typesetter",
}


@given(st.text())
def test_shown_as_it_is_and_read_as_it_was(text: str) -> None:
    made = json_text({"is": text})
    assert made.replace("\n", "").isprintable()
    made.encode("utf-8")
    assert json.loads(made) == {"is": text}


def test_line_separators_and_stray_bytes_are_escaped() -> None:
    # RFC 8259, section 7: any character may be written as an escape.
    assert json_text(["a\u2028b\x7f\udc80"], indent=None) == '["a\\u2028b\\u007f\\udc80"]\n'


def test_what_is_no_number_is_refused_on_request() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        json_text(float("nan"), finite=True)


def test_nothing_else_writes_letters_as_they_are() -> None:
    root = Path(hts.__file__).parent
    found = {
        path.relative_to(root).as_posix()
        for path in root.rglob("*.py")
        if "ensure_ascii=False" in path.read_text("utf-8") and path.parts[-2] != "generate"
    }
    assert found == set(ALONE)
