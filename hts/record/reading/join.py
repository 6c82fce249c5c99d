"""Several logs of one run as one."""

from __future__ import annotations

from functools import reduce

import numpy as np
from numpy.typing import NDArray

from hts.record.errors import RecordError
from hts.record.reading.log import Log, shown, taken
from hts.record.reading.order import Rows
from hts.record.record import BLANK, Floats, Jump, Series

#: s. Times of two files nearer than this are the same.
_SAME = 1e-3


def join(logs: list[Log]) -> tuple[Log, tuple[str, ...]]:
    """One log, and sentences on how its parts fit together. Logs with a thermocouple in common
    follow each other; logs without, as of two recorders, stand side by side."""
    if len(logs) == 1:
        return logs[0], ()
    _same_kind(logs)
    notes: list[str] = []
    if logs[0].dated:
        logs = sorted(logs, key=lambda log: float(log.seconds[0]))
    chains = [reduce(lambda a, b: _follow(a, b, notes), chain) for chain in _chains(logs)]
    # The times are those of the one that is read most often, so that nothing of it is lost.
    chains.sort(key=lambda log: round(_apart(log)))
    return reduce(lambda a, b: _beside(a, b, notes), chains), tuple(notes)


def _apart(log: Log) -> float:
    """s from row to row."""
    return float(np.median(np.diff(log.seconds))) if len(log.seconds) > 1 else 0.0


def _same_kind(logs: list[Log]) -> None:
    first = logs[0]
    for log in logs[1:]:
        if log.dated != first.dated:
            raise RecordError(
                log.file.name,
                f"it and {first.file.name} do not both state the date",
                "give files of one recorder and one layout",
            )
        if (log.zone is None) != (first.zone is None):
            raise RecordError(
                log.file.name,
                f"it and {first.file.name} do not both state the time zone",
                "say the zone of the others with --zone",
            )


def _chains(logs: list[Log]) -> list[list[Log]]:
    chains: list[list[Log]] = []
    for log in logs:
        for chain in chains:
            if any(set(log.series) & set(other.series) for other in chain):
                chain.append(log)
                break
        else:
            chains.append([log])
    return chains


def _follow(earlier: Log, later: Log, notes: list[str]) -> Log:
    later = _same_clock(earlier, later)
    end = float(earlier.seconds[-1])
    overlap = int(np.searchsorted(later.seconds, end + _SAME))
    if overlap:
        _refuse_other(earlier, later, overlap)
        earlier, more = _completed(earlier, later, overlap)
        kept = f", but for {', '.join(more)}" if more else ""
        notes.append(
            f"{overlap} rows of {later.file.name} stand in {earlier.file.name} too and are "
            f"dropped{kept}."
        )
    rows = np.arange(overlap, len(later.seconds))
    if not len(rows):
        return _with(earlier, later, earlier.seconds, earlier.series, earlier.unmapped)
    seconds = np.concatenate((earlier.seconds, later.seconds[rows]))
    sizes = (len(earlier.seconds), len(rows))
    rest = {tag: taken(one, rows) for tag, one in later.series.items()}
    others = {column: taken(one, rows) for column, one in later.unmapped.items()}
    return _with(
        earlier,
        later,
        seconds,
        _stacked(earlier.series, rest, sizes),
        _stacked(earlier.unmapped, others, sizes),
    )


def _same_clock(earlier: Log, later: Log) -> Log:
    """The later log after the times the clock was set in the earlier one."""
    by = sum(jump.by for jump in earlier.jumps)
    if not by:
        return later
    return later._replace(
        seconds=later.seconds - by,
        jumps=tuple(Jump(jump.at - by, jump.by) for jump in later.jumps),
        remarks=tuple((at - by, text) for at, text in later.remarks),
    )


def _completed(earlier: Log, later: Log, overlap: int) -> tuple[Log, list[str]]:
    """The earlier log with what only the later one has of the rows that stand in both, and the
    thermocouples whose readings it has from there."""
    at = _nearest(earlier.seconds, later.seconds[:overlap])
    count = len(earlier.seconds)

    def filled(
        ours: dict[str, Series], its: dict[str, Series]
    ) -> tuple[dict[str, Series], list[str]]:
        found, more = dict(ours), []
        for key, series in its.items():
            own = ours.get(key) or _blank(count)._replace(
                tag=series.tag, column=series.column, unit=series.unit
            )
            empty = own.status[at] == BLANK
            if not np.any(empty & (series.status[:overlap] != BLANK)):
                continue
            values, status, raw = own.values.copy(), own.status.copy(), own.as_read.copy()
            rows = at[empty]
            values[rows] = series.values[:overlap][empty]
            status[rows] = series.status[:overlap][empty]
            raw[rows] = series.as_read[:overlap][empty]
            whole = own.raw is None and series.raw is None
            found[key] = own._replace(values=values, status=status, raw=None if whole else raw)
            more.append(key)
        return found, more

    series, more = filled(earlier.series, later.series)
    unmapped, _ = filled(earlier.unmapped, later.unmapped)
    return earlier._replace(series=series, unmapped=unmapped), more


