"""The time column of a log: found, read, and its zone settled."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta, timezone, tzinfo
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from hts.record.errors import RecordError
from hts.record.reading import stamps, time_parts
from hts.record.reading.cells import shaped
from hts.record.reading.numbers import OtherMark, other_mark, readings
from hts.record.reading.options import Options
from hts.record.reading.order import begins_again
from hts.record.reading.sniff import Layout
from hts.record.reading.torn import torn_stamp
from hts.record.reading.units import time_unit
from hts.record.reading.zones import in_zone, zone_named
from hts.record.record import Floats

if TYPE_CHECKING:
    import polars as pl


_MIDNIGHT = " 00:00:00"
#: s: no run counts so far, but a clock that counts from 1970 does.
_TEN_YEARS = 10 * 365.25 * 86400.0
#: s from 1970: half of the two hundred years a clock can be in.
_MIDDLE = 100 * 365.25 * 86400.0


class Times(NamedTuple):
    """`seconds` float64 [rows], NaN where the cell is no time. `dated`: counted from 1970, by the
    clock there or, when `zone` is known, in UTC; else from wherever the file counts.
    `columns` are the numbers of the columns they come from."""

    seconds: Floats
    dated: bool
    of_day: bool
    zone: tzinfo | None
    columns: tuple[int, ...]
    notes: tuple[str, ...]


def times(frame: pl.DataFrame, name: str, layout: Layout, options: Options) -> Times:
    """Raises RecordError where the column, its unit or the order of day and month is left open."""
    import polars as pl

    parts = () if options.time is not None else time_parts.columns(layout.names)
    if parts:
        return _placed(time_parts.wall(frame, parts), name, layout, options, parts)
    columns = _columns(frame, name, layout, options)
    _refuse_other_times(frame, name, layout, columns)
    halves = _halves(frame, columns[-1] + 1)
    plain = len(columns) == 1 and halves is None
    wall = stamps.year_first(frame[str(columns[0])]) if plain else None
    if wall is not None:
        return _placed(wall, name, layout, options, columns)
    cells = pl.col(list(map(str, columns))).cast(pl.String).str.strip_chars().replace("", None)
    if plain:
        return _read(frame.select(cells).to_series(), name, layout, options, columns)
    *days, clock = frame.select(cells)
    if halves is not None:
        clock = clock + " " + halves
    if not days:
        return _read(clock, name, layout, options, columns)
    # Of a date and a time beside it, one text. A workbook adds midnight to its dates, and a date
    # may stand in the first row it holds for alone.
    day = days[0].fill_null(strategy="forward")
    if day.drop_nulls().str.ends_with(_MIDNIGHT).all():
        day = day.str.strip_suffix(_MIDNIGHT)
    text = pl.select(pl.concat_str(day, clock, separator=" ")).to_series()
    return _read(text, name, layout, options, columns)


def _read(
    text: pl.Series, name: str, layout: Layout, options: Options, columns: tuple[int, ...]
) -> Times:
    first = _first(text)
    if not first:
        raise RecordError(name, "its time column is empty", "name the time column with --time")
    number = _plain_number(first, layout.decimal)
    if stamps.dated(first) and (not number or (stamps.packed(first) and not options.time_unit)):
        return _dated(text, name, layout, options, columns)
    if ":" in first:
        return _of_day_or_counted(text, name, layout, options, columns)
    return _numbers(text, name, layout, options, columns)


def _plain_number(text: str, decimal: str) -> bool:
    return text.replace(decimal, "", 1).isdigit()


def _refuse_other_times(
    frame: pl.DataFrame, name: str, layout: Layout, columns: tuple[int, ...]
) -> None:
    """Raises RecordError where channels have times of their own: one column of times is read."""
    words = stamps.words(layout.names)
    tags = {word for at, word in enumerate(words) if word and at not in columns}
    for at, word in enumerate(words):
        again = word == words[columns[0]] or (word.endswith(" time") and word[:-5] in tags)
        if (
            word
            and at not in columns
            and again
            and not frame[str(at)].equals(frame[str(columns[0])])
        ):
            raise RecordError(
                f"{name}:{layout.line}:{at + 1}",
                f"{layout.names[at]!r} holds other times than column {columns[0] + 1}",
                "export it with one time for all channels, or each channel in a file of its own",
            )


def _halves(frame: pl.DataFrame, at: int) -> pl.Series | None:
    """A column of AM and PM at this place, behind the time; None where it is none."""
    import polars as pl

    if at >= frame.width or frame[str(at)].dtype != pl.String:
        return None
    first = _first_cell(frame, at).upper()
    if first not in ("AM", "PM"):
        return None
    cells = frame[str(at)].str.strip_chars().str.to_uppercase()
    return cells if cells.drop_nulls().is_in(["AM", "PM"]).all() else None


def _columns(frame: pl.DataFrame, name: str, layout: Layout, options: Options) -> tuple[int, ...]:
    words = stamps.words(layout.names)
    if options.time is not None:
        found = []
        for part in options.time.split(","):
            (wanted,) = stamps.words((part,))
            if wanted not in words:
                raise RecordError(
                    name,
                    f"there is no column {part.strip()!r} for the time",
                    f"the columns are: {', '.join(filter(None, layout.names))}",
                )
            found.append(words.index(wanted))
        return tuple(found[:2])

    def first(names: tuple[str, ...]) -> int | None:
        return next((at for at, word in enumerate(words) if word in names), None)

    date, clock, stamp, count = map(first, stamps.NAMES)
    if date is not None and clock is not None and not _has_date(frame, clock):
        return (date, clock)
    for at in (stamp, clock, count, date):
        if at is not None:
            return _with_time(frame, at, layout)
    # No name tells: a column of dates does.
    for at in range(layout.width):
        if _has_date(frame, at):
            return _with_time(frame, at, layout)
    if not layout.line or not layout.names[0]:
        return (0,)
    raise RecordError(
        f"{name}:{layout.line}",
        "none of the columns is named as the time",
        f"say which is, as --time {layout.names[0]!r}",
    )


def _with_time(frame: pl.DataFrame, at: int, layout: Layout) -> tuple[int, ...]:
    """The column and, where it holds bare dates, one of times of day beside it."""
    first = _first_cell(frame, at)
    if stamps.dated(first) and ":" not in first:
        for other in range(layout.width):
            if other != at and re.match(r"\d{1,2}:\d{2}", _first_cell(frame, other)):
                return (at, other)
    return (at,)


def _first_cell(frame: pl.DataFrame, at: int) -> str:
    return _first(frame[str(at)]).strip()


def _first(column: pl.Series) -> str:
    """The first cell that holds something, "" where none does."""
    cells = column.drop_nulls() if column.null_count() else column
    return str(cells[0]) if len(cells) else ""


def _has_date(frame: pl.DataFrame, at: int) -> bool:
    return stamps.dated(_first_cell(frame, at))


def _dated(
    text: pl.Series, name: str, layout: Layout, options: Options, columns: tuple[int, ...]
) -> Times:
    at = columns[0] + 1
    if options.zone is not None:
        text = _without_zone_word(text, options.zone, f"{name}:{layout.first + 1}:{at}")
    try:
        wall, forms = stamps.from_dates(text, options.day_order)
    except stamps.DayOrder as error:
        raise RecordError(f"{name}:{layout.first + 1}:{at}", error.cause, error.remedy) from None
    except stamps.Unread as error:
        wall, forms = _without(text, error.rows, name, layout, options, at)
    zoned = {form.zoned for form in forms}
    if zoned == {True, False}:
        raise RecordError(
            name, "some of its times state an offset from UTC and others none", "export it again"
        )
    if zoned == {True}:
        _within_reach(wall, name, layout, at)
        return Times(wall, True, False, _zone_of(text, options), columns, ())
    return _placed(wall, name, layout, options, columns)


def _without_zone_word(text: pl.Series, zone: str, place: str) -> pl.Series:
    """The stamps without the word of a zone behind them, CET, where --zone says which is meant."""
    words = text.str.extract(r"\d\s*([A-Z]{3,5})$").drop_nulls().unique().to_list()
    if not words or set(words) <= {"UTC", "GMT"}:
        return text
    meant = zone_named(zone)
    year = int((text.str.extract(r"((?:19|20)\d{2})").drop_nulls().to_list() or ["2026"])[0])
    names = {datetime(year, month, 15, tzinfo=meant).tzname() or "" for month in (1, 7)}
    others = sorted(set(words) - names)
    # A zone given as an offset has no names to compare.
    if others and all(found.isalpha() for found in names):
        raise RecordError(
            place,
            f"its times are in {others[0]}, the clock of {zone} in {' or '.join(sorted(names))}",
            "say the zone of the clock with --zone",
        )
    return text.str.replace(r"(\d)\s*[A-Z]{3,5}$", "$1")


def _placed(
    wall: Floats, name: str, layout: Layout, options: Options, columns: tuple[int, ...]
) -> Times:
    """Times without an offset, in the zone that is said or stated."""
    _within_reach(wall, name, layout, columns[0] + 1)
    said = options.zone or _stated_zone(layout)
    if not said:
        return Times(wall, True, False, None, columns, ())
    zone = zone_named(said)
    good = np.isfinite(wall)
    placed = in_zone(wall[good], zone)
    wall[good] = placed.seconds
    notes = (*placed.notes, *(() if options.zone else (f"{name}: times are in zone {said}.",)))
    return Times(wall, True, False, zone, columns, notes)


def _within_reach(seconds: Floats, name: str, layout: Layout, column: int) -> None:
    """Raises RecordError for a date no recorder has shown: what is worked out from it would lie
    outside any calendar."""
    far = np.abs(np.nan_to_num(seconds, nan=_MIDDLE) - _MIDDLE) > _MIDDLE
    if far.any():
        raise RecordError(
            f"{name}:{layout.first + 1 + int(np.argmax(far))}:{column}",
            "this is no time from 1970 to 2170",
            "correct the date, or say which column is the time with --time",
        )


def _without(
    text: pl.Series, rows: list[int], name: str, layout: Layout, options: Options, at: int
) -> tuple[Floats, list[stamps.Form]]:
    """Read without the rows whose first cell is no date at all: lines that are no readings.
    A date that cannot be read is an error, unless it is torn."""
    import polars as pl

    bad = set(rows)
    first = next((cell for row, cell in enumerate(text) if cell and row not in bad), "")
    for row in rows:
        if re.match(r"\d", text[row]) and not torn_stamp(text[row], shaped(first)):
            raise stamps.refuse(f"{name}:{layout.first + 1 + row}:{at}", text[row])
    keep = np.ones(len(text), dtype=bool)
    keep[rows] = False
    cleared = text.to_frame("t").select(pl.when(pl.Series(keep)).then(pl.col("t")).otherwise(None))
    return stamps.from_dates(cleared.to_series(), options.day_order)


def _zone_of(text: pl.Series, options: Options) -> tzinfo:
    """The zone asked for, or the offset of the first stamp."""
    if options.zone is not None:
        return zone_named(options.zone)
    first = text.drop_nulls()[0]
    offset = re.search(r"([+-])(\d{2}):?(\d{2})?$", first)
    if offset is None:
        return UTC
    minutes = int(offset[2]) * 60 + int(offset[3] or 0)
    return timezone(timedelta(minutes=-minutes if offset[1] == "-" else minutes))


def _stated_zone(layout: Layout) -> str:
    # Not "zone" alone: that is a zone of heaters.
    words = ("time zone", "timezone", "utc offset")
    return next((layout.preamble[word] for word in words if word in layout.preamble), "")


def _of_day_or_counted(
    text: pl.Series, name: str, layout: Layout, options: Options, columns: tuple[int, ...]
) -> Times:
    at = columns[0]
    unit = options.time_unit or time_unit(layout.units[at]) or ""
    if stamps.two_numbers(text) and unit not in ("hh:mm", "mm:ss"):
        example = text.drop_nulls()[0]
        raise RecordError(
            f"{name}:{layout.first + 1}:{at + 1}",
            f"{example!r} can be hours and minutes or minutes and seconds",
            "say --time-unit hh:mm or --time-unit mm:ss",
        )
    seconds = stamps.from_counted(text, unit)
    counted = layout.names[at].casefold() in stamps.COUNTS or bool(np.any(seconds > 86400.0))
    # A clock that shows the hours of a day begins again at midnight, whatever its name.
    counted = counted and not begins_again(seconds)
    notes: tuple[str, ...] = ()
    if not counted:
        notes = (f"{name}: times have no date; the hours are counted on past midnight.",)
    return Times(seconds, False, not counted, None, columns, notes)


def _since_1970(text: pl.Series) -> bool:
    """Whether it can count nothing but ms since 1970: thirty years and more by any other measure.
    Seconds since 1970 are as large as ms since a recorder was switched on."""
    return bool(text.drop_nulls().str.contains(r"^\s*[1-4]\d{12}(?:\.\d*)?\s*$").all())


def _numbers(
    text: pl.Series, name: str, layout: Layout, options: Options, columns: tuple[int, ...]
) -> Times:
    at = columns[0]
    place = f"{name}:{layout.line or layout.first + 1}:{at + 1}"
    stated = time_unit(layout.units[at])
    asked = time_unit(options.time_unit) if options.time_unit else None
    unit = asked or stated
    if (unit is None or (asked is None and unit == "ms")) and _since_1970(text):
        unit = "unix"
    if unit is None or ":" in unit:
        raise RecordError(
            place,
            f"the time {text.drop_nulls()[0]!r} has no unit",
            "say it with --time-unit: s, ms, min, h, d, serial or unix (since 1970)",
        )
    try:
        values = readings(text, layout.decimal).values
    except OtherMark as error:
        line = layout.first + 1 + error.row
        raise other_mark(f"{name}:{line}:{at + 1}", error.cell) from None
    seconds, dated = stamps.from_numbers(values, unit)
    if dated and np.any(np.abs(seconds - _MIDDLE) > _MIDDLE):
        row = int(np.argmax(np.abs(np.nan_to_num(seconds, nan=_MIDDLE) - _MIDDLE) > _MIDDLE))
        raise RecordError(
            f"{name}:{layout.first + 1 + row}:{at + 1}",
            f"{text[row]!r} counted as {unit} is no time from 1970 to 2170",
            "say how the column counts with --time-unit",
        )
    if not dated and np.any(np.abs(seconds) > _TEN_YEARS):
        row = int(np.argmax(np.abs(np.nan_to_num(seconds)) > _TEN_YEARS))
        raise RecordError(
            f"{name}:{layout.first + 1 + row}:{at + 1}",
            f"{text[row]!r} counted in {unit} is more than ten years",
            "say --time-unit serial for days as in spreadsheets, unix if it counts from 1970, or "
            "how it counts",
        )
    if not dated:
        notes = () if asked is None else (f"{name}: the time is in {unit}, as said.",)
        return Times(seconds, False, False, None, columns, notes)
    zone: tzinfo | None = UTC if unit == "unix" else None
    if options.zone is not None:
        zone = zone_named(options.zone)
        if unit == "serial":
            good = np.isfinite(seconds)
            seconds[good] = in_zone(seconds[good], zone).seconds
    return Times(seconds, True, False, zone, columns, ())
