"""How a log is laid out: separator, decimal mark, what stands before the readings."""

from __future__ import annotations

import csv
import re
from collections import Counter
from collections.abc import Callable
from typing import NamedTuple

from hts.record.errors import NoRows, RecordError
from hts.record.reading.cells import (
    is_error_text,
    is_number,
    is_number_of_any_kind,
    is_stamp,
    is_state,
    runs_on,
    shaped,
    with_mark,
    with_unit,
)
from hts.record.reading.header import filled, header, preamble, remarks
from hts.record.reading.options import Options
from hts.record.reading.rare_stamps import KNOWN_STAMPS
from hts.record.reading.units import temperature_unit

#: Lines looked at, and bytes of them, for a log may be some hundred columns wide.
_LINES, _BYTES = 200, 400_000
#: Lines that much has at least: no row of readings is longer than a tenth of it.
_FEW = 10
#: Rows of readings that are enough to tell separators apart.
_ENOUGH = 30
#: Columns of a log: several times those of the largest recorders.
MOST_COLUMNS = 1_000
#: Understood rows times their share of one width, where every cell of each makes sense.
_PERFECT = float(_ENOUGH)

SEPARATORS = {
    ",": "comma",
    ";": "semicolon",
    "\t": "tab",
    "|": "bar",
    " ": "blank",
    "  ": "blanks",
}
_WORDS = {
    "tab": "\t",
    "\\t": "\t",
    "comma": ",",
    "semicolon": ";",
    "bar": "|",
    "blank": " ",
    "blanks": " ",
}


#: Whether the cells of a line are a row of readings.
_Reads = Callable[[list[str]], bool]


class Layout(NamedTuple):
    """`first` is the index of the first line of readings, `width` the number of cells in a row.

    `names`, `units` and each of `aliases` (further rows of the header) have one text a column;
    `line` is the line of the names, from 1, 0 where there are none. `numbers` are the columns that
    hold nothing but plain numbers as far as was looked. `preamble` holds the
    `key: value` lines before them, keys in small letters, and `remarks` the lines between them and
    the readings that are marked as such.
    """

    separator: str
    decimal: str
    first: int
    width: int
    names: tuple[str, ...]
    units: tuple[str, ...]
    aliases: tuple[tuple[str, ...], ...]
    line: int
    numbers: frozenset[int]
    preamble: dict[str, str]
    remarks: tuple[str, ...] = ()

    @property
    def said(self) -> str:
        """What was made of the file, for the list of what was assumed."""
        names = f"names in line {self.line}" if self.line else "no names"
        mark = "comma" if self.decimal == "," else "point"
        return f"cells separated by {SEPARATORS[self.separator]}, decimal {mark}, {names}"


def sniff(data: bytes, name: str, options: Options) -> Layout:
    """Raises RecordError when no way of reading finds rows of readings, or two differ."""
    lines = [line.decode().rstrip("\r") for line in beginning(data)]
    if len(data) > _BYTES and len(lines) < _FEW:
        raise RecordError(
            f"{name}:{len(lines) + 1}",
            f"a line with more than {_BYTES // _FEW // 1000} kB is no row of readings",
            "export it again as delimited text, each scan in a line of its own",
        )
    for reads in WAYS if _indented(lines) else WAYS[1:]:
        separator = _separator(lines, name, options, reads)
        first = _first(lines, separator, reads)
        if first is not None:
            break
    else:
        raise _no_rows(lines, name)
    rows = [split(line, separator) for line in lines[first : first + 2 * _ENOUGH]]
    rest = [row for row in rows if reads(row)]
    # A row that was cut and runs into the next one has the cells of two.
    whole = [row for row in rest if not any(runs_on(cell, shaped(row[0])) for cell in row)]
    width = max(filled(row) for row in whole or rest)
    above = [split(one, separator) for one in lines[:first]]
    names, units, aliases, line = header(above, width, name)
    if separator in " " and len(names) + 1 == width and is_stamp(rest[0][1]):
        # One name stands over a date and a time that a blank keeps apart.
        names, units = ["Date", "Time", *names[1:]], ["", "", *units[1:]]
        aliases = []
    if len(names) < width and line and any(any(row[len(names) :]) for row in rest):
        at, row = next(
            (at, row) for at, row in enumerate(rows) if reads(row) and any(row[len(names) :])
        )
        raise RecordError(
            f"{name}:{first + 1 + at}",
            f"a row has {filled(row)} cells under {len(names)} names",
            "if the comma is separator and decimal mark at once, export the log with semicolons",
        )
    if separator in "  " and len(names) > width:
        raise RecordError(
            f"{name}:{first + 1}",
            f"a row has {width} cells under {len(names)} names, and blanks do not tell which is "
            "missing",
            "export it with commas, semicolons or tabs",
        )
    width = max(width, len(names))
    if width > MOST_COLUMNS:
        raise RecordError(
            f"{name}:{line or first + 1}",
            f"it has {width:,} columns, and a log has {MOST_COLUMNS:,} at most",
            "export the channels of this run alone, or give the separator with --separator",
        )
    decimal = _decimal(rest, separator, name, options)
    return Layout(
        separator,
        decimal,
        first,
        width,
        tuple(names + [""] * (width - len(names))),
        tuple(units + [""] * (width - len(units))),
        tuple(tuple(alias + [""] * (width - len(alias))) for alias in aliases),
        line,
        _numbers(rest, width, decimal),
        preamble(lines[: line - 1 if line else first], separator),
        remarks(above[line:], width) if line else (),
    )


