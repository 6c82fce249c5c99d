"""How wide and high the cells of a workbook are, what may be typed into them, and on how many
sheets a table goes: by hand from what stands in them."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.paper.workbook import book
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import FIGURE, MOMENT, Cell, Duration, Figure, Fill
from hts.paper.workbook.checks import _hardness
from tests.rows import each_row


@each_row(
    ("column", "cells", "width"),
    [
        # Three more than the longest cell, two more than the longest word above it, 7 to 60.
        (Column("Tag"), ["T1"], 7), (Column("Tag"), [], 7), (Column("Tag"), ["x" * 5], 8),
        (Column("Tag"), ["x", "x" * 57, "x"], 60), (Column("Tag"), ["x" * 58], 60),
        (Column("Thermocouple of it"), ["T1"], 14), (Column("x" * 80), ["T1"], 60),
        (Column("When", 17), ["x" * 50], 17), (Column("At"), [Fill(MOMENT)], 19),
        (Column("At"), [Fill(FIGURE)], 7), (Column("At"), [Figure(123456.0)], 7),
    ],
)  # fmt: skip
def test_how_wide_a_column_is(column: Column, cells: list[Cell], width: int) -> None:
    assert book._width(column, 1, [["first" * 20, cell] for cell in cells]) == width


@each_row(
    ("letters", "width", "lines"),
    [
        (0, 12, 1), (10, 12, 1), (11, 12, 2), (18, 12, 2), (19, 12, 3), (27, 12, 3), (28, 12, 4),
        (1, 2, 1), (2, 1, 3),
    ],
)  # fmt: skip
def test_how_many_lines_a_text_takes(letters: int, width: int, lines: int) -> None:
    """Two letters are the margin of a cell; of further lines nine tenths are full."""
    assert book._lines("x" * letters, width) == lines
    assert book._height(lines) == 13.5 * lines + 1.5


def test_no_row_is_higher_and_no_cell_longer_than_can_be() -> None:
    """409 points, 32,767 letters of a cell, 255 of a footer (ECMA-376 and its programs)."""
    assert (book._height(30), book._height(31)) == (406.5, 409)
    assert book._clean("x" * 32_000) == "x" * 32_000
    assert book._clean("x" * 32_001) == "x" * 32_000 + "… (whole in job.json)"
    assert (book._cut("x" * 80), book._cut("x" * 81)) == ("x" * 80, "x" * 80 + "…")


@each_row(
    ("cell", "rule"),
    [
        (Fill(FIGURE), {"validate": "decimal", "minimum": -10_000, "maximum": 10_000}),
        # 36526 is 2000-01-01: a time without its date is less than a day.
        (Fill(MOMENT), {"value": "=AND(ISNUMBER(E12),E12>=36526)"}),
        (Fill(MOMENT, "D12"), {"value": "=AND(ISNUMBER(E12),E12>=36526,ISNUMBER(D12),E12>D12)"}),
    ],
)
def test_what_may_be_typed(cell: Fill, rule: dict[str, object]) -> None:
    found = book._accepted(cell, 11, 4)
    assert {name: found[name] for name in rule} == rule
    assert ("later" in str(found["error_message"])) is bool(cell.after)


@each_row(
    ("wide", "size", "landscape", "across", "repeated"),
    [
        # 95 letters upright, 190 across, a third and a little more by smaller print.
        (95, "A4", False, 1, None), (96, "A4", True, 1, None), (190, "Letter", True, 1, None),
        (256, "A4", True, 1, None), (257, "A4", True, 2, (0, 1)), (380, "A4", True, 2, (0, 1)),
        (381, "Letter", True, 3, (0, 1)),
    ],
)  # fmt: skip
def test_on_how_many_sheets_a_table_goes(
    wide: int, size: str, landscape: bool, across: int, repeated: tuple[int, int] | None
) -> None:
    done: dict[str, tuple[Any, ...]] = {}

    class Sheet:
        def __getattr__(self, name: str) -> Any:
            return lambda *arguments, **named: done.update({name: arguments})

    named = Stub(number="HT & 1", revision="A", status="for review", fingerprint="f" * 99)
    of: Any = Stub(_size=Stub(name=size), _job=Stub(document=named))
    Book._page(of, Sheet(), 20, 5, wide, 2)
    assert ("set_landscape" in done, done["fit_to_pages"]) == (landscape, (across, 0))
    assert done.get("repeat_columns") == repeated
    assert done["set_paper"] == ({"A4": 9, "Letter": 1}[size],)
    assert (done["print_area"], done["repeat_rows"]) == ((0, 0, 20, 5), (0, 3))
    (footer,) = done["set_footer"]
    assert footer.startswith("&LHT && 1 revision A, for review&C") and footer.endswith("f…")
    assert done["protect"][0] == "" and all(done["protect"][1].values())


def test_a_row_with_other_cells_than_there_are_columns_is_refused() -> None:
    document = Stub(
        number="1", title="x", revision="A", dated="", status="", fingerprint="", tool=""
    )
    made = Book(Stub(document=document), Stub(name="A4"))  # type: ignore[arg-type]
    with pytest.raises(ValueError, match="3 cells in a table of 2 columns"):
        made.table("x", "X", [Column("a"), Column("b")], [["a", "b", "c"]])


@each_row(
    ("cell", "num"),
    [
        (Figure(1.5), "0"), (Figure(1.5, 1), "0.0"), (Figure(1.5, 3), "0.000"),
        (Duration(0.25), "[h]:mm"),
    ],
)  # fmt: skip
def test_how_numbers_are_shown(cell: Cell, num: str) -> None:
    written: list[Any] = []
    sheet: Any = Stub(write_number=lambda *arguments: written.append(arguments))
    of: Any = Stub(_format=lambda **wanted: wanted)
    Book._write(of, sheet, 1, 2, cell)
    assert written == [(1, 2, 0.25 if isinstance(cell, Duration) else 1.5, {"num": num})]


@each_row(
    ("changed", "rows"),
    [
        ({}, ["weld: at most 241 HBW"]), ({"count": 1}, ["weld: at most 241 HBW"]),
        ({"count": 3}, [f"weld: at most 241 HBW, place {n} of 3" for n in (1, 2, 3)]),
        ({"spots": "12:00", "count": 2},
         [f"weld: at most 241 HBW, place {n} of 2 (12:00)" for n in (1, 2)]),
        ({"at_least": "190 HBW", "extent": "10 %"},
         ["weld: at least 190 HBW, at most 241 HBW, 10 % of welds"]),
        ({"share": "125 %"}, ["weld: at most 241 HBW, at most 125 % of base metal"]),
    ],
)  # fmt: skip
def test_a_row_for_each_place_that_is_tested_for_hardness(
    changed: dict[str, Any], rows: list[str]
) -> None:
    usual = {
        "zone": "weld", "at_least": None, "at_most": "241 HBW", "share": None, "extent": None,
        "after": None, "tested_within": None, "count": None, "spots": None,
    }  # fmt: skip
    made = _hardness(Stub(**{**usual, **changed}))  # type: ignore[arg-type]
    assert list(made) == [("after heat", "hardness", row, "") for row in rows]
