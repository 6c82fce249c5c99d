"""A column of text as readings."""

from __future__ import annotations

import re
from math import isfinite
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from hts.record.errors import RecordError
from hts.record.reading.cells import LONGEST, is_number_of_any_kind, with_mark, with_unit
from hts.record.reading.units import temperature_unit
from hts.record.record import BLANK, READ, TEXT, Floats, States

if TYPE_CHECKING:
    import polars as pl


class Readings(NamedTuple):
    """`values` float64 [rows] in the unit of the column, NaN where `status` is not READ.

    `texts` is what stands in place of readings, each with the number of its rows; `unit` the unit
    the cells themselves state, "" for none; `marks` are what instruments wrote behind or around
    readings, each with the number of its rows; `extremes` the least and the greatest value, where
    they are known without looking.
    """

    values: Floats
    status: States
    texts: dict[str, int]
    unit: str
    marks: dict[str, int] = {}
    extremes: tuple[float, float] | None = None


class OtherMark(Exception):
    """A cell is a number, but not with the decimal mark of the file."""

    def __init__(self, row: int, cell: str) -> None:
        self.row = row
        self.cell = cell
        super().__init__(cell)


def other_mark(place: str, cell: str) -> RecordError:
    """The error for a number with another decimal mark than the rest of the file."""
    return RecordError(
        place,
        f"{cell!r} does not have the decimal mark of the other numbers",
        "say the decimal mark with --decimal, or export without grouped digits",
    )


def whole(frame: pl.DataFrame) -> dict[str, Readings]:
    """By name the columns that Polars has read as numbers in every row, looked at together."""
    import polars as pl

    names = [
        name for name, kind in zip(frame.columns, frame.dtypes, strict=True) if kind == pl.Float64
    ]
    if not names or not len(frame):
        return {}
    # Nulls become NaN, which the extremes show.
    values = np.array([frame[name].to_numpy() for name in names], dtype=np.float64)
    status = np.full(values.shape, READ, dtype=np.uint8)
    lowest, highest = values.min(axis=1).tolist(), values.max(axis=1).tolist()
    columns = zip(names, values, status, lowest, highest, strict=True)
    return {
        name: Readings(its, states, {}, "", {}, (low, high))
        for name, its, states, low, high in columns
        if isfinite(low) and isfinite(high)
    }


def readings(column: pl.Series, decimal: str) -> Readings:
    """Raises OtherMark for a number with another decimal mark or grouped digits."""
    import polars as pl

    if column.dtype == pl.Float64:
        return _plain(column)
    text = column
    if decimal == ",":
        odd = text.str.contains(".", literal=True).fill_null(False).arg_true()
        for row in odd:
            if is_number_of_any_kind(text[row]):
                raise OtherMark(row, text[row])
        text = text.str.replace(",", ".", literal=True)
    values = _cast(text)
    status = np.full(len(values), READ, dtype=np.uint8)
    status[column.is_null().to_numpy()] = BLANK
    if not np.all(np.isfinite(values) | (status == BLANK)):
        text = text.str.strip_chars()
        values = _cast(text)
    texts: dict[str, int] = {}
    marks: dict[str, int] = {}
    units: set[str] = set()
    doubtful = np.flatnonzero(~np.isfinite(values) & (status == READ))
    known: dict[str, tuple[float, int, str]] = {}
    # Cells that are no plain number: with a unit, other marks, or text. Each is looked at once.
    for row, cell in zip(doubtful.tolist(), text.gather(doubtful).to_list(), strict=True):
        if cell not in known:
            known[cell] = _cell(cell.replace("−", "-"), units)
        values[row], status[row], mark = known[cell]
        if mark:
            marks[mark] = marks.get(mark, 0) + 1
        if status[row] == TEXT:
            if is_number_of_any_kind(cell):
                raise OtherMark(row, column[row].strip())
            texts[cell] = texts.get(cell, 0) + 1
    return Readings(values, status, texts, _one(units), marks)


def _plain(column: pl.Series) -> Readings:
    """Of a column that Polars has read as numbers, some of which may be written NaN or inf."""
    # Nulls become NaN.
    values = np.array(column.to_numpy(), dtype=np.float64)
    status = np.full(len(values), READ, dtype=np.uint8)
    texts: dict[str, int] = {}
    finite = np.isfinite(values)
    if not finite.all():
        status[~finite] = TEXT
        status[column.is_null().to_numpy()] = BLANK
        count = int(np.count_nonzero(status == TEXT))
        texts = {"NaN": count} if count else {}
        values[~finite] = np.nan
    return Readings(values, status, texts, "")


def _cast(text: pl.Series) -> Floats:
    import polars as pl

    numbers = text.cast(pl.Float64, strict=False).fill_null(float("nan"))
    return np.array(numbers.to_numpy(), dtype=np.float64)


def _cell(text: str, units: set[str]) -> tuple[float, int, str]:
    """Value, what became of the cell, and the mark on it."""
    nothing, mark = float("nan"), ""
    if not text:
        return nothing, BLANK, mark
    if found := with_unit(text):
        text = found[0]
        units.add(temperature_unit(found[1]) or "")
    elif marked := with_mark(text):
        text, mark = marked
    try:
        plain = len(text) < LONGEST and re.fullmatch(r"[+\-]?[\d.]+(?:[eE][+\-]?\d+)?", text)
        value = float(text) if plain else nothing
    except ValueError:
        value = nothing
    return (value, READ, mark) if np.isfinite(value) else (nothing, TEXT, "")


def _one(units: set[str]) -> str:
    if len(units) > 1:
        raise RecordError(
            "",
            f"cells of one column state different units: {', '.join(sorted(units))}",
            "export it in one unit",
        )
    return next(iter(units), "")
