"""Logs to a record."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from hts.base.quantities import TIME, Quantity, QuantityError
from hts.record.errors import RecordError, missing_extra
from hts.record.reading import columns, events, source, stamps
from hts.record.reading.gaps import gaps
from hts.record.reading.join import join
from hts.record.reading.log import Begun, Log, begin, finish, read_log
from hts.record.reading.options import NOTHING, Options
from hts.record.reading.table import Body, table, tables
from hts.record.reading.zones import in_zone
from hts.record.record import Event, Jump, Record

if TYPE_CHECKING:
    import polars as pl

_EPOCH = datetime(1970, 1, 1)
#: s. What was noted may be a little before the first row or after the last.
_BESIDE = 3600.0
_DAY = 86400.0
#: No time of an event is further from 1970, whatever calendar it is put to.
_FARTHEST = 200 * 366 * _DAY
#: Bytes of text that wait at the most before they are split into columns.
_AT_ONCE = 2_000_000


def read(
    paths: Sequence[str],
    tags: Sequence[columns.Wanted] | None = None,
    options: Options = NOTHING,
) -> Record:
    """The record in these files, with a series for each of `tags` that a column is found for; with
    a series for each column of temperatures when `tags` is None.

    Raises RecordError, with place, cause and remedy, for what cannot be read and for what the files
    leave open.
    """
    if not paths:
        raise RecordError("", "no log is given", "name the file the recorder wrote")
    _need_polars()
    return _record([read_log(path, tags, options) for path in paths], paths, tags, options)


class Wished(NamedTuple):
    """The logs of a run, one or more, and the thermocouples whose series are wanted."""

    paths: Sequence[str]
    tags: Sequence[columns.Wanted] | None


def read_each(runs: Iterable[Wished], options: Options) -> Iterator[Record | RecordError]:
    """For each of many runs what `read` returns, or raises. Logs that are laid out alike are split
    into columns together."""
    _need_polars()
    waiting: list[_Waiting] = []
    size = 0
    for run in runs:
        waiting.append(_Waiting(run, [_begin(path, options) for path in run.paths]))
        size += sum(
            len(log[1].text) for log in waiting[-1].logs if not isinstance(log, RecordError)
        )
        if size >= _AT_ONCE:
            yield from _finished(waiting, options)
            waiting, size = [], 0
    yield from _finished(waiting, options)


class _Waiting(NamedTuple):
    """A run, and each of its logs with its rows as text, or why it cannot be read."""

    run: Wished
    logs: list[tuple[Begun, Body] | RecordError]


def _begin(path: str, options: Options) -> tuple[Begun, Body] | RecordError:
    try:
        return begin(path, options)
    except RecordError as error:
        return error


def _finished(waiting: list[_Waiting], options: Options) -> Iterator[Record | RecordError]:
    bodies = [log[1] for its in waiting for log in its.logs if not isinstance(log, RecordError)]
    frames = iter(tables(bodies))
    for run, logs in waiting:
        own = [None if isinstance(log, RecordError) else next(frames) for log in logs]
        try:
            yield _record(
                [_log(*pair, run.tags) for pair in zip(logs, own, strict=True)], *run, options
            )
        except RecordError as error:
            yield error


def _log(
    log: tuple[Begun, Body] | RecordError,
    frame: pl.DataFrame | None,
    tags: Sequence[columns.Wanted] | None,
) -> Log:
    if isinstance(log, RecordError):
        raise log
    begun, body = log
    return finish(begun, table(body) if frame is None else frame, tags)


def _need_polars() -> None:
    try:
        import polars  # noqa: F401
    except ImportError:  # pragma: no cover - the extra is installed for the tests
        raise missing_extra("polars") from None


def _record(
    logs: list[Log],
    paths: Sequence[str],
    tags: Sequence[columns.Wanted] | None,
    options: Options,
) -> Record:
    log, notes = join(logs)
    origin = float(log.seconds[0])
    elapsed = log.seconds - origin
    steps = np.diff(elapsed)
    interval = float(steps[0] if steps.min() == steps.max() else np.median(steps))
    series = log.series
    if tags is not None:
        series = {wanted.tag: series[wanted.tag] for wanted in tags if wanted.tag in series}
    bare = Record(
        elapsed,
        _start(log) if log.dated else None,
        series,
        log.unmapped,
        (),
        (),
        interval,
        gaps(elapsed, interval),
        tuple(one.file for one in logs),
        any(one.simulated for one in logs),
        0.0 if log.dated else origin,
        tuple(Jump(jump.at - origin, jump.by) for jump in log.jumps),
    )
    noted, in_events = _events(bare, log, logs, paths, tags, options)
    assumed = (
        *(note for one in logs for note in one.notes),
        *notes,
        *in_events,
        *_absent(bare, tags),
    )
    return bare._replace(events=noted, assumed=tuple(dict.fromkeys(assumed)))


def _start(log: Log) -> datetime:
    moment = _EPOCH + timedelta(seconds=float(log.seconds[0]))
    return moment if log.zone is None else moment.replace(tzinfo=UTC).astimezone(log.zone)


def _absent(record: Record, tags: Sequence[columns.Wanted] | None) -> tuple[str, ...]:
    if tags is None:
        return ()
    absent = [tag for tag in tags if tag.tag not in record.series]
    connected = [tag.tag for tag in absent if tag.connected]
    spare = [tag.tag for tag in absent if not tag.connected]
    notes = []
    if connected:
        notes.append(f"No column belongs to {', '.join(connected)}: nothing is shown for it.")
    if spare:
        notes.append(f"No column belongs to {', '.join(spare)}, which is not connected.")
    return tuple(notes)


def _events(
    record: Record,
    log: Log,
    logs: Sequence[Log],
    paths: Sequence[str],
    tags: Sequence[columns.Wanted] | None,
    options: Options,
) -> tuple[tuple[Event, ...], tuple[str, ...]]:
    names = [wanted.tag for wanted in tags] if tags is not None else None
    known = names if names is not None else list(record.series)
    origin = float(log.seconds[0])
    found = [events.from_cell(text, at - origin, known) for at, text in log.remarks]
    notes: list[str] = []
    listed = [one.map.events for one in logs if one.map.events is not None]
    if options.mapping is not None:
        listed = listed[:1]  # one map for all the logs
    if options.events is not None:
        listed.append(events.listed(options.events))
    else:
        for path in paths:
            beside = source.beside(path, ".events.yaml")
            if os.path.isfile(beside):
                listed.append(events.listed(beside))
                notes.append(f"The events {os.path.basename(beside)} beside the log are used.")
    orders = [one.map.options.day_order for one in logs if one.map.options.day_order]
    order = options.day_order or next(iter(orders), None)
    for items in listed:
        found += events.from_list(items, lambda text: when(record, text, order), names)
    return tuple(sorted(found, key=lambda event: event.at)), tuple(notes)


def when(record: Record, text: str, day_order: str | None = None) -> float | None:
    """Seconds from the start of the record for a time as its own clock shows it, or "3 h 12 min"
    after the start; None where it is none, or far from the record."""
    import polars as pl

    text = text.strip()
    column = pl.Series([text])
    base = 0.0 if record.start is None else _seconds(record.start)
    try:
        at = float(Quantity.read(text, TIME).value)
    except QuantityError:
        try:
            if stamps.dated(text):
                found, forms = stamps.from_dates(column, day_order)
                wall = float(found[0])
                if record.start is None:
                    return None
                if not abs(wall) < _FARTHEST:
                    return None
                if forms[0].zoned:
                    at = wall - record.start.timestamp() if record.start.tzinfo else float("nan")
                else:
                    at = _from_clock(record, wall - base, wall)
            else:
                wall = float(stamps.from_counted(column, "hh:mm")[0])
                at = _of_day(record, wall, base) if abs(wall) < _FARTHEST else float("nan")
        except (stamps.Unread, stamps.DayOrder):
            return None
    return at if -_BESIDE <= at <= record.end + _BESIDE else None


def _seconds(moment: datetime) -> float:
    return (moment.replace(tzinfo=None) - _EPOCH).total_seconds()


def _of_day(record: Record, of_day: float, base: float) -> float:
    """A time without a date: as the file counts, or on the only day it can be."""
    if record.start is None:
        at = _from_clock(record, of_day - record.origin, 0.0)
        return at + _DAY if at < -_BESIDE and record.origin > 0 else at
    after = (of_day - base) % _DAY
    if after > _DAY - _BESIDE and record.end < after:
        after -= _DAY  # shortly before the first row
    if after + _DAY <= record.end:
        return float("nan")  # of which day?
    return _from_clock(record, after, base + after)


def _from_clock(record: Record, after: float, wall: float) -> float:
    """Seconds from the start for a clock that shows `after` s more than at the start."""
    if record.start is not None and record.start.tzinfo is not None:
        utc = in_zone(np.array([wall]), record.start.tzinfo).seconds
        return float(utc[0]) - record.start.timestamp()
    for jump in record.jumps:
        if after < jump.at:
            break
        after -= jump.by
    return after
