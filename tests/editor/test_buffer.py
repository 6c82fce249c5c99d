"""Lines and columns as editors count them."""

from __future__ import annotations

import random

import pytest

from hts.editor.buffer import Buffer, Lines, path_of, uri_of
from tests.rows import each_row

#: The first plane, beyond it, two bytes, three bytes; line ends of all kinds; no line end of the
#: protocol, though Python knows it as one (U+2028).
LETTERS = ["a", "é", "–", "\U0001f525", "\r\n", "\n", "\r", "\u2028", " ",
           # The last and the first letters of each length.
           "\x7f", "\x80", "\u07ff", "\u0800", "\uffff", "\U00010000"]  # fmt: skip


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "utf-32"])
def test_columns_are_units_of_the_encoding(encoding: str) -> None:
    """Against the codecs of Python: a column is the length of what stands before, encoded."""
    size = {"utf-8": 1, "utf-16": 2, "utf-32": 4}[encoding]
    codec = {"utf-8": "utf-8", "utf-16": "utf-16-le", "utf-32": "utf-32-le"}[encoding]
    chance = random.Random(3)
    for _ in range(40):
        text = "".join(chance.choices(LETTERS, k=60))
        lines = Lines(text, encoding)
        for offset in range(len(text) + 1):
            if text[offset - 1 : offset + 1] == "\r\n":
                continue
            line, column = lines.position(offset)
            before = text[lines.starts[line] : offset]
            assert column == len(before.encode(codec)) // size
            assert (
                line == len(text[:offset].replace("\r\n", "\n").replace("\r", "\n").split("\n")) - 1
            )
            assert lines.offset(line, column) == offset
        assert lines.offset(10_000, 0) == len(text)


def test_a_byte_order_mark_counts_for_the_editor_alone() -> None:
    buffer = Buffer("untitled:x", "\ufeffspec 1\n", 1, "utf-16")
    assert buffer.text == "spec 1\n"
    assert buffer.position(0) == (0, 1)
    assert buffer.offset(0, 1) == buffer.offset(0, 0) == 0
    buffer.change("2", (0, 6), (0, 7))
    assert buffer.text == "spec 2\n"


@each_row(
    ("uri", "path"),
    [
        ("file:///c%3A/jobs/a%20b.hts", "C:/jobs/a b.hts"),
        ("file:///C:/jobs/a.hts", "C:/jobs/a.hts"),
        ("file:///c:/jobs/a.hts", "C:/jobs/a.hts"),
        ("file:///jobs/a%23b.hts", "/jobs/a#b.hts"),
        ("file://server/share/a.hts", "//server/share/a.hts"),
        ("untitled:Untitled-1", None),
        ("git:/jobs/a.hts?ref", None),
    ],
)
def test_addresses_of_files(uri: str, path: str | None) -> None:
    assert path_of(uri) == path


def test_a_path_becomes_an_address_and_back() -> None:
    for path in ("/jobs/a b#c.hts", "/jobs/ä.hts"):
        assert path_of(uri_of(path)) == path
    assert uri_of("C:\\jobs\\a b.hts") == "file:///C:/jobs/a%20b.hts"


def test_a_text_larger_than_any_specification_is_not_read() -> None:
    buffer = Buffer("untitled:x", "spec 1\n" * 800_000, 1, "utf-16")
    assert buffer.too_large
    assert buffer.placed.outline.lines == []
