"""A check spread over processes tells the same, in the same order, as one process does."""

from __future__ import annotations

import os

import pytest

from hts.check.files import FEW, Failure, check_paths
from hts.report import json_report, terminal
from hts.rules.examples import BUTT, PREHEAT


@pytest.fixture
def folder(tmp_path):
    """Clean, faulty, broken and unreadable files, more than one process is used for, in two
    folders, with a library that several use."""
    (tmp_path / "hts.toml").write_text("")
    library = 'spec 1\nmaterial shared {\n  grade "A106-B"\n}\n'
    (tmp_path / "library.hts").write_text(library)
    for number in range(FEW + 8):
        below = tmp_path / f"part{number % 2}"
        below.mkdir(exist_ok=True)
        text = PREHEAT.replace("D3", f"D{number}")
        if number % 7 == 1:
            text = text.replace("spec 1\n", 'spec 1\nuse "../library.hts"\n').replace(
                "pipe and pipe", "shared and pipe"
            )
        if number % 7 == 2:
            text = text.replace("grade        ", "grad ")
        if number % 7 == 3:
            text = text.replace("interpass         at most 600 degF", "interpass at most 60 degF")
        if number % 16 == 5:
            text = BUTT.replace("}", "", 1)
        (below / f"s{number:03}.hts").write_text(text)
    (tmp_path / "part0" / "s900.hts").write_bytes(b"spec 1\n\xff\n")
    return str(tmp_path)


def _paths(folder: str) -> list[str]:
    return [
        os.path.join(folder, "part1"),
        os.path.join(folder, "nowhere.hts"),
        os.path.join(folder, "part0"),
        os.path.join(folder, "library.hts"),
    ]


@pytest.mark.parametrize("jobs", [2, 3, None])
def test_any_number_of_processes_reports_the_same_bytes(folder, jobs):
    alone = check_paths(_paths(folder), jobs=1)
    spread = check_paths(_paths(folder), jobs=jobs)
    assert alone.findings and alone.failures
    assert spread.checked == alone.checked
    assert spread.failures == alone.failures
    assert spread.exit_code == alone.exit_code == 2
    for report in (terminal, json_report):
        assert report.write(spread, colour=False) == report.write(alone, colour=False)


def test_files_stand_in_the_order_of_paths_and_names(folder):
    checked = check_paths(_paths(folder), jobs=2).checked
    first = [name for name in checked if name.startswith("part1")]
    second = [name for name in checked if name.startswith("part0")]
    assert checked == [*sorted(first), *sorted(second), "library.hts"]


def test_what_cannot_be_read_keeps_its_place(folder):
    failures = check_paths(_paths(folder), jobs=2).failures
    assert [os.path.basename(f.name) for f in failures] == ["nowhere.hts", "s900.hts"]
    assert all(isinstance(f, Failure) for f in failures)


def test_clean_files_leave_nothing_behind(tmp_path):
    (tmp_path / "hts.toml").write_text("")
    for number in range(4):
        (tmp_path / f"s{number}.hts").write_text(PREHEAT)
    results = check_paths([str(tmp_path)], jobs=2)
    assert results.findings == []
    assert results.checked == [f"s{number}.hts" for number in range(4)]
