"""One short record in the layouts recorders, data loggers and people write: each reads back alike.

The forms are common practice, no source.
"""

from __future__ import annotations

import gzip
import io
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from typing import NamedTuple

import numpy as np
import openpyxl
import pytest

from hts.record.errors import RecordError
from hts.record.reading import Options, read
from hts.record.record import Record


class Channel(NamedTuple):
    instrument: str | None
    number: int | None


class Tag(NamedTuple):
    tag: str
    recorder: Channel
    connected: bool = True


TAGS = tuple(Tag(f"T{n}", Channel("R1", n)) for n in (1, 2, 3, 4))
START = datetime(2026, 11, 24, 6, 12)
ROWS = 40
AT = [START + timedelta(minutes=n) for n in range(ROWS)]
#: degC, tenths; no two alike, and some below 100, for a column of kelvin could not be.
VALUES = [[round(20.5 + 17.3 * n + 3.1 * k, 1) for k in range(4)] for n in range(ROWS)]
T = ("T1", "T2", "T3", "T4")


def table(
    heads: tuple[str, ...] = ("Time", *(f"{tag} (degC)" for tag in T)),
    separator: str = ",",
    stamp: Callable[[datetime], str] = lambda at: at.isoformat(sep=" "),
    cell: Callable[[float], str] = str,
    before: str = "",
    after: str = "",
    row: Callable[[int, list[str]], list[str]] = lambda n, cells: cells,
) -> str:
    lines = [separator.join(heads)] if heads else []
    for n, (at, values) in enumerate(zip(AT, VALUES, strict=True)):
        lines.append(separator.join(row(n, [stamp(at), *map(cell, values)])))
    return before + "\n".join(lines) + "\n" + after


def heads(*names: str, unit: str = "") -> tuple[str, ...]:
    return ("Time", *(name + unit for name in names))


def seconds(at: datetime) -> int:
    return int((at - datetime(1970, 1, 1)).total_seconds())


def long(*columns: str, separator: str = ",") -> str:
    lines = [separator.join(columns)]
    for at, values in zip(AT, VALUES, strict=True):
        for tag, value in zip(T, values, strict=True):
            cells = {"Time": at.isoformat(sep=" "), "Channel": tag, "Tag": tag, "Unit": "degC"}
            cells |= {"Value": str(value), "Value (degC)": str(value), "No": tag[1:]}
            lines.append(separator.join(cells[column] for column in columns))
    return "\n".join(lines) + "\n"


def torn(text: str, line: int, keep: int, joined: bool = False) -> str:
    """A line cut after `keep` letters; `joined`: without its line end, too."""
    lines = text.split("\n")
    lines[line - 1] = lines[line - 1][:keep]
    if joined:
        lines[line - 1 : line + 1] = ["".join(lines[line - 1 : line + 1])]
    return "\n".join(lines)


def workbook(dates: bool, before: int = 0, apart: bool = False, summary: bool = False) -> bytes:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    if summary:
        for row in (("Max", 704.5, "T4"), ("Min", 20.5, "T1"), ("Rows", ROWS, "all")):
            sheet.append(row)
        sheet = book.create_sheet("Readings")
    for _ in range(before):
        sheet.append(["Furnace log", None, "shift A"])
    sheet.append([*["Date"] * apart, "Time", *(f"{tag} (degC)" for tag in T)])
    for at, values in zip(AT, VALUES, strict=True):
        stamp = [at.date(), at.time()] if apart else [at if dates else at.isoformat(sep=" ")]
        sheet.append([*stamp, *values])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def comma(value: float) -> str:
    return str(value).replace(".", ",")


def fahrenheit(value: float) -> str:
    return f"{value * 1.8 + 32:.3f}"


PLAIN = table()
C = Options(unit="degC")

