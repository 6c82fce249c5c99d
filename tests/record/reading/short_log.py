"""One short record, and how it is written."""

from __future__ import annotations

import io
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import NamedTuple

import openpyxl

from hts.record.reading import Options


class Channel(NamedTuple):
    instrument: str | None
    number: int | None


class Tag(NamedTuple):
    tag: str
    recorder: Channel
    connected: bool = True
    spare_of: str = ""


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
            cells |= {
                "Day": f"{seconds(at) / 86400 + 25569:.8f}",
                "Value": str(value),
                "Value (degC)": str(value),
                "No": tag[1:],
            }
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
