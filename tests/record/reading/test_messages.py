"""What a log leaves open is told with its line, its cause and what to do; no column is guessed."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.record.errors import RecordError
from hts.record.reading import Options, read
from tests.record.reading.short_log import (
    AT,
    PLAIN,
    TAGS,
    C,
    Channel,
    T,
    Tag,
    heads,
    long,
    seconds,
    table,
)


@pytest.mark.parametrize(
    ("text", "options", "place", "cause", "remedy"),
    [
        # Which line it is does not depend on what stands before, and no column is proposed.
        (table(()), C, "log.csv:1", "no column belongs", "columns: {T1: …, T2: …}"),
        ("# a\n\n" + table(()), C, "log.csv:3", "column 1, column 2", "its number"),
        (table(heads("A", "B", "C", "D")), C, "log.csv:1", "Time, A, B, C, D", "T1: …"),
        (table(heads(*T)), Options(), "log.csv:1:2", "'T1' states no unit", "--unit"),
        (
            PLAIN.replace("\n", "\n,degF,degF,degF,degF\n", 1),
            Options(), "log.csv:1", "'T1 (degC)' states degC, and the row of units below it degF",
            "which is right",
        ),
        (
            "# a\n\n" + PLAIN.replace("2026-11-24 06:30:00", "2026-13-24 06:30:00"),
            Options(), "log.csv:22:1", "2026-13-24", "known are",
        ),
        (
            table(stamp=lambda at: f"{seconds(at)}"),
            Options(), "log.csv:1:1", "has no unit", "--time-unit",
        ),
        (
            table(stamp=lambda at: f"{seconds(at)}000"),
            Options(time_unit="s"), "log.csv:2:1", "more than ten years", "unix",
        ),
        (
            table(stamp=lambda at: f"{seconds(at)}000"),
            Options(time_unit="serial"), "log.csv:2:1", "no time from 1970", "--time-unit",
        ),
        (
            table(stamp=lambda at: f"{at:%Y-%m-%d %H:%M:%S} CET"),
            Options(), "log.csv:2:1", "stands for several", "--zone",
        ),
        (
            table(stamp=lambda at: f"{at:%Y-%m-%d %H:%M:%S} CET"),
            Options(zone="Asia/Tokyo"), "log.csv:2:1", "JST", "--zone",
        ),
        (
            long("Time", "Channel", "Value (degC)") + f"{AT[3]},T2,999\n",
            Options(), "log.csv:162", "T2 has a second reading", "copy",
        ),
        (
            PLAIN.replace(",331.9,", ",331,9,"),
            Options(), "log.csv:20", "6 cells under 5 names", "semicolons",
        ),
    ],
)  # fmt: skip
def test_what_is_refused_names_line_and_remedy(
    tmp_path: Path, text: str, options: Options, place: str, cause: str, remedy: str
) -> None:
    path = tmp_path / "log.csv"
    path.write_text(text)
    with pytest.raises(RecordError) as error:
        read([str(path)], TAGS, options)
    assert error.value.place == place
    assert cause in error.value.cause
    assert remedy in error.value.remedy


_OFFSETS = table(stamp=lambda at: f"{at.isoformat()}{'+01:00' if at.minute % 2 else ''}")


@pytest.mark.parametrize(
    ("text", "options", "cause"),
    [
        (_OFFSETS, Options(), "some of its times state an offset from UTC and others none"),
        (PLAIN.replace("2026-", "2171-"), Options(), "no time from 1970 to 2170"),
        (PLAIN.replace("2026-", "1969-"), Options(), "no time from 1970 to 2170"),
        (table(stamp=lambda at: f"{at:{('%d/%m', '%m/%d')[at.minute % 2]}/%Y %H:%M}"), Options(),
         "some dates can only have the day first and others only the month"),
        (table(stamp=lambda at: f"{at:%m/%d/%Y %H:%M}"), Options(day_order="day"),
         "--day-order day does not fit"),
        (table(stamp=lambda at: f"{at:%y/%m/%d %H:%M}".replace("26/", "11/", 1)), Options(),
         "which of its numbers is the year"),
        (PLAIN, Options(separator="xx"), "'xx' is not a separator"),
        (PLAIN, Options(decimal="x"), "'x' is not a decimal mark"),
        (PLAIN, Options(zone="Nowhere/At all"), "'Nowhere/At all' is not a time zone"),
        (PLAIN, Options(zone="+24:00"), "'+24:00' is not a time zone"),
        (PLAIN, Options(unit="degX"), "'degX' is not a unit of temperature"),
        (table(heads(*T), cell=lambda v: f"{v} °C" if v > 300 else f"{v} °F"), Options(),
         "cells of one column state different units"),
        (table(heads(*T, unit=" (degF)"), cell=lambda v: f"{v} °C"), Options(),
         "is headed degF and its cells state degC"),
        (PLAIN.split("\n")[0] + "\n" + PLAIN.split("\n")[1] + "\n", Options(), "a single row"),
    ],
)  # fmt: skip
def test_what_is_refused(tmp_path: Path, text: str, options: Options, cause: str) -> None:
    path = tmp_path / "log.csv"
    path.write_text(text)
    with pytest.raises(RecordError) as error:
        read([str(path)], TAGS, options)
    assert cause in error.value.cause
    assert error.value.remedy


@pytest.mark.parametrize(
    ("second", "cause"),
    [
        (table(("Time [s]", *heads(*T, unit=" (degC)")[1:]),
               stamp=lambda at: f"{seconds(at) - seconds(AT[0])}"),
         "do not both state the date"),
        (table(stamp=lambda at: f"{at.isoformat()}+01:00"), "do not both state the time zone"),
    ],
)  # fmt: skip
def test_logs_that_do_not_go_together(tmp_path: Path, second: str, cause: str) -> None:
    paths = [tmp_path / "a.csv", tmp_path / "b.csv"]
    for path, text in zip(paths, (PLAIN, second), strict=True):
        path.write_text(text)
    with pytest.raises(RecordError, match=cause):
        read([str(path) for path in paths], TAGS, Options())


@pytest.mark.parametrize(("zone", "hours"), [("+01:00", 1), ("-02:30", -2.5), ("Europe/Oslo", 1)])
def test_the_zone_of_a_clock(tmp_path: Path, zone: str, hours: float) -> None:
    path = tmp_path / "log.csv"
    path.write_text(PLAIN)
    plain, placed = (read([str(path)], TAGS, Options(zone=z)) for z in ("UTC", zone))
    assert plain.start is not None and placed.start is not None
    assert (plain.start - placed.start).total_seconds() == hours * 3600


@pytest.mark.parametrize(
    ("names", "said"),
    [
        # T3 is on channel 5, T1S on channel 3: a number can be that of the tag or the channel.
        (("TC 1", "TC 2", "TC 3"), "can be T3, or T1S on channel 3"),
        (("TC 1", "TC 2", "TC 1S"), ""),
        (("TC 1", "TC 2", "TC 3", "TC 4", "TC 5"), "by channel"),
    ],
)
def test_a_number_that_can_be_of_tag_or_channel(
    tmp_path: Path, names: tuple[str, ...], said: str
) -> None:
    tags = [
        Tag(tag, Channel("R1", n))
        for n, tag in ((1, "T1"), (2, "T2"), (3, "T1S"), (4, "T2S"), (5, "T3"))
    ]
    rows = "".join(f"{n},{','.join(str(k) for k in range(len(names)))}\n" for n in range(5))
    path = tmp_path / "log.csv"
    path.write_text(",".join(("Time [s]", *names)) + "\n" + rows)
    if said.startswith("can be"):
        with pytest.raises(RecordError, match=said):
            read([str(path)], tags, C)
        return
    record = read([str(path)], tags, C)
    wanted = {"T1": 0, "T2": 1, "T1S": 2} | ({"T2S": 3, "T3": 4} if said else {})
    assert {tag: series.values[0] for tag, series in record.series.items()} == wanted
