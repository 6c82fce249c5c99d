"""One short record in the layouts recorders, data loggers and people write: each reads back alike.

The forms are common practice, no source.
"""

import gzip

from hts.record.reading import Options
from tests.record.reading.short_log import (
    PLAIN,
    START,
    C,
    T,
    comma,
    fahrenheit,
    heads,
    long,
    seconds,
    table,
    torn,
    workbook,
)

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
    "a remark below the names": (PLAIN.replace("\n", "\n# furnace 3\n", 1), Options(), ()),
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
    "long, the clock with its zone": (
        long("Time", "Channel", "Value (degC)").replace("Time", "Time (UTC)"),
        Options(),
        (),
    ),
    "long, tabs, serial days, decimal comma": (
        long("Day", "Channel", "Value", separator="\t").replace(".", ","),
        Options(time_unit="serial", unit="degC"),
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
    "status behind each, tabs, and blanks within the cells": (
        table(
            ("Time", *(f for tag in T for f in (f"{tag} (degC)", f"{tag} status"))),
            row=lambda n, c: [
                c[0].replace("T", " "),
                *(f for v in c[1:] for f in (v.replace(".", ","), "OK")),
            ],
            separator="\t",
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
