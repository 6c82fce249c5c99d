"""The columns of a log as series: units, thermocouples, what stands in place of readings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from hts.record.errors import RecordError
from hts.record.reading import columns, events, stamps, states
from hts.record.reading.numbers import OtherMark, Readings, other_mark, readings, whole
from hts.record.reading.options import Options
from hts.record.reading.order import Rows
from hts.record.reading.sidecar import Map
from hts.record.reading.sniff import Layout
from hts.record.reading.units import is_unit, temperature_unit, to_celsius
from hts.record.record import BLANK, COLDEST, HOTTEST, OUTSIDE, READ, TEXT, Series

if TYPE_CHECKING:
    import polars as pl

#: Names of columns that count rows.
_COUNTERS = frozenset(("no", "no.", "nr", "nr.", "#", "scan", "sample", "record", "index", "row"))


class Said(NamedTuple):
    """What is known of a log before its columns are read."""

    name: str
    layout: Layout
    options: Options
    map: Map

    def place(self, column: int) -> str:
        """Where the name of a column stands."""
        return f"{self.name}:{self.layout.line or self.layout.first + 1}:{column + 1}"


class Found(NamedTuple):
    """Series by thermocouple and by other columns, and sentences on what was supposed."""

    series: dict[str, Series]
    unmapped: dict[str, Series]
    notes: tuple[str, ...]


def series_of(
    frame: pl.DataFrame,
    said: Said,
    time: tuple[int, ...],
    tags: Sequence[columns.Wanted] | None,
    rows: Rows,
) -> Found:
    """`frame` holds the rows with a time, `rows` their numbers in the file; `time` the columns of
    the time. Without `tags` every column of temperatures is a series by its own name."""
    layout = said.layout
    claimed, notes = _claimed(said, tags)
    stated = any(temperature_unit(unit) for unit in layout.units)
    series: dict[str, Series] = {}
    unmapped: dict[str, Series] = {}
    by_option: list[str] = []
    plain = whole(frame)
    for at in range(layout.width):
        column = layout.names[at] or f"column {at + 1}"
        if at in time or column.casefold() in events.COLUMNS:
            continue
        cells = plain.get(str(at)) or _readings(frame[str(at)], said, at, rows)
        if at not in claimed and not np.any(cells.status == READ):
            counted = _counted(column, frame[str(at)])
            if counted is not None:
                unmapped[_free(column, unmapped)] = counted
            continue
        unit, option_said = _unit(column, said, at, cells)
        wanted = at in claimed
        if tags is None and column.casefold() not in _COUNTERS:
            wanted = bool(temperature_unit(unit)) or (not unit and not stated)
        if wanted and not temperature_unit(unit):
            if is_unit(unit):
                raise RecordError(
                    said.place(at),
                    f"column {column!r} is in {unit}, which is no unit of temperature",
                    "export the temperatures, or say in a map which column holds them",
                )
            raise RecordError(
                said.place(at), f"column {column!r} states no unit", "say --unit degC or degF"
            )
        key = claimed.get(at, column)
        into = series if wanted else unmapped
        key = _free(key, into)
        if wanted:
            cells = _without_bad(cells, frame, layout, at)
        into[key] = _one(key, column, unit, cells)
        if wanted and option_said:
            by_option.append(key)
        if wanted and cells.texts:
            notes.append(_texts(key, cells))
        if wanted and cells.marks:
            notes.append(_marks(key, cells))
    if by_option:
        notes.append(f"{_some(by_option)} in the unit asked for: the file states none.")
    if tags is not None:
        series = {tag.tag: series[tag.tag] for tag in tags if tag.tag in series}
    return Found(series, unmapped, tuple(notes))


def _claimed(said: Said, tags: Sequence[columns.Wanted] | None) -> tuple[dict[int, str], list[str]]:
    """Number of a column -> thermocouple."""
    if tags is None:
        return {}, []
    layout = said.layout
    recorder = said.map.recorder or layout.preamble.get("recorder", "")
    found = columns.claims(layout, said.name, tags, said.map.columns, recorder)
    if not found.columns:
        wanted = ", ".join(f"{tag.tag}: …" for tag in tags[:2]) or "T1: …"
        how = "its name" if layout.line else "its number, 1 for the first"
        raise RecordError(
            f"{said.name}:{layout.line or layout.first + 1}",
            "no column belongs to a thermocouple of the specification; the columns are "
            + ", ".join(columns.columns_of(layout)),
            f"say which column is whose ({how}) in YAML beside the log, as columns: {{{wanted}}}",
        )
    return {column: tag for tag, column in found.columns.items()}, list(found.notes)


def _readings(column: pl.Series, said: Said, at: int, rows: Rows) -> Readings:
    try:
        return readings(column, said.layout.decimal)
    except OtherMark as error:
        line = said.layout.first + 1 + int(rows[error.row])
        raise other_mark(f"{said.name}:{line}:{at + 1}", error.cell) from None


def _without_bad(cells: Readings, frame: pl.DataFrame, layout: Layout, at: int) -> Readings:
    """Without the readings that a column of states right behind says are none."""
    beside = at + 1
    if beside >= layout.width or layout.names[beside].strip().casefold() not in states.NAMES:
        return cells
    words = states.bad_words(frame[str(beside)])
    if not words:
        return cells
    said = frame[str(beside)].cast(str)
    bad = said.is_in(words).fill_null(value=False).to_numpy() & (cells.status == READ)
    values, status, texts = cells.values.copy(), cells.status.copy(), dict(cells.texts)
    values[bad], status[bad] = np.nan, TEXT
    for word, count in said.filter(bad).value_counts().iter_rows():
        texts[word.strip()] = texts.get(word.strip(), 0) + count
    return cells._replace(values=values, status=status, texts=texts, extremes=None)


def _unit(column: str, said: Said, at: int, cells: Readings) -> tuple[str, bool]:
    """The unit of a column as written, "" where nothing says it, and whether an option had to."""
    mapped = said.map.units.get(column.casefold())
    if mapped:
        return mapped, False
    written = said.layout.units[at]
    stated = temperature_unit(written)
    if written and stated is None:
        return written, False
    if cells.unit and stated and cells.unit != stated:
        raise RecordError(
            said.place(at),
            f"{column!r} is headed {written} and its cells state {cells.unit}",
            "correct it in a copy of the file",
        )
    asked = said.options.unit
    if asked is not None and temperature_unit(asked) is None:
        raise RecordError("", f"{asked!r} is not a unit of temperature", "use degC, degF or K")
    # K in a header can be the type of the thermocouple: no part in heat treatment is below 200 K.
    if stated == "K" and len(written.strip("[]() ")) == 1 and np.any(cells.values < 200.0):
        if asked is not None:
            return asked, True
        raise RecordError(
            said.place(at),
            f"K over {column!r} cannot be kelvin: it reads {np.nanmin(cells.values):g}",
            "say the unit with --unit degC or --unit degF",
        )
    if stated or cells.unit:
        return written or cells.unit, False
    preamble = next((value for key, value in said.layout.preamble.items() if "unit" in key), "")
    if asked is None and temperature_unit(preamble):
        return preamble, False
    return asked or "", asked is not None


def _one(tag: str, column: str, unit: str, cells: Readings) -> Series:
    scale = temperature_unit(unit)
    if scale is None:
        return Series(tag, cells.values, cells.status, column, unit)
    values = to_celsius(cells.values, scale)
    if cells.extremes is not None:
        low, high = to_celsius(np.array(cells.extremes), scale).tolist()
        if low >= COLDEST and high <= HOTTEST:
            return Series(tag, values, cells.status, column, unit)
    outside = (values < COLDEST) | (values > HOTTEST)
    if not outside.any():
        return Series(tag, values, cells.status, column, unit)
    cells.status[outside] = OUTSIDE
    return Series(tag, np.where(outside, np.nan, values), cells.status, column, unit, values)


def _counted(column: str, cells: pl.Series) -> Series | None:
    """A time that is counted beside the clock, as 12:34:56, in s."""
    if column.casefold() not in stamps.COUNTS:
        return None
    values = stamps.from_counted(cells.cast(str).str.strip_chars(), "")
    status = np.where(np.isfinite(values), READ, BLANK).astype(np.uint8)
    return Series(column, values, status, column, "s") if np.any(status == READ) else None


def _free(key: str, taken: dict[str, Series]) -> str:
    """The name, with a number where another column has it already."""
    number, free = 2, key
    while free in taken:
        free = f"{key} ({number})"
        number += 1
    return free


def _some(names: list[str]) -> str:
    if len(names) > 6:
        return f"{', '.join(names[:3])} … {names[-1]} ({len(names)} columns) are"
    return f"{', '.join(names)} {'are' if len(names) > 1 else 'is'}"


def _marks(key: str, cells: Readings) -> str:
    count = sum(cells.marks.values())
    marks = ", ".join(repr(mark) for mark in sorted(cells.marks)[:3])
    carry = f"{count} readings carry" if count > 1 else "1 reading carries"
    return f"{key}: {carry} a mark ({marks}) and {'count' if count > 1 else 'counts'}."


def _texts(key: str, cells: Readings) -> str:
    count = sum(cells.texts.values())
    words = ", ".join(repr(word) for word in sorted(cells.texts)[:3])
    hold = f"{count} cells hold" if count > 1 else "1 cell holds"
    return f"{key}: {hold} text in place of a reading ({words})."
