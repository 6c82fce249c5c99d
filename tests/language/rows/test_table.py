"""Tables read into cells with their places."""

from __future__ import annotations

import csv
import io

from hypothesis import given
from hypothesis import strategies as st

from hts.base.text import Source
from hts.syntax.table import BLANKS, read_table
from tests.rows import each_row

CELLS = st.text(st.sampled_from('ab;,\t" \n1.'), max_size=6)


def _read(text: str, separator: str = ",") -> list[list[str]]:
    table = read_table(Source(text, "t.csv"), separator)
    assert table.misforms == []
    return [[cell.text for cell in row] for row in (table.heads, *table.rows)]


@given(
    st.integers(1, 5).flatmap(
        lambda n: st.lists(st.lists(CELLS, min_size=n, max_size=n), min_size=1, max_size=5)
    ),
    st.sampled_from([",", ";", "\t"]),
    st.sampled_from(["\r\n", "\n", "\r"]),
    st.booleans(),
)
def test_reads_what_the_csv_library_of_python_writes(
    rows: list[list[str]], separator: str, ends: str, every: bool
) -> None:
    """RFC 4180 as written by Python's csv module, the general-purpose library for it."""
    rows = [[f"h{n}" for n in range(len(rows[0]))], *rows]
    out = io.StringIO()
    # The library puts only its own line ends into quotes.
    quoting = csv.QUOTE_ALL if every or ends == "\r" else csv.QUOTE_MINIMAL
    csv.writer(out, delimiter=separator, lineterminator=ends, quoting=quoting).writerows(rows)
    source = Source(out.getvalue(), "t.csv")
    table = read_table(source, separator)
    stripped = [[cell.strip(BLANKS) for cell in row] for row in rows]
    assert [[c.text for c in row] for row in (table.heads, *table.rows)] == [
        row for row in stripped if any(row)
    ]
    for row in (table.heads, *table.rows):
        for cell in row:
            assert source.text[cell.start : cell.end].replace('""', '"') == cell.text


def test_a_spreadsheet_may_name_the_separator_first_and_leave_blank_rows() -> None:
    assert _read("sep=;\r\na;b\r\n;\r\n1;2\r\n;\r\n", ";") == [["a", "b"], ["1", "2"]]


def test_a_quote_inside_a_cell_is_a_letter() -> None:
    assert _read('a,b\n12" pipe,2\n') == [["a", "b"], ['12" pipe', "2"]]


@each_row(
    ("text", "message", "at"),
    [
        ("", "the table is empty", ""),
        ("\n,,\n", "the table is empty", ""),
        ('a,b\n1,"2\n3,4\n', "the quote that opens here is not closed", '"2'),
        ('a,b\n"1"x,2\n', "something follows the quote that closes this cell", '"1"'),
        ("a,b,c\n1,2\n", "this row has 2 cells, the heads are 3", "2"),
        ("a,b\n1\n", "this line has one cell, the heads are 2: a note or a title", "1"),
        ("a,b\n1;2\n", "this line is parted by semicolons, the heads by commas", "1;2"),
        ("a,b\n1,2,3\n", "this row has 3 cells, the heads are 2", "3"),
        ("a;b\n1;2\n", "the heads are not parted by the separator stated", "a;b"),
        (f"a,b\n{'x' * 1001},2\n", "this cell has more than 1000 letters", "x" * 1000),
        (
            ",".join(f"h{n}" for n in range(101)) + "\n",
            "the table has more than 100 columns",
            "h100",
        ),
        ("a\n" + "1\n" * 5001, "the table has more than 5000 rows", "1"),
    ],
)
def test_what_is_wrong_with_the_form_is_told_at_its_place(text: str, message: str, at: str) -> None:
    source = Source(text, "t.csv")
    (wrong,) = read_table(source, ",").misforms
    assert wrong.message == message
    assert source.text[wrong.start : wrong.end] == at
