"""The rows of a log as columns. Polars splits them, and reads columns of plain numbers at once."""

from __future__ import annotations

import io
from collections.abc import Hashable, Sequence
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, NamedTuple

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
#: Bytes of a log that is split together with others, at the most: with more it takes no longer by
#: itself.
_SMALL = 1_000_000


class Body(NamedTuple):
    """The rows of a log as `text`, `separator` between their cells; `numbers` are the columns that
    are read as numbers."""

    text: bytes
    name: str
    layout: Layout
    separator: str
    numbers: frozenset[int]

    @property
    def form(self) -> Hashable:
        """The same for logs that are split in the same way."""
        return self.separator, self.layout.width, self.layout.decimal, self.numbers


def body_of(data: bytes, name: str, layout: Layout, options: Options = NOTHING) -> Body:
    """The rows of a log, and how they are to be split."""
    text, separator = _body(data, name, layout)
    # A point in a file with decimal commas sets thousands apart; only the text shows that.
    time = range(1 if options.time is None and told_by_name(layout.names[:_TEXT]) else _TEXT)
    numbers = layout.numbers.difference(time)
    if layout.decimal != "." and b"." in text:
        numbers = frozenset()
    return Body(text, name, layout, separator, numbers)


def table(body: Body) -> pl.DataFrame:
    """A column of text, or of numbers, for each of `layout.width` cells, named "0", "1" …; an
    empty cell is null.

    Row i stands in line `layout.first` + 1 + i of the file: empty lines are rows of nulls.
    """
    import polars as pl

    for longer, some in ((False, body.numbers), (False, frozenset()), (True, frozenset())):
        try:
            return _split(body._replace(numbers=some), longer)
        except pl.exceptions.PolarsError as error:
            if longer:
                raise RecordError(
                    body.name,
                    f"its rows cannot be split into columns ({str(error).splitlines()[0]})",
                    "export it again as plain delimited text",
                ) from None
            if not some:
                _refuse_longer(body)
    raise AssertionError("the last way returns or raises")


def tables(bodies: Sequence[Body]) -> list[pl.DataFrame | None]:
    """The same of several logs; those that are split in the same way are split as one text, which
    takes half of the time. None for a log that has to be split by itself."""
    found: list[pl.DataFrame | None] = [None] * len(bodies)
    alike: dict[Hashable, list[int]] = {}
    for at, body in enumerate(bodies):
        # Quotes may hold line ends, and of a last line that was cut more than a line end is amiss.
        if len(body.text) <= _SMALL and body.text.endswith(b"\n") and b'"' not in body.text:
            alike.setdefault(body.form, []).append(at)
    for places in alike.values():
        for at, frame in zip(places, _split_as_one([bodies[at] for at in places]), strict=False):
            found[at] = frame
    return found


def _split_as_one(bodies: list[Body]) -> list[pl.DataFrame]:
    """Empty where that cannot be done: each line has to be a row that can be read."""
    import polars as pl

    if len(bodies) < 2:
        return []
    try:
        frame = _split(bodies[0]._replace(text=b"".join(body.text for body in bodies)), False)
    except pl.exceptions.PolarsError:
        return []
    ends = list(accumulate(body.text.count(b"\n") for body in bodies))
    if len(frame) != ends[-1]:
        return []
    return [frame[begin:end] for begin, end in pairwise([0, *ends])]


def _split(body: Body, longer: bool) -> pl.DataFrame:
    import polars as pl

    layout, separator = body.layout, body.separator
    columns = range(layout.width)
    # Rows may be shorter or longer than the first; a line of our own says how many cells there are.
    head = separator.join(map(str, columns)) + "\n"
    # A lone quote would swallow the lines that follow; then quotes are ordinary letters.
    quotes = body.text.count(b'"')
    return pl.read_csv(
        io.BytesIO(head.encode() + body.text),
        separator=separator,
        schema={str(at): pl.Float64 if at in body.numbers else pl.String for at in columns},
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


def _refuse_longer(body: Body) -> None:
    """Past the last column cells may only be empty, as separators ending a line make them."""
    layout = body.layout
    for number, line in enumerate(body.text.decode().split("\n"), layout.first + 1):
        if line.count(body.separator) >= layout.width:
            row = split(line, body.separator)
            if any(row[layout.width :]):
                raise RecordError(
                    f"{body.name}:{number}",
                    f"a row has {len(row)} cells, the table has {layout.width} columns",
                    "correct it in a copy of the file, or leave the line out",
                )
