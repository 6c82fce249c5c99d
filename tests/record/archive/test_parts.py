"""Logs of one run are judged as one: a recorder begins a new file, or two recorders ran."""

import csv
import io
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from hts.record.archive import ArchiveLine, audit
from hts.record.archive.audit import Asked
from hts.record.reading import Options
from tests.record.archive.test_archive import ROOT, record_of

Rows = list[list[str]]


@pytest.fixture(scope="module")
def run() -> tuple[str, Rows]:
    """What stands before the readings of a run that meets, and its rows."""
    text = record_of("p22-header")
    rows = list(csv.reader(io.StringIO(text)))
    head = next(at for at, row in enumerate(rows) if row[0].startswith("time"))
    return written(rows[:head]), rows[head:]


def written(rows: Rows) -> str:
    text = io.StringIO()
    csv.writer(text).writerows(rows)
    return text.getvalue()


def judged(folder: Path, logs: dict[str, str]) -> dict[str, ArchiveLine]:
    for name, text in logs.items():
        (folder / name).write_text(text)
    spec = str(ROOT / "specs" / "p22-header.hts")
    lines = audit(Asked(spec, str(folder), Options(), "2026-12-01"))
    return {line.record: line for line in lines if line.record}


def later(rows: Rows, minutes: float) -> Rows:
    moved = []
    for row in rows:
        time = datetime.fromisoformat(row[0]) + timedelta(minutes=minutes)
        moved.append([time.isoformat(sep=" "), *row[1:]])
    return moved


def test_a_run_in_two_files_is_one(run: tuple[str, Rows], tmp_path: Path) -> None:
    head, (titles, *rows) = run
    half = len(rows) // 2
    found = judged(
        tmp_path,
        {
            "a.csv": head + written([titles, *rows[half:]]),
            "b.csv": head + written([titles, *rows[:half]]),
        },
    )
    assert {name: line.verdict for name, line in found.items()} == {"b.csv + a.csv": "met"}


def test_two_recorders_are_one_run(run: tuple[str, Rows], tmp_path: Path) -> None:
    head, rows = run
    found = judged(
        tmp_path,
        {
            "a.csv": head + written([row[:5] for row in rows]),
            "b.csv": head + written([[row[0], *row[5:]] for row in rows]),
        },
    )
    assert {name: line.verdict for name, line in found.items()} == {"a.csv + b.csv": "met"}


def test_a_pause_while_the_metal_is_hot_belongs_to_the_run(
    run: tuple[str, Rows], tmp_path: Path
) -> None:
    """Half an hour without rows in the hold: one run, and it does not show what was held."""
    head, (titles, *rows) = run
    half = len(rows) // 2
    logs = {
        "a.csv": head + written([titles, *rows[:half]]),
        "b.csv": head + written([titles, *later(rows[half:], 30)]),
    }
    found = judged(tmp_path, logs)
    assert list(found) == ["a.csv + b.csv"] and found["a.csv + b.csv"].verdict != "met"


def test_a_copy_and_a_second_run_stay_by_themselves(run: tuple[str, Rows], tmp_path: Path) -> None:
    head, (titles, *rows) = run
    whole = head + written([titles, *rows])
    again = head + written([titles, *later(rows, 24 * 60 + 20)])
    found = judged(tmp_path, {"a.csv": whole, "copy.csv": whole, "next.csv": again})
    assert sorted(found) == ["a.csv", "copy.csv", "next.csv"]
    assert found["a.csv"].verdict == "met"
