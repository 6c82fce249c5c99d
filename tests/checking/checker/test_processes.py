"""A check spread over processes tells the same, in the same order, as one process does."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from hts.checking.checker.check_paths import UncheckedFile, check_paths
from hts.checking.report.formats import FORMATS, written
from hts.checking.rules.examples import PREHEAT
from hts.generate import ROOT


@pytest.mark.parametrize("jobs", [2, 3, None])
def test_any_number_of_processes_reports_the_same_bytes(paths, jobs):
    alone = check_paths(paths, jobs=1)
    spread = check_paths(paths, jobs=jobs)
    assert alone.findings and alone.failures
    assert spread.checked == alone.checked
    assert spread.failures == alone.failures
    assert spread.exit_code == alone.exit_code == 2
    for form in FORMATS:
        assert written(form, spread) == written(form, alone), form


def test_files_stand_in_the_order_of_paths_and_names(paths):
    checked = check_paths(paths, jobs=2).checked
    first = [name for name in checked if name.startswith("part1")]
    second = [name for name in checked if name.startswith("part0")]
    assert checked == [*sorted(first), *sorted(second), "library.hts"]


def test_what_cannot_be_read_keeps_its_place(paths):
    failures = check_paths(paths, jobs=2).failures
    assert [os.path.basename(f.name) for f in failures] == ["nowhere.hts", "s900.hts"]
    assert all(isinstance(f, UncheckedFile) for f in failures)


def test_clean_files_leave_nothing_behind(tmp_path):
    (tmp_path / "hts.toml").write_text("")
    for number in range(4):
        (tmp_path / f"s{number}.hts").write_text(PREHEAT)
    results = check_paths([str(tmp_path)], jobs=2)
    assert results.findings == []
    assert results.checked == [f"s{number}.hts" for number in range(4)]


def test_what_two_files_find_in_a_third_is_told_once(tmp_path: Path) -> None:
    """A certificate in a shared file has run out once, however many jobs use the instrument."""
    (tmp_path / ".git").mkdir()
    jobs = Path(ROOT, "specs")
    shutil.copytree(jobs / "library", tmp_path / "library")
    for name in ("p22-header.hts", "carbon-steel-butt.hts"):
        shutil.copy(jobs / name, tmp_path)
    found = check_paths([str(tmp_path)], today="2027-12-01").findings
    told = [(f.kind.code, f.source.name, f.at.span[1:], f.address, f.message) for f in found]
    assert len(told) == len(set(told)) and "C105" in {code for code, *_ in told}
