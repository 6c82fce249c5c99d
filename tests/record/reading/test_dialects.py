"""One table written in many dialects reads back as the same table."""

import itertools
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.record.reading import Options, read

START = datetime(2026, 11, 21, 22, 58, 30)

#: How the time is written: name of the column, unit, and the text for seconds from the start.
TIMES = {
    "iso": ("Time", "", lambda s: (START + timedelta(seconds=s)).isoformat(sep=" ")),
    "iso T": ("Timestamp", "", lambda s: (START + timedelta(seconds=s)).isoformat()),
    "day first": ("Date/Time", "", lambda s: f"{START + timedelta(seconds=s):%d/%m/%Y %H:%M:%S}"),
    "month first": ("Time", "", lambda s: f"{START + timedelta(seconds=s):%m/%d/%Y %I:%M:%S %p}"),
    "points": ("Time", "", lambda s: f"{START + timedelta(seconds=s):%d.%m.%Y %H:%M:%S}"),
    "named month": ("Time", "", lambda s: f"{START + timedelta(seconds=s):%d-%b-%Y %H:%M:%S}"),
    "seconds": ("Elapsed", "s", str),
    "counted": ("Elapsed", "", lambda s: f"{s // 3600:02d}:{s // 60 % 60:02d}:{s % 60:02d}"),
    "clock": ("Time", "", lambda s: f"{START + timedelta(seconds=s):%H:%M:%S}"),
}

tenths = st.integers(-400, 9990)
tables = st.integers(1, 5).flatmap(
    lambda width: st.lists(
        st.lists(tenths | st.none(), min_size=width, max_size=width), min_size=3, max_size=25
    )
)


def write(
    table: list[list[int | None]],
    time: str,
    separator: str,
    decimal: str,
    unit: str,
    units_row: bool,
    quoted: bool,
    preamble: bool,
    trailing: bool,
    padded: bool,
    interval: int,
) -> str:
    name, time_unit, stamp = TIMES[time]
    width = len(table[0])
    names = [f"T{number + 1}" for number in range(width)]
    if units_row:
        lines = [[name, *names], [time_unit, *[unit] * width]]
    else:
        lines = [
            [f"{name} ({time_unit})" if time_unit else name, *(f"{n} [{unit}]" for n in names)]
        ]
    for at, row in enumerate(table):
        cells = [f"{v / 10:.1f}".replace(".", decimal) if v is not None else "" for v in row]
        if padded:
            cells = [cell.rjust(8) + "  " for cell in cells]
        lines.append([stamp(at * interval), *cells])
    if quoted:
        lines = [[f'"{cell}"' for cell in line] for line in lines]
    head = "Job: TI-1042\nOperator: on shift\n\n" if preamble else ""
    tail = separator if trailing else ""
    return head + "".join(separator.join(line) + tail + "\n" for line in lines)


@given(
    table=tables,
    time=st.sampled_from(sorted(TIMES)),
    style=st.sampled_from(
        [(",", "."), (";", "."), (";", ","), ("\t", "."), ("\t", ","), ("|", ".")]
    ),
    unit=st.sampled_from(["degC", "°C", "C"]),
    units_row=st.booleans(),
    quoted=st.booleans(),
    preamble=st.booleans(),
    trailing=st.booleans(),
    padded=st.booleans(),
    ends=st.sampled_from(["\n", "\r\n", "\r"]),
    encoding=st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "latin-1"]),
    interval=st.sampled_from([1, 5, 30, 60]),
)
def test_written_in_any_dialect_it_reads_back(
    tmp_path_factory: pytest.TempPathFactory,
    table: list[list[int | None]],
    time: str,
    style: tuple[str, str],
    unit: str,
    units_row: bool,
    quoted: bool,
    preamble: bool,
    trailing: bool,
    padded: bool,
    ends: str,
    encoding: str,
    interval: int,
) -> None:
    table[0] = [value if value is not None else 205 for value in table[0]]
    text = write(table, time, *style, unit, units_row, quoted, preamble, trailing, padded, interval)
    path = tmp_path_factory.mktemp("log") / "log.txt"
    path.write_bytes(text.replace("\n", ends).encode(encoding))
    record = read([str(path)])
    assert record.elapsed.tolist() == [at * interval for at in range(len(table))]
    assert list(record.series) == [f"T{number + 1}" for number in range(len(table[0]))]
    for number, series in enumerate(record.series.values()):
        wanted = [np.nan if row[number] is None else row[number] / 10 for row in table]
        np.testing.assert_array_equal(series.values, wanted)
    counted = time in ("seconds", "counted", "clock")
    assert record.start == (None if counted else START)


@pytest.mark.parametrize("blanks", [" ", "   "])
def test_blanks_separate(tmp_path: Path, blanks: str) -> None:
    lines = [["Time", "T1[degC]", "T2[degC]"], *([f"00:00:0{n}", "20.5", "21"] for n in range(5))]
    path = tmp_path / "log.txt"
    path.write_text("\n".join(blanks.join(line) for line in lines))
    record = read([str(path)])
    assert list(record.series) == ["T1", "T2"]
    assert record.elapsed.tolist() == [0, 1, 2, 3, 4]


def test_a_date_and_a_time_under_one_name(tmp_path: Path) -> None:
    path = tmp_path / "log.txt"
    path.write_text("Time T1[C]\n2026-11-21 14:03:20 20.5\n2026-11-21 14:03:30 21.5\n")
    record = read([str(path)])
    assert record.start == datetime(2026, 11, 21, 14, 3, 20)
    assert record.series["T1"].values.tolist() == [20.5, 21.5]