#: name -> text or bytes, options, rows that are missing on purpose.
FORMATS: dict[str, tuple[str | bytes, Options, tuple[int, ...]]] = {
    # --- what stands over the columns ---
    "tags with unit": (PLAIN, Options(), ()),
    "TC 1": (table(heads("TC 1", "TC 2", "TC 3", "TC 4", unit=" (degC)")), Options(), ()),
    "TC-1": (table(heads("TC-1", "TC-2", "TC-3", "TC-4")), C, ()),
    "TC1 [C]": (table(heads("TC1", "TC2", "TC3", "TC4", unit=" [C]")), Options(), ()),
    "PV1": (table(heads("PV1", "PV2", "PV3", "PV4")), C, ()),
    "PV beside SP and OUT": (
        table(
            heads("PV1", "SP1", "PV2", "SP2", "PV3", "SP3", "PV4", "OUT4"),
            row=lambda n, c: [c[0], c[1], "700", c[2], "700", c[3], "700", c[4], "55"],
        ),
        C,
        (),
    ),
    "CH1": (table(heads("CH1", "CH2", "CH3", "CH4", unit=" (°C)")), Options(), ()),
    "Ch 01": (table(heads("Ch 01", "Ch 02", "Ch 03", "Ch 04", unit=" (°C)")), Options(), ()),
    "Channel 1": (table(heads("Channel 1", "Channel 2", "Channel 3", "Channel 4")), C, ()),
    "recorder and channel": (table(heads(*(f"R1 ch {n}" for n in (1, 2, 3, 4)))), C, ()),
    "tag, place and unit": (
        table(
            heads(*(f"T{n} weld {c} o'clock (degC)" for n, c in ((1, 12), (2, 3), (3, 6), (4, 9))))
        ),
        Options(),
        (),
    ),
    "tag and zone": (table(heads("T1: top", "T2: right", "T3: bottom", "T4: left")), C, ()),
    "tag and channel": (table(heads(*(f"CH{n} T{n}" for n in (1, 2, 3, 4)))), C, ()),
    "tag_unit": (table(heads("T1_degC", "T2_degC", "T3_degC", "T4_degC")), Options(), ()),
    "numbers": (table(heads("1", "2", "3", "4")), C, ()),
    "Input 1": (table(heads("Input 1", "Input 2", "Input 3", "Input 4")), C, ()),
    "Temp 1": (table(heads("Temp 1", "Temp 2", "Temp 3", "Temp 4")), C, ()),
    "Temperature 1 (C)": (
        table(heads(*(f"Temperature {n} (C)" for n in (1, 2, 3, 4)))),
        Options(),
        (),
    ),
    "Thermocouple 1": (table(heads(*(f"Thermocouple {n}" for n in (1, 2, 3, 4)))), C, ()),
    "T01": (table(heads("T01", "T02", "T03", "T04")), C, ()),
    "T 1": (table(heads("T 1", "T 2", "T 3", "T 4")), C, ()),
    "T-1": (table(heads("T-1", "T-2", "T-3", "T-4")), C, ()),
    "AI1": (table(heads("AI1", "AI2", "AI3", "AI4")), C, ()),
    "a row of units": (
        table(heads(*T), before="").replace("\n", "\n,degC,degC,degC,degC\n", 1),
        Options(),
        (),
    ),
    "two rows of names": (
        "Channel,1,2,3,4\n" + table(heads(*T, unit=" (degC)")),
        Options(),
        (),
    ),
    "no heading line": (table(()), C._replace(mapping="map: {T1: 2, T2: 3, T3: 4, T4: 5}"), ()),
    "no heading line, by name": (
        table(()),
        C._replace(mapping="map: {T1: column 2, T2: column 3, T3: column 4, T4: column 5}"),
        (),
    ),
    # --- time ---
    "T between": (table(stamp=lambda at: at.isoformat()), Options(), ()),
    "Z": (table(stamp=lambda at: at.isoformat() + "Z"), Options(), ()),
    "offset": (table(stamp=lambda at: at.isoformat() + "+00:00"), Options(), ()),
    "unix s": (table(stamp=lambda at: str(seconds(at))), Options(time_unit="unix"), ()),
    "unix ms": (table(stamp=lambda at: f"{seconds(at)}000"), Options(time_unit="unix"), ()),
    "unix ms, by its size": (table(stamp=lambda at: f"{seconds(at)}000"), Options(), ()),
    "unix ms, told": (
        table(
            ("Time (unix ms)", *heads(*T, unit=" (degC)")[1:]), stamp=lambda at: f"{seconds(at)}123"
        ),
        Options(),
        (),
    ),
    "unix us": (table(stamp=lambda at: f"{seconds(at)}000000"), Options(time_unit="unix"), ()),
    "packed": (table(stamp=lambda at: f"{at:%Y%m%d%H%M%S}"), Options(), ()),
    "packed, no seconds": (table(stamp=lambda at: f"{at:%Y%m%d%H%M}"), Options(), ()),
    "packed T": (table(stamp=lambda at: f"{at:%Y%m%dT%H%M%S}"), Options(), ()),
    "packed, blank": (table(stamp=lambda at: f"{at:%Y%m%d %H%M%S}"), Options(), ()),
    "packed in two columns": (
        table(("Date", *heads(*T, unit=" (degC)")), stamp=lambda at: f"{at:%Y%m%d,%H%M%S}"),
        Options(),
        (),
    ),
    "day first": (table(stamp=lambda at: f"{at:%d/%m/%Y %H:%M:%S}"), Options(), ()),
    "points in the time": (table(stamp=lambda at: f"{at:%d.%m.%Y %H.%M.%S}"), Options(), ()),
    "month and half days": (table(stamp=lambda at: f"{at:%m/%d/%Y %I:%M:%S %p}"), Options(), ()),
    "named month": (table(stamp=lambda at: f"{at:%d-%b-%Y %H:%M}"), Options(), ()),
    "weekday": (table(stamp=lambda at: f"{at:%a %d %b %Y %H:%M:%S}"), Options(), ()),
    "parts of a second": (table(stamp=lambda at: f"{at:%Y-%m-%d %H:%M:%S}.000"), Options(), ()),
    "date and time apart": (
        table(("Date", *heads(*T, unit=" (degC)")), stamp=lambda at: f"{at:%d.%m.%Y,%H:%M:%S}"),
        Options(),
        (),
    ),
    "six columns": (
        table(
            ("Year", "Month", "Day", "Hour", "Minute", "Second", *heads(*T, unit=" (degC)")[1:]),
            stamp=lambda at: ",".join(map(str, at.timetuple()[:6])),
        ),
        Options(),
        (),
    ),
    "five columns": (
        table(
            ("YYYY", "MM", "DD", "hh", "mm", *heads(*T, unit=" (degC)")[1:]),
            stamp=lambda at: f"{at:%Y,%m,%d,%H,%M}",
        ),
        Options(),
        (),
    ),
    "word of a zone": (
        table(stamp=lambda at: f"{at:%Y-%m-%d %H:%M:%S} CET"),
        Options(zone="Europe/Oslo"),
        (),
    ),
    "serial days": (
        table(stamp=lambda at: f"{seconds(at) / 86400 + 25569:.9f}"),
        Options(time_unit="serial"),
        (),
    ),
    "underscore": (table(stamp=lambda at: f"{at:%Y-%m-%d_%H:%M:%S}"), Options(), ()),
    "strokes": (table(stamp=lambda at: f"{at:%d/%m/%Y %H-%M-%S}"), Options(), ()),
    "time before date": (table(stamp=lambda at: f"{at:%H:%M:%S %d/%m/%Y}"), Options(), ()),
    "time within date": (table(stamp=lambda at: f"{at:%a %b %d %H:%M:%S %Y}"), Options(), ()),
    "time in brackets": (table(stamp=lambda at: f"[{at}]"), Options(), ()),
    "month in full": (table(stamp=lambda at: f'"{at:%B %d, %Y %H:%M:%S}"'), Options(), ()),
    "half days in a column": (
        table(
            ("Date", "Time", "AM/PM", *heads(*T, unit=" (degC)")[1:]),
            stamp=lambda at: f"{at:%m/%d/%Y,%I:%M:%S,%p}",
        ),
        Options(),
        (),
    ),
    "date once": (
        table(
            ("Date", *heads(*T, unit=" (degC)")),
            stamp=lambda at: f"{'' if at > START else at.date()},{at:%H:%M:%S}",
        ),
        Options(),
        (),
    ),
    # --- shape of the file ---
    "an empty column first": ("," + PLAIN.strip().replace("\n", "\n,") + "\n", Options(), ()),
    "bars at both ends": (
        "|" + PLAIN.strip().replace(",", "|").replace("\n", "|\n|") + "|\n",
        Options(),
        (),
    ),
    "long, with a state": (
        long("Time", "Tag", "Value", "Unit", separator=",")
        .replace("degC", "degC,Good")
        .replace("Unit", "Unit,Quality"),
        Options(),
        (),
    ),
    "millivolts beside": (
        table(
            ("Time", *(head for tag in T for head in (f"{tag} (mV)", f"{tag} (degC)"))),
            row=lambda n, c: [c[0], *(cell for v in c[1:] for cell in ("7.1", v))],
        ),
        Options(),
        (),
    ),
    "degrees of a code page": (table(heads(*T, unit=" (°C)")).encode("cp437"), Options(), ()),
    "degrees written twice": (table(heads(*T, unit=" (Â°C)")), Options(), ()),
    "long": (long("Time", "Channel", "Value (degC)"), Options(), ()),
    "long with units": (long("Time", "Tag", "Value", "Unit"), Options(), ()),
    "long by number": (long("No", "Time", "Value (degC)"), Options(), ()),
    "long, channel first": (long("Channel", "Time", "Value", "Unit"), Options(), ()),
    "long, channel first, semicolons": (
        long("Channel", "Time", "Value (degC)", separator=";"),
        Options(),
        (),
    ),
    "long, decimal comma": (
        long("Time", "Channel", "Value", "Unit", separator=";").replace(".", ","),
        Options(),
        (),
    ),
    "long, channel first, decimal comma": (
        long("Channel", "Time", "Value", "Unit", separator=";").replace(".", ","),
        Options(),
        (),
    ),
    "long, semicolons": (long("Time", "Channel", "Value", separator=";"), C, ()),
    "footer": (
        PLAIN + "Max,695.2,698.3,701.4,704.5\nMin,20.5,23.6,26.7,29.8\nAvg,357.8,361,364,367\n",
        Options(),
        (),
    ),
    "footer behind a blank line": (
        PLAIN + "\nMaximum:,695.2,698.3,701.4,704.5\nEnd of file\n",
        Options(),
        (),
    ),
    "footer without a time": (
        PLAIN + ",Max,698.3,701.4,704.5\n,Min,23.6,26.7,29.8\n",
        Options(),
        (),
    ),
    "a time is lost": (PLAIN.replace("2026-11-24 06:30:00,", ","), Options(), (18,)),
    "NUL at the end": (PLAIN.encode() + b"\0" * 512, Options(), ()),
    "NUL in the middle": (PLAIN.replace("06:30:00,331.9", "06:30:00,33\0\0\0\0"), Options(), (18,)),
    "NUL lines": (
        PLAIN.replace("2026-11-24 06:30", "\0\0\0\0\0\0\n2026-11-24 06:30"),
        Options(),
        (),
    ),
    "torn in the time": (torn(PLAIN, 20, 13), Options(), (18,)),
    "torn in a number": (torn(PLAIN, 20, 27), Options(), (18,)),
    "torn below quotes": ('made by,"one, another"\n' + torn(PLAIN, 20, 27), Options(), (18,)),
    "torn and joined": (torn(PLAIN, 20, 27, joined=True), Options(), (18, 19)),
    "torn in the time and joined": (torn(PLAIN, 20, 13, joined=True), Options(), (18, 19)),
    "headings repeated": (
        table(
            row=lambda n, c: [
                ("\n" + PLAIN.split("\n")[0] + "\n" if n == 20 else "") + c[0],
                *c[1:],
            ]
        ),
        Options(),
        (),
    ),
    "comments": ("# furnace 3\n# shift A\n" + PLAIN, Options(), ()),
    "preamble": ("Recorder;R1\nOperator;night\n\n" + table(separator=";"), Options(), ()),
    "count of rows first": (
        table(("No", *heads(*T, unit=" (degC)")), row=lambda n, c: [str(n + 1), *c]),
        Options(),
        (),
    ),
    "status behind each": (
        table(
            ("Time", *(f for tag in T for f in (f"{tag} (degC)", "Status"))),
            row=lambda n, c: [c[0], *(f for v in c[1:] for f in (v, "OK"))],
        ),
        Options(),
        (),
    ),
    # --- cells ---
    "star behind": (table(cell=lambda v: f"{v}*" if v > 500 else str(v)), Options(), ()),
    "star before": (
        table(cell=lambda v: f"*{v}" if v > 500 else str(v)),
        Options(),
        (),
    ),
    "letters behind": (
        table(cell=lambda v: f"{v} H" if v > 690 else f"{v}L" if v < 60 else str(v)),
        Options(),
        (),
    ),
    "brackets": (table(cell=lambda v: f"[{v}]" if 300 < v < 320 else str(v)), Options(), ()),
    "round brackets": (table(cell=lambda v: f"({v})" if 300 < v < 320 else str(v)), Options(), ()),
    "unit in the cells": (table(heads(*T), cell=lambda v: f"{v} °C"), Options(), ()),
    "sign and zeros": (table(cell=lambda v: f"+{v:07.1f}"), Options(), ()),
    "powers of ten": (table(cell=lambda v: f"{v:.4E}"), Options(), ()),
    "quoted": (table(cell=lambda v: f'"{v}"', stamp=lambda at: f'"{at}"'), Options(), ()),
    "decimal comma": (table(separator=";", cell=comma), Options(), ()),
    "fahrenheit": (table(heads(*T, unit=" (degF)"), cell=fahrenheit), Options(), ()),
    "kelvin": (table(heads(*T, unit=" (K)"), cell=lambda v: f"{v + 273.15:.2f}"), Options(), ()),
    "unit before": ("Unit: degC\n\n" + table(heads(*T)), Options(), ()),
    # --- bytes ---
    "tab": (table(separator="\t"), Options(), ()),
    "bar": (table(separator="|"), Options(), ()),
    "comma and blank": (table(separator=", "), Options(), ()),
    "blanks": (table(heads(*T), separator="   "), C, ()),
    "ends of lines CR LF": (PLAIN.replace("\n", "\r\n"), Options(), ()),
    "ends of lines CR": (PLAIN.replace("\n", "\r"), Options(), ()),
    "an empty line after each": (PLAIN.replace("\n", "\n\n"), Options(), ()),
    "two carriage returns": (PLAIN.replace("\n", "\r\r\n"), Options(), ()),
    "mark of UTF-8": (PLAIN.encode("utf-8-sig"), Options(), ()),
    "UTF-16": (PLAIN.encode("utf-16"), Options(), ()),
    "UTF-16 big end first": (b"\xfe\xff" + PLAIN.encode("utf-16-be"), Options(), ()),
    "UTF-16 without mark": (PLAIN.encode("utf-16-le"), Options(), ()),
    "UTF-16 with NUL": (PLAIN.encode("utf-16") + b"\0" * 64, Options(), ()),
    "Latin-1": (table(heads(*T, unit=" (°C)")).encode("latin-1"), Options(), ()),
    "gzip": (gzip.compress(PLAIN.encode()), Options(), ()),
    "gzip of UTF-16": (gzip.compress(PLAIN.encode("utf-16")), Options(), ()),
    "workbook": (workbook(dates=True), Options(), ()),
    "workbook, times as text": (workbook(dates=False), Options(), ()),
    "workbook, lines before": (workbook(dates=True, before=3), Options(), ()),
    "workbook, dates apart": (workbook(dates=True, apart=True), Options(), ()),
    "workbook, a summary before": (workbook(dates=True, summary=True), Options(), ()),
}

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


@pytest.mark.parametrize("name", FORMATS)
def test_a_format(tmp_path: Path, name: str) -> None:
    record = asked(tmp_path, name)
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