def beginning(data: bytes) -> list[bytes]:
    """The lines that are looked at."""
    lines = data[:_BYTES].split(b"\n", _LINES)
    if len(lines) > _LINES or len(data) > _BYTES:
        lines.pop()
    return lines


def split(line: str, separator: str) -> list[str]:
    """The cells of one line, without the blanks around them."""
    if separator == "  ":
        return re.split(r"\s{2,}", line.strip())
    if separator == " ":
        return line.split()
    if '"' not in line:
        return [cell.strip() for cell in line.split(separator)]
    try:
        row = next(csv.reader([line], delimiter=separator, skipinitialspace=True), [])
    except csv.Error:  # a carriage return within, or a cell beyond all measure
        row = line.split(separator)
    return [cell.strip() for cell in row]


def _separator(lines: list[str], name: str, options: Options, reads: _Reads) -> str:
    if options.separator is not None:
        given = _WORDS.get(options.separator, options.separator)
        if given not in SEPARATORS:
            raise RecordError(
                name,
                f"{options.separator!r} is not a separator",
                'use ",", ";", "tab", "|" or "blanks"',
            )
        ratings = {one: _rating(lines, one, reads) for one in {given, "  "}}
    else:
        ratings = {one: _rating(lines, one, reads) for one in SEPARATORS if one.strip(" ")}
        # Blanks stand within cells too: they do no better than that, nor where tabs part the names.
        sense, _, parted, _ = ratings["\t"]
        if max(ratings.values())[0] < _PERFECT and not (parted and 2 * sense > _PERFECT):
            ratings |= {one: _rating(lines, one, reads) for one in SEPARATORS if not one.strip(" ")}
        given = max(ratings, key=lambda separator: ratings[separator])
    # Where two blanks do as well as one, names may have one within them.
    return "  " if given == " " and ratings["  "][0] >= ratings[" "][0] > 0 else given


def _no_rows(lines: list[str], name: str) -> NoRows:
    """What is in the way: another kind of file, or times in a form that is not known."""
    first = next((line.strip() for line in lines if line.strip()), "")
    if first[:1] in ("{", "<") or first[:2] in ("[{", "[["):
        return NoRows(
            name,
            f"it is not a table of rows and columns: it begins with {first[:30]!r}",
            "export the record as delimited text, each scan in a line of its own",
        )
    for separator in filter(str.strip, SEPARATORS):
        rows = [split(line, separator) for line in lines]
        alike = [
            at
            for at, row in enumerate(rows)
            if len(row) > 2 and row[0] and all(map(is_number_of_any_kind, filter(None, row[1:])))
        ]
        if len(alike) > 2:
            stamp = rows[alike[1]][0]
            return NoRows(
                f"{name}:{alike[1] + 1}:1",
                f"{stamp[:40]!r} is not known as a time",
                f"{KNOWN_STAMPS}, and numbers under a name with a unit",
            )
    return NoRows(name, "no rows of readings were found", "give the separator with --separator")


