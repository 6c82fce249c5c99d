"""A clock that runs slow or fast, told by a time that the file counts beside it. Common practice,
no source: quartz is right to 1e-4, a count of rows by their nominal interval to parts in 1000.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import cache
from pathlib import Path

import pytest

from hts.record import faults
from hts.record.judging import MET, NOT_SHOWN, judge
from hts.record.plan import Plan
from hts.record.reading import Options, read
from hts.record.simulation import Ask, simulate
from tests.record.judging.made import file_plan

#: What stands in a row, counted from 0, one each minute.
Cell = Callable[[int], str]


def header() -> Plan:
    return file_plan("p22-header.hts")


@cache
def _lines() -> tuple[str, ...]:
    return tuple(simulate(header(), Ask(5, 60.0, datetime(2026, 11, 20, 6))).splitlines())


def _found(folder: Path, name: str, cell: Cell) -> tuple[tuple[faults.Fault, ...], str]:
    """The faults of a log with one more column, and the verdict on the whole."""
    made = []
    for line in _lines():
        first, *rest = line.split(",", 1)
        row = len(made) - 8
        new = name if first == "time" else cell(row) if row >= 0 else None
        made.append(line if new is None else f"{first},{new},{rest[0]}")
    path = folder / "log.csv"
    path.write_text("\n".join(made) + "\n")
    record = read([str(path)], header().run.tags, Options())
    found = faults.find(record, header())
    return found, judge(faults.apply(record, found), header(), found).overall


def _hours(seconds: float) -> str:
    return f"{int(seconds) // 3600:02d}:{int(seconds) // 60 % 60:02d}:{int(seconds) % 60:02d}"


@pytest.mark.parametrize(
    ("name", "cell", "off"),
    [
        ("elapsed [s]", lambda n: f"{n * 60 * 0.98:.0f}", "2.0%"),
        ("Elapsed time (min)", lambda n: f"{n * 1.03:.1f}", "3.0%"),
        ("Run time", lambda n: _hours(n * 59.4), "1.0%"),
        ("t [h]", lambda n: f"{n / 60 * 0.9:.4f}", "10.0%"),
        ("elapsed", lambda n: f"{n * 60.6:.1f}", "1.0%"),
        ("test time [s]", lambda n: f"{1e6 + n * 58.8:.0f}", "2.0%"),
    ],
)
def test_a_clock_that_runs_apart_from_a_count(
    name: str, cell: Cell, off: str, tmp_path: Path
) -> None:
    found, overall = _found(tmp_path, name, cell)
    assert [(one.kind, one.tag, one.whose) for one in found] == [("clock-rate", "", "clock")]
    assert found[0].evidence.endswith(f"one of them is {off} off")
    assert "13 h 6 min" in found[0].evidence
    assert overall == NOT_SHOWN


@pytest.mark.parametrize(
    ("name", "cell"),
    [
        ("elapsed [s]", lambda n: f"{n * 60}"),
        ("elapsed [s]", lambda n: f"{n * 60 * 1.001:.0f}"),
        ("Elapsed time (min)", lambda n: f"{n}"),
        ("elapsed [h]", lambda n: f"{n / 60:.1f}"),
        ("Run time", lambda n: _hours(n * 60)),
        ("Run time", lambda n: ""),
        # One that stood still for an hour, one that begins again, one that counts something else.
        ("elapsed [s]", lambda n: f"{(n if n < 300 else max(300, n - 60)) * 60}"),
        ("duration [min]", lambda n: f"{n % 200}"),
        ("t [s]", lambda n: "60"),
        ("time to go [min]", lambda n: f"{900 - n}"),
        ("hold time [min]", lambda n: f"{max(0, n - 300) * 0.98:.1f}"),
    ],
)
def test_one_that_passes_at_its_rate_and_what_is_no_count(
    name: str, cell: Cell, tmp_path: Path
) -> None:
    assert _found(tmp_path, name, cell) == ((), MET)
