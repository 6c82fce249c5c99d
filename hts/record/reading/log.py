"""One log file read: its times, and a series for each column that holds readings."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta, tzinfo
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from hts.record.errors import RecordError
from hts.record.reading import columns, events, sidecar
from hts.record.reading.cells import runs_on, shaped
from hts.record.reading.clock import Times, times
from hts.record.reading.decode import decode
from hts.record.reading.heads_again import refuse_other_heads
from hts.record.reading.layouts import layout_of
from hts.record.reading.long import widened
from hts.record.reading.options import Options
from hts.record.reading.order import Rows, ordered
from hts.record.reading.series import Said, series_of
from hts.record.reading.sidecar import Map
from hts.record.reading.sniff import Layout
from hts.record.reading.source import name_of, source
from hts.record.reading.stamps import refuse
from hts.record.reading.table import Body, body_of, table
from hts.record.reading.torn import rare, without_torn
from hts.record.record import FileRead, Floats, Jump, Series, duration

if TYPE_CHECKING:
    import polars as pl

_EPOCH = datetime(1970, 1, 1)
_OTHER_TIME = "name the time column with --time, or two as --time 'Date, Time'"


class Log(NamedTuple):
    """A log by itself. `seconds` are strictly increasing; when `dated` they count from 1970, by
    the clock of the log or, with a `zone`, in UTC. `remarks` are (seconds, text) of its column of
    events; `map` is what the YAML beside it says."""

    file: FileRead
    seconds: Floats
    dated: bool
    zone: tzinfo | None
    jumps: tuple[Jump, ...]
    series: dict[str, Series]
    unmapped: dict[str, Series]
    remarks: tuple[tuple[float, str], ...]
    simulated: bool
    notes: tuple[str, ...]
    map: Map


class Begun(NamedTuple):
    """What is known of a log before its rows are split into columns; `options` are those asked for
    and those of the `map` beside it."""

    name: str
    digest: str
    layout: Layout
    options: Options
    map: Map
    notes: tuple[str, ...]
    torn: tuple[str, ...]


def read_log(path: str, tags: Sequence[columns.Wanted] | None, options: Options) -> Log:
    """Raises RecordError with the place in the file, the cause and the remedy."""
    begun, body = begin(path, options)
    frame = table(body)
    del body
    return finish(begun, frame, tags)


def begin(path: str, options: Options) -> tuple[Begun, Body]:
    """The log with its rows as text. Raises RecordError."""
    name = name_of(path)
    read = source(path)
    data = read.text
    if not data[:4096].strip() and not data.strip():
        raise RecordError(name, "it is empty", "give the file the recorder wrote")
    beside = sidecar.beside(path, options)
    options = options.over(beside.options)
    utf8, encoding = decode(data, name)
    layout = layout_of(utf8, name, options)
    utf8, torn = without_torn(utf8, layout)
    notes = (
        *filter(None, (read.note, encoding, beside.note)),
        f"{name}: {layout.said}.",
        *(f"{name}: below the names it says {remark[:60]!r}." for remark in layout.remarks),
    )
    digest = hashlib.sha256(read.raw).hexdigest()
    begun = Begun(name, digest, layout, options, beside, notes, tuple(torn))
    return begun, body_of(utf8, name, layout, options)


def finish(begun: Begun, frame: pl.DataFrame, tags: Sequence[columns.Wanted] | None) -> Log:
    """The log whose rows are split into these columns. Raises RecordError."""
    name, layout, options, torn = begun.name, begun.layout, begun.options, list(begun.torn)
    wide = widened(frame, name, layout, options)
    if wide is not None:
        frame, layout = wide.frame, wide.layout
        torn.append(wide.note)
    clock = times(frame, name, layout, options)
    rows, dropped = _rows(frame, name, layout, clock)
    if dropped:
        frame = frame[rows]
    seconds = clock.seconds[rows]

    def say(at: float) -> str:
        return shown(at, clock.dated, clock.zone)

    if len(seconds) > 1 and np.all(seconds == seconds[0]):
        raise RecordError(name, f"all its rows are at {say(float(seconds[0]))}", _OTHER_TIME)
    order = ordered(seconds, clock.of_day, lambda: frame.hash_rows().to_numpy(), say)
    if len(order.rows) < 2:
        raise RecordError(name, "it has a single row", "a record needs two or more")
    found = series_of(frame, Said(name, layout, options, begun.map), clock.columns, tags, rows)
    series, unmapped = found.series, found.unmapped
    if len(order.rows) < len(seconds) or np.any(np.diff(order.rows) != 1):
        series = {tag: taken(one, order.rows) for tag, one in series.items()}
        unmapped = {column: taken(one, order.rows) for column, one in unmapped.items()}
    return Log(
        FileRead(name, begun.digest, len(seconds)),
        order.seconds,
        clock.dated,
        clock.zone,
        order.jumps,
        series,
        unmapped,
        _remarks(frame, layout, clock, order.rows, order.seconds),
        _simulated(layout),
        (
            *begun.notes,
            *clock.notes,
            *(f"{name}: {note}" for note in (*torn, *dropped, *order.notes, *found.notes)),
        ),
        begun.map,
    )


def shown(seconds: float, dated: bool, zone: tzinfo | None) -> str:
    """A time of a log as people read it."""
    if not dated:
        return duration(seconds)
    moment = _EPOCH + timedelta(seconds=seconds)
    if zone is not None:
        moment = moment.replace(tzinfo=UTC).astimezone(zone)
    return moment.replace(tzinfo=None, microsecond=0).isoformat(sep=" ")


def taken(series: Series, rows: Rows) -> Series:
    """The series at these rows."""
    raw = series.raw[rows] if series.raw is not None else None
    return series._replace(values=series.values[rows], status=series.status[rows], raw=raw)


def _simulated(layout: Layout) -> bool:
    """A line before the names says so: `simulated: yes`, or begins with the word."""
    return any(
        key.startswith("simulated") and value.casefold() not in ("no", "false", "0")
        for key, value in layout.preamble.items()
    )


def _rows(frame: pl.DataFrame, name: str, layout: Layout, clock: Times) -> tuple[Rows, list[str]]:
    """Rows with a time. Empty lines, repeated headers and lines at the foot are left out."""
    good = np.isfinite(clock.seconds)
    rows = np.flatnonzero(good)
    if good.all():
        return rows, []
    import polars as pl

    usual = shaped(str(frame.row(int(rows[0]))[clock.columns[0]])) if len(rows) else ""
    text = pl.all().cast(pl.String).str.strip_chars().replace("", None).is_not_null()
    filled = frame.select(text)
    beside = filled.select(
        pl.any_horizontal(
            pl.lit(False),
            *(pl.col(str(at)) for at in range(layout.width) if at not in clock.columns),
        )
    ).to_series().to_numpy()  # fmt: skip
    some = filled.select(pl.any_horizontal(pl.all())).to_series().to_numpy()
    others = np.flatnonzero(~good & some)
    for row in others.tolist():
        refuse_other_heads(frame.row(row), f"{name}:{layout.first + 1 + row}", layout)
    damaged = []
    for row in np.flatnonzero(~good & beside).tolist():
        cells = tuple(str(cell or "") for cell in frame.row(row))
        readings = [at for at, one in enumerate(cells) if _numeric(one) and at not in clock.columns]
        stamp = cells[clock.columns[0]]
        # A word where the time stands is a foot: Max, Average, the end of the record.
        if not readings or _repeats_names(cells, layout) or _word(stamp):
            continue
        place = f"{name}:{layout.first + 1 + row}:{clock.columns[0] + 1}"
        if stamp.strip() and not runs_on(stamp, usual):
            raise refuse(place, stamp)
        if not any(map(_word, cells)):  # without a time a word says that it is a foot, too
            damaged.append((place, stamp))
    if damaged and not rare(len(damaged), len(frame)):
        raise refuse(*damaged[0])
    if not len(others):
        return rows, ["Empty lines are left out."]
    first = frame.row(int(others[0]))
    line = layout.first + 1 + int(others[0])
    words = " ".join(str(cell).strip() for cell in first if cell is not None)[:40].strip()
    count = (
        "A line that is no row of readings is"
        if len(others) == 1
        else (f"{len(others)} lines that are no rows of readings are")
    )
    return rows, [f"{count} left out, line {line}: {words!r}."]


def _word(cell: str) -> bool:
    return bool(cell.strip()) and not any(letter.isdigit() for letter in cell)


def _numeric(cell: str) -> bool:
    return cell.strip().lstrip("+-").replace(",", ".", 1).replace(".", "", 1).isdigit()


def _repeats_names(cells: tuple[str, ...], layout: Layout) -> bool:
    first = cells[0].strip().casefold()
    return bool(first) and first.startswith(layout.names[0].casefold()) and layout.line > 0


def _remarks(
    frame: pl.DataFrame, layout: Layout, clock: Times, rows: Rows, seconds: Floats
) -> tuple[tuple[float, str], ...]:
    found = []
    for at, column in enumerate(layout.names):
        if column.casefold() in events.COLUMNS and at not in clock.columns:
            cells = frame[str(at)].gather(rows).cast(str)
            there = np.flatnonzero(cells.is_not_null().to_numpy())
            found += [
                (float(seconds[row]), cells[row].strip()) for row in there.tolist()
                if cells[row].strip()
            ]  # fmt: skip
    return tuple(sorted(found))
