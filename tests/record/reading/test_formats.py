"""A record in each of many layouts reads back alike, and what cannot be read rightly is refused."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pytest

from hts.record.errors import RecordError
from hts.record.reading import Options, read
from hts.record.record import Record
from tests.record.reading.formats import FORMATS
from tests.record.reading.short_log import (
    PLAIN,
    ROWS,
    START,
    TAGS,
    VALUES,
    C,
    T,
    heads,
    seconds,
    table,
)
from tests.rows import each_row

AGAIN = "Time,T2 (degC),T1 (degC),T3 (degC),T4 (degC)\n"
HALF = PLAIN.index("2026-11-24 06:30")
#: name -> text, and what the message says.
REFUSED = {
    "columns exchanged in the midst": (PLAIN[:HALF] + AGAIN + PLAIN[HALF:], "'T2', and 'T1'"),
    "another unit in the midst": (
        PLAIN[:HALF] + PLAIN.split("\n")[0].replace("degC", "degF") + "\n" + PLAIN[HALF:],
        "'degF', and 'degC' before",
    ),
    "a time for each channel": (
        table(
            ("T1 time", "T1 (degC)", "T2 time", "T2 (degC)"),
            row=lambda n, c: [c[0], c[1], f"2026-11-25 07:{n:02}:00", c[2]],
        ),
        "other times than column 1",
    ),
    "a cell is missing between blanks": (
        table(heads(*T), separator="   ").replace("331.9   335.0", "331.9"),
        "blanks do not tell which is missing",
    ),
    "more names than cells between blanks": (
        table(("Date", *heads(*T)), separator="   "),
        "blanks do not tell which is missing",
    ),
    "thousands alone": (
        table(separator=";", cell=lambda v: f"{1000 + int(v):,}"),
        "can be a decimal mark or set thousands apart",
    ),
    "24:00": (table(stamp=lambda at: f"{at:%d.%m.%Y} 24:00:00"), "midnight before that day or"),
    "millivolts": (table(heads(*T, unit=" (mV)")), "in mV, which is no unit of temperature"),
    "objects": ('{"time": "2026-11-24T06:12:00", "T1": 20.5}\n' * 9, "not a table of rows"),
    "an unknown time": (table(stamp=lambda at: f"PT{seconds(at)}S"), "is not known as a time"),
    "two columns of a name": (
        table(heads("T1", "T2", "T2", "T3", unit=" (degC)")),
        "columns: {T2: column 3}",
    ),
}


def asked(tmp_path: Path, name: str) -> Record:
    content, options, _ = FORMATS[name]
    path = tmp_path / "log.csv"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    if options.mapping is not None:
        beside = tmp_path / "columns.yaml"
        beside.write_text(options.mapping.replace("map:", "columns:"))
        options = options._replace(mapping=str(beside))
    return read([str(path)], TAGS, options)


def test_there_are_enough() -> None:
    assert len(FORMATS) >= 54


@each_row("name", FORMATS)
def test_a_format(tmp_path_factory: pytest.TempPathFactory, name: str) -> None:
    record = asked(tmp_path_factory.mktemp("log"), name)
    missing = FORMATS[name][2]
    kept = [n for n in range(ROWS) if n not in missing]
    assert len(record.elapsed) == len(kept)
    np.testing.assert_allclose(record.elapsed, [60 * n for n in kept], atol=0.01)
    assert record.start is not None
    wall = record.start.replace(tzinfo=None, microsecond=0)
    assert abs((wall - START).total_seconds()) < 1
    assert list(record.series) == list(T)
    for k, tag in enumerate(T):
        wanted = [VALUES[n][k] for n in kept]
        np.testing.assert_allclose(record.series[tag].values, wanted, atol=2e-3, err_msg=tag)
    if missing:
        assert any("left out" in note for note in record.assumed), record.assumed


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_read_rightly_is_refused(tmp_path: Path, name: str) -> None:
    text, said = REFUSED[name]
    path = tmp_path / "log.csv"
    path.write_text(text)
    with pytest.raises(RecordError) as error:
        read([str(path)], TAGS, Options(unit="degC"))
    assert said in str(error.value)


LATE = datetime(2026, 11, 24, 23, 40)


@pytest.mark.parametrize(
    "stamp",
    [
        lambda at: f"{at:%H:%M:%S}".replace("00:00:00", "24:00:00"),
        lambda at: f"2026-11-24 {at:%H:%M:%S}",
        # Summer time ends at 3:00, before the clock shows again what it showed at the start.
        lambda at: f"{datetime(2026, 10, 25, 2, 40) + (at - LATE) - timedelta(hours=at.hour < 2)}",
    ],
    ids=["midnight as 24:00", "a date that stays", "an hour back"],
)
def test_a_clock_that_goes_back_is_followed(
    tmp_path: Path, stamp: Callable[[datetime], str]
) -> None:
    path = tmp_path / "log.csv"
    path.write_text(table(stamp=lambda at: stamp(at - START + LATE)))
    record = read([str(path)], TAGS, Options())
    np.testing.assert_allclose(record.elapsed, [60 * n for n in range(ROWS)])
    np.testing.assert_allclose(record.series["T1"].values, [row[0] for row in VALUES], atol=1e-9)


def test_a_reading_called_bad_is_none(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text(
        table(
            ("Time", *(head for tag in T for head in (f"{tag} (degC)", "Status"))),
            row=lambda n, c: [c[0], *(f for v in c[1:] for f in (v, "OPEN" if n == 9 else "OK"))],
        )
    )
    read_values = read([str(path)], TAGS, Options()).series["T1"].values
    assert np.flatnonzero(np.isnan(read_values)).tolist() == [9]


def test_an_empty_cell_between_blanks_is_told_by_its_place(tmp_path: Path) -> None:
    def cells(n: int, row: list[str]) -> list[str]:
        return [row[0], *(f"{'' if n == 9 and at == 1 else v:>8}" for at, v in enumerate(row[1:]))]

    path = tmp_path / "log.txt"
    path.write_text(table(("Time".ljust(19), *(f"{tag:>8}" for tag in T)), "  ", row=cells))
    series = read([str(path)], TAGS, C).series
    assert [int(np.isnan(one.values).sum()) for one in series.values()] == [0, 1, 0, 0]
    np.testing.assert_allclose(series["T3"].values, [row[2] for row in VALUES])
