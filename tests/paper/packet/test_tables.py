"""Tables fitted to a page, whatever is in them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.job.compiler.document import Document
from hts.paper.packet import letters
from hts.paper.packet.frame import Frame
from hts.paper.packet.heads import heads
from hts.paper.packet.pages import Pages
from hts.paper.packet.tables import PADDING, fitted, height
from hts.paper.sheet import A4, LETTER

words = st.text(st.characters(codec="utf-8"), max_size=60)


def told(cell: object) -> str:
    """The letters of a cell, without places to break at."""
    parts = cell if isinstance(cell, list) else [cell]
    return "".join(part for part in parts if isinstance(part, str)).replace("\u200b", "")


@given(
    st.integers(1, 26).flatmap(
        lambda count: st.tuples(
            st.lists(words, min_size=count, max_size=count),
            st.lists(st.lists(words, min_size=count, max_size=count), max_size=4),
        )
    ),
    st.sampled_from([60.0, 172.0, 271.0]),
)
def test_never_wider_than_the_page_and_nothing_lost(
    table: tuple[list[str], list[list[str]]], room: float
) -> None:
    heads, rows = table
    parts = fitted(heads, rows, room)
    for part in parts:
        assert sum(part["widths"]) <= room + 0.02
        for row in part["rows"]:
            assert len(row["cells"]) == len(part["heads"]) == len(part["widths"])
            for cell, width in zip(row["cells"], part["widths"], strict=True):
                parts_of = cell if isinstance(cell, list) else [cell]
                for piece in parts_of:
                    if isinstance(piece, str):
                        for word in piece.replace("\u200b", " ").split(" "):
                            fits = letters.width(word, part["body"]) <= width - 2 * PADDING + 0.02
                            # A single letter cannot be broken.
                            assert fits or len(word) == 1
    for row_number, row in enumerate(rows):
        printed = [told(c) for part in parts for c in part["rows"][row_number]["cells"]]
        for cell in row[1:]:
            assert letters.plain(cell) in ["", *printed]


def test_wide_tables_are_split_by_columns_and_keep_the_first() -> None:
    heads = ["Tag", *(f"TC-MONITO-{number:02d}" for number in range(24))]
    parts = fitted(heads, [["T1", *["1234 (2253)"] * 24]], 172.0)
    assert len(parts) > 1
    assert all(told(part["heads"][0]) == "Tag" for part in parts)
    assert [told(head) for part in parts for head in part["heads"][1:]] == heads[1:]


def test_numbers_are_told_from_words() -> None:
    rows = [["705 (1301)", "free", "T1", "0:30"], ["12.5", "120", "T2", "open"]]
    (table,) = fitted(["a", "b", "c", "d"], rows, 172.0)
    assert table["numbers"] == [True, True, False, True]


def test_a_column_without_an_entry_is_left_out() -> None:
    (table,) = fitted(["a", "b", "c"], [["1", "", "3"], ["", "", "4"]], 172.0)
    assert [told(head) for head in table["heads"]] == ["a", "c"]


def test_rows_have_as_many_cells_as_heads() -> None:
    page = Pages(Frame(A4))
    with pytest.raises(ValueError, match="1 cells in a table of 2 columns"):
        page.table(("a", "b"), [("1",)])
    with pytest.raises(ValueError, match="3 cells in a table of 2 columns"):
        page.form(("a", "b"), [("1", "2", "3")], (1, 1))


@pytest.mark.parametrize("size", [A4, LETTER])
def test_binder_holes_stay_free_on_the_bound_edge(size) -> None:  # type: ignore[no-untyped-def]
    """ISO 838: holes 12 mm from the edge, 6 mm wide."""
    data = Frame(size).data()
    assert data["bound"] >= 12 + 3 + 3
    assert Frame(size).room(False) + data["bound"] + data["edge"] == pytest.approx(size.width)


@given(words)
def test_no_text_makes_a_mark(text: str) -> None:
    """Marks are made of what no decoded file holds."""
    pieces = letters.pieces(text)
    assert isinstance(pieces, str)
    assert pieces.isprintable() or "\N{NO-BREAK SPACE}" in pieces


def test_marks_are_set_apart_from_the_text() -> None:
    marked = letters.marks().marked("10 %", None) + letters.PRACTICE
    assert letters.pieces(marked) == ["10\N{NO-BREAK SPACE}%", {"mark": "p"}]


def test_own_mark_letters_of_a_text_are_only_letters() -> None:
    assert letters.pieces("a † b ‡") == "a † b ‡"


def test_the_number_of_a_document_is_as_large_as_it_fits() -> None:
    """In three tenths of the head: 9.5 points, or as many as fill them, but never below 6."""
    sizes = set()
    for length in range(1, 60):
        named = Document("", "N" * length, "A", "", "", "", "", "")
        found = heads(named, 172.0)
        size, wide = found["short_size"], letters.width(found["number"], 1.0, bold=True)
        sizes.add(size)
        assert size == 9.5 or size == 6.0 or wide * size == pytest.approx(51.6, abs=0.1)
        assert wide * size <= 51.7 or size == 6.0
    assert {9.5, 6.0} < sizes


def test_how_high_a_table_is() -> None:
    """8 points are 2.822 mm: a row of one line is 0.714 of it and 1 mm above and below, 4.015 mm,
    each further line 1.164 of it, 3.285 mm; the head is a line and two further ones. A cell of
    20 mm has 17.2 mm for its text."""
    wide = letters.width("0", 8.0)

    def high(*cells: object) -> float:
        return height({"body": 8.0, "widths": [20.0] * len(cells), "rows": [{"cells": cells}]})

    line, head = 4.015, 4.015 + 2 * 3.285
    assert high("1") == pytest.approx(head + line, abs=0.005)
    assert high("0" * int(17.2 / wide)) == pytest.approx(head + line, abs=0.005)
    assert high("0" * int(17.2 / wide + 1)) == pytest.approx(head + line + 3.285, abs=0.005)
    three = ["0" * int(17.2 / wide), {"mark": "†"}, "0" * int(1.5 * 17.2 / wide)]
    assert high("1", three) == pytest.approx(head + line + 2 * 3.285, abs=0.005)
