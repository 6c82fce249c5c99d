"""Text of a specification is harmless in every file it goes into."""

import csv
import io
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.job.outputs.markdown import Page
from hts.job.outputs.text import csv_text, markdown_text, visible
from tests.rows import each_row


# Cells a spreadsheet takes for a formula begin so (OWASP, CSV injection).
@each_row(
    "text",
    [
        "=1+1",
        "+1+1",
        "-1+1",
        "@SUM(A1)",
        "\t=1",
        "\r=1",
        "=cmd|' /C calc'!A0",
        "\N{FULLWIDTH EQUALS SIGN}1",
        "\N{FULLWIDTH COMMERCIAL AT}x",
    ],
)
def test_formulas_are_text_in_csv(text: str) -> None:
    assert csv_text(text).startswith("'")


@each_row("text", ["-10", "705", "-0.5", "W12", "with flow", "'quoted'", ""])
def test_numbers_and_plain_text_stay(text: str) -> None:
    assert csv_text(text) == text


@given(st.text())
def test_no_cell_begins_like_a_formula(text: str) -> None:
    cell = csv_text(text)
    assert not cell.startswith(("=", "+", "@", "\t", "\r"))
    assert not cell.startswith("-") or re.fullmatch(r"-[0-9]+(\.[0-9]+)?", cell)
    out = io.StringIO()
    csv.writer(out).writerow([cell, "end"])
    assert next(csv.reader(io.StringIO(out.getvalue()))) == [cell, "end"]


def test_hidden_characters_are_shown_by_number() -> None:
    assert visible("a\N{RIGHT-TO-LEFT OVERRIDE}b\n\x1b[0m") == "a<U+202E>b<U+000A><U+001B>[0m"
    assert visible("ü 705 °C ½") == "ü 705 °C ½"
    assert markdown_text("\N{RIGHT-TO-LEFT OVERRIDE}") == "\\<U+202E\\>"


# CommonMark 0.31: a backslash before ASCII punctuation makes it literal. The autolinks are those
# of the GitHub Flavored Markdown specification, 6.9.
@each_row(
    ("text", "escaped"),
    [
        ("a | b", r"a \| b"),
        ("`code`", r"\`code\`"),
        ("<script>", r"\<script\>"),
        ("[x](y)", r"\[x\](y)"),
        ("**bold** _it_", r"\*\*bold\*\* \_it\_"),
        ("&amp;", r"\&amp;"),
        ("a\\", r"a\\"),
        ("# head", r"\# head"),
        ("- item", r"\- item"),
        ("1. item", r"1\. item"),
        ("25.4 mm", "25.4 mm"),
        ("https://tern.example", r"https\://tern.example"),
        ("www.tern.example", r"www\.tern.example"),
        ("a@tern.example", r"a\@tern.example"),
    ],
)
def test_markup_is_text_in_markdown(text: str, escaped: str) -> None:
    assert markdown_text(text) == escaped


@given(
    st.text(alphabet="|\\`a <>*-\n\t#[]()", max_size=12),
    st.text(alphabet="|\\`a <>*-\n\t#[]()", max_size=12),
)
def test_a_cell_never_ends_its_table(first: str, second: str) -> None:
    page = Page()
    page.table(("one", "two"), [(first, second)])
    lines = page.text().rstrip("\n").split("\n")
    assert len(lines) == 3
    assert cells_of(lines[2]) == 2


def cells_of(line: str) -> int:
    """Cells of a table row: a bar behind an odd number of backslashes does not part cells."""
    assert line.startswith("| ") and line.endswith(" |")
    bars = 0
    for found in re.finditer(r"(\\*)\|", line):
        bars += len(found.group(1)) % 2 == 0
    return bars - 1


def test_a_row_of_the_wrong_length_is_refused() -> None:
    with pytest.raises(ValueError, match="1 cells in a table of 2"):
        Page().table(("one", "two"), [("x",)])
