"""The rows of a log as columns. Polars splits them, and reads columns of plain numbers at once."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from hts.record.errors import RecordError
from hts.record.reading.fixed_width import split_by_blanks
from hts.record.reading.options import NOTHING, Options
from hts.record.reading.sniff import Layout, split
from hts.record.reading.stamps import told_by_name

if TYPE_CHECKING:
    import polars as pl

#: Columns kept as text where no name tells that the first is the time: it stands in one of them,
#: and what it is depends on how it is written.
_TEXT = 3


def table(data: bytes, name: str, layout: Layout, options: Options = NOTHING) -> pl.DataFrame:
    """A column of text, or of numbers, for each of `layout.width` cells, named "0", "1" …; an
    empty cell is null.

    Row i stands in line `layout.first` + 1 + i of the file: empty lines are rows of nulls.
    """
    import polars as pl

    body, separator = _body(data, name, layout)
    # A point in a file with decimal commas sets thousands apart; only the text shows that.
    text = range(1 if options.time is None and told_by_name(layout.names[:_TEXT]) else _TEXT)
    numbers = layout.numbers.difference(text)
    if layout.decimal != "." and b"." in body:
        numbers = frozenset()
    for longer, some in ((False, numbers), (False, frozenset()), (True, frozenset())):
        try:
            return _split(body, separator, layout, some, longer)
        except pl.exceptions.PolarsError as error:
            if longer:
                raise RecordError(
                    name,
                    f"its rows cannot be split into columns ({str(error).splitlines()[0]})",
                    "export it again as plain delimited text",
                ) from None
            if not some:
                _refuse_longer(body.decode(), name, layout, separator)
    raise AssertionError("the last way returns or raises")


def _split(
    body: bytes, separator: str, layout: Layout, numbers: frozenset[int], longer: bool
) -> pl.DataFrame:
    import polars as pl

    columns = range(layout.width)
    # Rows may be shorter or longer than the first; a line of our own says how many cells there are.
    head = separator.join(map(str, columns)) + "\n"
    # A lone quote would swallow the lines that follow; then quotes are ordinary letters.
    quotes = body.count(b'"')
    return pl.read_csv(
        io.BytesIO(head.encode() + body),
        separator=separator,
        schema={str(at): pl.Float64 if at in numbers else pl.String for at in columns},
        quote_char='"' if quotes and quotes % 2 == 0 else None,
        decimal_comma=layout.decimal == "," and separator != ",",
        truncate_ragged_lines=longer,
    )


def _body(data: bytes, name: str, layout: Layout) -> tuple[bytes, str]:
    at = 0
    for _ in range(layout.first):
        at = data.index(b"\n", at) + 1
    body = data[at:]
    if layout.separator.strip(" "):
        return body, layout.separator
    # Runs of blanks separate: Polars knows single characters only.
    lines = body.decode().split("\n")
    return "\n".join("\t".join(row) for row in split_by_blanks(lines, name, layout)).encode(), "\t"


def _refuse_longer(body: str, name: str, layout: Layout, separator: str) -> None:
    """Past the last column cells may only be empty, as separators ending a line make them."""
    for number, line in enumerate(body.split("\n"), layout.first + 1):
        if line.count(separator) >= layout.width:
            row = split(line, separator)
            if any(row[layout.width :]):
                raise RecordError(
                    f"{name}:{number}",
                    f"a row has {len(row)} cells, the table has {layout.width} columns",
                    "correct it in a copy of the file, or leave the line out",
                )