def _refuse_other(earlier: Log, later: Log, overlap: int) -> None:
    """Rows in both files may only be the same rows."""
    times = later.seconds[:overlap]
    at = _nearest(earlier.seconds, times)
    same = np.abs(earlier.seconds[at] - times) < _SAME
    for tag in earlier.series.keys() & later.series.keys():
        one, two = earlier.series[tag].as_read[at], later.series[tag].as_read[:overlap]
        blank = (earlier.series[tag].status[at] == BLANK) | (
            later.series[tag].status[:overlap] == BLANK
        )
        same &= blank | np.isclose(one, two, rtol=0.0, atol=1e-9, equal_nan=True)
    if same.all():
        return
    when = shown(float(times[~same][0]), later.dated, later.zone)
    remedy = "leave out one of the files, or its part that is there twice"
    if not later.dated:
        remedy = "files that each count from their own start cannot be joined: export clock times"
    elif later.zone is None:
        remedy += "; if the clock was changed between them, say --zone"
    raise RecordError(
        later.file.name, f"at {when} it and {earlier.file.name} have different rows", remedy
    )


def _beside(log: Log, two: Log, notes: list[str]) -> Log:
    """The second read at the times of the first, which it shares no thermocouple with."""
    if not log.dated:
        raise RecordError(
            two.file.name,
            f"it and {log.file.name} each count from their own start",
            "export clock times, which tell how they stand to each other",
        )
    at = _nearest(two.seconds, log.seconds)
    away = np.abs(two.seconds[at] - log.seconds)
    reach = max(_apart(log), _apart(two)) * 0.75
    near = away <= reach
    if not near.any():
        raise RecordError(
            two.file.name, f"it has no time in common with {log.file.name}", "give files of one run"
        )
    farthest = f"{float(away[near].max()):.3g}"
    notes.append(
        f"{two.file.name} is read at the times of {log.file.name}: at each the nearest row, at "
        f"most {farthest} s away."
    )

    def moved(all_of: dict[str, Series]) -> dict[str, Series]:
        return {
            key: _blanked(taken(series, at), ~near)._replace(rows=at)
            for key, series in all_of.items()
        }

    return _with(
        log,
        two,
        log.seconds,
        {**log.series, **moved(two.series)},
        {**moved(two.unmapped), **log.unmapped},
    )


def _with(
    log: Log, two: Log, seconds: Floats, series: dict[str, Series], unmapped: dict[str, Series]
) -> Log:
    return log._replace(
        seconds=seconds,
        series=series,
        unmapped=unmapped,
        jumps=(*log.jumps, *two.jumps),
        remarks=tuple(sorted({*log.remarks, *two.remarks})),
    )


def _nearest(times: Floats, wanted: Floats) -> Rows:
    right = np.clip(np.searchsorted(times, wanted), 1, len(times) - 1)
    left_nearer = wanted - times[right - 1] <= times[right] - wanted
    rows: Rows = np.where(left_nearer, right - 1, right)
    return rows


def _blanked(series: Series, rows: NDArray[np.bool_]) -> Series:
    values, status = series.values.copy(), series.status.copy()
    values[rows], status[rows] = np.nan, BLANK
    raw = series.raw.copy() if series.raw is not None else None
    if raw is not None:
        raw[rows] = np.nan
    return series._replace(values=values, status=status, raw=raw)


def _stacked(
    first: dict[str, Series], second: dict[str, Series], sizes: tuple[int, int]
) -> dict[str, Series]:
    """The series of both, one after the other; blank where a file lacks the column."""
    stacked = {}
    for key in dict.fromkeys((*first, *second)):
        parts = [
            part if part is not None else _blank(size)
            for part, size in zip((first.get(key), second.get(key)), sizes, strict=True)
        ]
        own = first.get(key) or second[key]
        raw = None
        if any(part.raw is not None for part in parts):
            raw = np.concatenate([part.as_read for part in parts])
        stacked[key] = own._replace(
            values=np.concatenate([part.values for part in parts]),
            status=np.concatenate([part.status for part in parts]),
            raw=raw,
        )
    return stacked


def _blank(rows: int) -> Series:
    return Series("", np.full(rows, np.nan), np.full(rows, BLANK, dtype=np.uint8), "", "")
