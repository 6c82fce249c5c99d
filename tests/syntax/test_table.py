"""Tables of text beside Python's csv module, an independent reader of RFC 4180."""

from __future__ import annotations

import csv
import io
import random

from hts.base.text import Source
from hts.syntax.table import BLANKS, MOST_COLUMNS, MOST_LETTERS, MOST_ROWS, read_table, rows_above
from tests.rows import each_row


def table(text: str, separator: str = ","):
    return read_table(Source(text, "t.csv"), separator)


def texts(found) -> list[list[str]]:
    return [[cell.text for cell in row] for row in (found.heads, *found.rows)]


def test_cells_are_those_another_reader_finds() -> None:
    for seed in range(250):
        chance = random.Random(seed)
        separator = chance.choice([",", ";", "\t"])
        words = ["a", "b c", "  x ", "1,5", "2;5", 'say "so"', "two\nlines", "", "\u00a0h", '"']
        rows = [["one", "two", "three"]]
        rows += [[chance.choice(words) for _ in range(3)] for _ in range(chance.randrange(5))]
        written = io.StringIO()
        quoting = chance.choice([csv.QUOTE_MINIMAL, csv.QUOTE_ALL])
        ends = chance.choice(["\n", "\r\n"])
        writer = csv.writer(written, delimiter=separator, lineterminator=ends, quoting=quoting)
        writer.writerows(rows)
        text = written.getvalue()
        if chance.random() < 0.3:
            text = text.rstrip("\r\n")
        if chance.random() < 0.2:
            text = f"sep={separator}\r\n{text}"
        found = table(text, separator)
        expected = [[cell.strip(BLANKS) for cell in row] for row in rows]
        assert found.misforms == []
        assert texts(found) == [row for row in expected if any(row)]
        # The place of a cell holds its text, the quotes in it doubled.
        for cell in (cell for row in (found.heads, *found.rows) for cell in row):
            assert text[cell.start : cell.end].replace('""', '"') == cell.text or not cell.text
            assert 0 <= cell.start <= cell.end <= len(text)


@each_row(
    ("text", "separator", "message", "marked", "help"),
    [
        ("", ",", "the table is empty", "", "save it again, its heads first"),
        (" ,\n", ",", "the table is empty", "", "save it again, its heads first"),
        ("a,b\n1\n", ",", "this line has one cell, the heads are 2: a note or a title", "1",
         "take it out of the table, or fill the row up"),
        ("a,b,c\n1,2\n", ",", "this row has 2 cells, the heads are 3", "2", "fill the row up"),
        ("a,b\n1,2,3,4\n", ",", "this row has 4 cells, the heads are 2", "3",
         "put a text that holds the separator in double quotes"),
        ("a;b\n1;2\n", ",", "the heads are not parted by the separator stated", "a;b",
         "say `separator semicolon`"),
        ("a,b\n", ";", "the heads are not parted by the separator stated", "a,b",
         "say `separator comma`"),
        ("a\tb\n", ",", "the heads are not parted by the separator stated", "a\tb",
         "say `separator tab`"),
        ('a,b\n1,"2\n3,4\n', ",", "the quote that opens here is not closed", '"2',
         "close it, or double a quote that belongs to the text"),
        ('"', ",", "the quote that opens here is not closed", '"',
         "close it, or double a quote that belongs to the text"),
        ('a,b\n"1"x,2\n', ",", "something follows the quote that closes this cell", '"1"',
         "double a quote that belongs to the text"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_the_form(
    text: str, separator: str, message: str, marked: str, help: str
) -> None:
    (found,) = table(text, separator).misforms
    assert (found.message, text[found.start : found.end], found.help) == (message, marked, help)


def test_places_of_cells() -> None:
    text = 'a , "b"\n "x ""y""" ,\u00a0 z\n'
    found = table(text)
    assert texts(found) == [["a", "b"], ['x "y"', "z"]]
    places = [[text[c.start : c.end] for c in row] for row in (found.heads, *found.rows)]
    assert places == [["a", "b"], ['x ""y""', "z"]]
    padded = '"  in  ",2\n"a","b"\n'
    assert padded[slice(*table(padded).heads[0][1:])] == "in"
    # An empty cell stands where it begins.
    empty = "a,b\n1,   \n"
    assert (table(empty).rows[0][1].start, table(empty).rows[0][1].end) == (6, 6)
    blank = 'a,b\n1,"   "\n'
    assert (table(blank).rows[0][1].text, table(blank).rows[0][1].start) == ("", 7)


def test_no_more_than_a_list_of_welds_has() -> None:
    row = ",".join("x" * MOST_COLUMNS)
    assert table(f"{row}\n{row}\n").misforms == []
    (wide,) = table(f"{row},y\n").misforms
    assert (wide.message, wide.start) == ("the table has more than 100 columns", 2 * MOST_COLUMNS)
    assert table("a\n" + "1\n" * MOST_ROWS).misforms == []
    (long,) = table("a\n" + "1\n" * (MOST_ROWS + 5)).misforms
    assert (long.message, long.start) == ("the table has more than 5000 rows", 2 + 2 * MOST_ROWS)
    assert table(f"a\n{'w' * MOST_LETTERS}\n").misforms == []
    (cell,) = table(f"a\n{'w' * (MOST_LETTERS + 1)}\n").misforms
    assert cell.message == "this cell has more than 1000 letters"
    assert (cell.start, cell.end) == (2, 2 + MOST_LETTERS)


def test_the_first_rows_of_what_may_be_no_table() -> None:
    text = ' ,\n,a\n\nb,\n"c" ,d\ne,"f'
    rows = [[cell.text for cell in row] for row in rows_above(text, ",", 9)]
    assert rows == [["", "a"], ["b", ""], ["c", "d"]]
    assert [len(rows_above(text, ",", most)) for most in (1, 2, 3)] == [1, 2, 3]
    assert rows_above("", ",", 3) == []


@each_row(
    ("text", "rows"),
    [("sep=,\na,b\n", [["a", "b"]]), ("a\r\r\nb",
    [["a"], ["b"]]),
     ("a,b\r1,2\r", [["a", "b"], ["1", "2"]]), ('a\n "x"\u00a0\n', [["a"], ["x"]]), ("a\n\n\n1",
     [["a"], ["1"]]),
     ('"a\nb",c\n1,""\n', [["a b", "c"], ["1", ""]]), ("a, \t\n1,\t2 \n", [["a", ""], ["1",
     "2"]])],
)  # fmt: skip
def test_rows_of_all_sorts_of_ends(text: str, rows: list[list[str]]) -> None:
    found = table(text)
    assert found.misforms == []
    assert texts(found) == rows


@each_row(("heads", "separator"), [("a.b", ";"), ("a", ","), ("a\tb;c", "\t"), ("a,b", ",")])
def test_one_head_is_no_other_separator(heads: str, separator: str) -> None:
    assert table(f"{heads}\n", separator).misforms == []