def _rating(lines: list[str], separator: str, reads: _Reads) -> tuple[float, int, int, int]:
    """How much of the lines makes sense with this separator, and how well it separates: blanks
    stand within a cell, too, as between date and time."""
    understood, widths, heads = 0.0, Counter[int](), set[int]()
    for line in lines:
        if separator not in line and separator.strip(" "):
            continue
        row = split(line, separator)
        if reads(row):
            understood += sum(map(_sense, row)) / len(row)
            widths[len(row)] += 1
            if widths.total() >= _ENOUGH:
                break
        else:
            heads.add(len(row))
    if not widths:
        return (0.0, 0, 0, 0)
    width, count = widths.most_common(1)[0]
    makes_sense = round(understood * count / widths.total(), 6)
    # A decimal mark separates nothing in the names above.
    named = int(width in heads)
    return (makes_sense, int(not separator.isspace() or separator == "\t"), named, width)


def _sense(cell: str) -> float:
    """1 for a reading, a time or nothing, a half for error text and units, else 0."""
    if (
        not cell
        or is_number_of_any_kind(cell)
        or is_stamp(cell)
        or with_unit(cell)
        or with_mark(cell)
    ):
        return 1.0
    return 0.5 if is_error_text(cell) or is_state(cell) or temperature_unit(cell) else 0.0


def _is_reading(row: list[str]) -> bool:
    """A row of a table of readings: it begins with a number or a time, and the rest is readings."""
    if len(row) < 2 or not (is_number_of_any_kind(row[0]) or is_stamp(row[0])):
        return False
    rest = [cell for cell in row[1:] if cell]
    return not rest or sum(map(_sense, rest)) >= 0.5 * len(rest)


def _is_reading_of_channel(row: list[str]) -> bool:
    """A row of a table with one reading in a row whose first cell is the name of its channel: a
    time comes second, and of the rest one is a number."""
    if len(row) < 3 or not row[0] or not is_stamp(row[1]):
        return False
    return any(map(is_number_of_any_kind, row[2:])) and _is_reading(row[1:])


def _indented(lines: list[str]) -> bool:
    """Whether a column without anything stands first."""
    filled = [line for line in lines if line.strip(",;|\t ")]
    return sum(line[:1] in (",", ";", "|", "\t") for line in filled) * 2 > len(filled)


def _is_reading_further_right(row: list[str]) -> bool:
    """A row of a table that stands some empty columns from the left, or whose dates stand in the
    first row they hold for."""
    empty = next((at for at, cell in enumerate(row) if cell), 0)
    return _is_reading(row[empty:])


WAYS = (_is_reading_further_right, _is_reading, _is_reading_of_channel)


def _first(lines: list[str], separator: str, reads: _Reads) -> int | None:
    """The first row of readings. A line of the preamble may look like one by chance; two in a row
    do not, empty lines between them or not."""
    alone = before = None
    for at, line in enumerate(lines):
        if not line.strip():
            continue
        reading = reads(split(line, separator))
        if reading and before is not None:
            return before
        before = at if reading else None
        alone = before if reading else alone
    return alone


def _decimal(data: list[list[str]], separator: str, name: str, options: Options) -> str:
    if options.decimal is not None:
        if options.decimal not in (".", ","):
            raise RecordError(name, f"{options.decimal!r} is not a decimal mark", 'use "." or ","')
        return options.decimal
    commas = [cell for row in data for cell in row if "," in cell and is_number(cell, ",")]
    if not commas:
        return "."
    points = [cell for row in data for cell in row if "." in cell and is_number(cell, ".")]
    if points:
        raise RecordError(
            name,
            f"numbers have a point and a comma, as {points[0]!r} and {commas[0]!r}",
            "say which is the decimal mark with --decimal",
        )
    # 1,234 beside 987: thousands set apart, or three decimals. No log reads 1 to 9 throughout.
    numbers = [cell for row in data for cell in row[1:] if is_number_of_any_kind(cell)]
    low = len(commas) >= _ENOUGH and all(re.fullmatch(r"[1-9],\d{3}", cell) for cell in commas)
    if (len(commas) < len(numbers) or low) and all(
        re.fullmatch(r"[+-]?\d{1,3},\d{3}", cell) for cell in commas
    ):
        raise RecordError(
            name,
            f"the comma in {commas[0]!r} can be a decimal mark or set thousands apart",
            'say --decimal "," or --decimal "."',
        )
    return ","


def _numbers(rows: list[list[str]], width: int, decimal: str) -> frozenset[int]:
    cells: list[list[str]] = [[row[at] for row in rows if at < len(row)] for at in range(width)]
    return frozenset(
        at
        for at, column in enumerate(cells)
        if all(not cell or is_number(cell, decimal) for cell in column)
    )