def test_names_with_blanks_between_wider_blanks(tmp_path: Path) -> None:
    path = tmp_path / "log.txt"
    path.write_text(
        "Time           Cable 1 (C)   Cable 2 (C)\n"
        "00:00:00       20.5          21\n00:00:01       20.5          22\n"
    )
    assert list(read([str(path)]).series) == ["Cable 1", "Cable 2"]


def test_very_wide(tmp_path: Path) -> None:
    width = 350
    path = tmp_path / "log.csv"
    rows = [["Time", *(f"T{n}" for n in range(width))], ["s", *["C"] * width]]
    rows += [[str(at), *(str(n + at) for n in range(width))] for at in range(200)]
    path.write_text("\n".join(",".join(row) for row in rows))
    record = read([str(path)])
    assert len(record.series) == width
    assert record.series["T349"].values[199] == 548


def test_the_same_readings_in_fahrenheit_and_kelvin(tmp_path: Path) -> None:
    # NIST SP 811 (2008) B.8: t/degC = (t/degF - 32) / 1.8 = T/K - 273.15.
    path = tmp_path / "log.csv"
    path.write_text("Time,T1,T2,T3\ns,degC,degF,K\n0,100,212,373.15\n1,620,1148,893.15\n")
    for series in read([str(path)]).series.values():
        np.testing.assert_allclose(series.values, [100, 620], rtol=0, atol=1e-9)


def test_a_header_per_column_may_differ(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("Time [min];T1 [degF];T2 (°C);T3/°C\n0;68;20;20\n0,5;68;20,5;20\n1;68;20;20\n")
    record = read([str(path)])
    assert record.elapsed.tolist() == [0, 30, 60]
    assert [series.unit for series in record.series.values()] == ["degF", "°C", "°C"]
    np.testing.assert_allclose([s.values[0] for s in record.series.values()], 20)


@pytest.mark.parametrize(
    ("option", "text", "cause", "remedy"),
    [
        ("unit", "Time [s],T1\n0,20\n1,21\n", "no unit", "--unit"),
        ("time unit", "Time,T1 [C]\n0,20\n1,21\n", "no unit", "--time-unit"),
        ("day", "Time,T1 [C]\n03/04/2026 10:00,20\n03/04/2026 10:01,2\n", "4 March", "--day-order"),
        ("year", "Time,T1 [C]\n03/14/26 10:00,20\n03/14/26 10:01,21\n", "year", "--day-order"),
        ("pairs", "Time,T1 [C]\n10:00,20\n10:01,21\n", "hours and minutes", "--time-unit"),
        ("decimal", "Time [s];T1 [C]\n0.5;20,5\n1.5;21,5\n", "a point and a comma", "--decimal"),
        ("groups", "Time [s]\tT1 [F]\n0\t999\n1\t1,001\n2\t1,002\n", "thousands", "--decimal"),
        ("time", "a,T1 [C]\n0,20\n1,21\n", "named as the time", "--time"),
        ("kelvin", "Time [s],T1 (K)\n0,20\n1,21\n", "cannot be kelvin", "--unit"),
        ("zone", "Time,T1 [C]\n2026-03-01 10:00 CET,20\n2026-03-01 10:01 CET,2\n", "CET", "offset"),
    ],
)  # fmt: skip
def test_what_is_left_open_is_asked_for(
    tmp_path: Path, option: str, text: str, cause: str, remedy: str
) -> None:
    from hts.record.errors import RecordError

    path = tmp_path / "log.csv"
    path.write_text(text)
    with pytest.raises(RecordError) as error:
        read([str(path)])
    assert cause in error.value.cause
    assert remedy in error.value.remedy
    assert error.value.place.startswith("log.csv")


@pytest.mark.parametrize(
    ("options", "text", "first", "step"),
    [
        (Options(unit="degF"), "Time [s],T1\n0,68\n1,68\n", None, 1),
        (Options(time_unit="min"), "Time,T1 [C]\n0,20\n1,20\n", None, 60),
        (
            Options(day_order="day"),
            "Time,T1 [C]\n03/04/2026 10:00,20\n03/04/2026 10:01,20\n",
            datetime(2026, 4, 3, 10),
            60,
        ),
        (
            Options(day_order="month"),
            "Time,T1 [C]\n03/04/26 10:00,20\n03/04/26 10:01,20\n",
            datetime(2026, 3, 4, 10),
            60,
        ),
        (Options(time_unit="hh:mm"), "Time,T1 [C]\n10:00,20\n10:01,20\n", None, 60),
        (Options(time_unit="mm:ss"), "Time,T1 [C]\n10:00,20\n10:01,20\n", None, 1),
        (Options(time="a", time_unit="s"), "a,T1 [C]\n0,20\n1,20\n", None, 1),
        # Day 46347.5 of a spreadsheet is noon of 2026-11-21 (day 1 is 1900-01-01, and 1900-02-29
        # is counted, which never was): ECMA-376 Part 1, 18.17.4.1.
        (
            Options(time_unit="serial"),
            "Time,T1 [C]\n46347.5,20\n46347.500694444,20\n",
            datetime(2026, 11, 21, 12),
            60,
        ),
    ],
)
def test_an_option_answers(
    tmp_path: Path, options: Options, text: str, first: datetime | None, step: float
) -> None:
    path = tmp_path / "log.csv"
    path.write_text(text)
    record = read([str(path)], None, options)
    assert record.start == first
    assert record.elapsed.tolist() == [0, step]
    assert record.series["T1"].values.tolist() == [20, 20]


def test_every_dialect_of_the_table_is_tried() -> None:
    """The dialects differ: none is another under a second name."""
    seen = {stamp(45): name for name, (_, _, stamp) in TIMES.items()}
    assert len(seen) == len(TIMES)
    assert list(itertools.chain(TIMES)) == list(TIMES)
