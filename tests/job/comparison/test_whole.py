"""Whole revisions compared: what changed, and what uses something that did."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from hts.cli.diff import command
from hts.job.comparison.report.told import place
from hts.job.comparison.revisions import Repository
from hts.job.comparison.whole import Compared, between, compare_all
from hts.language.model.defaults import NO_DEFAULTS
from hts.language.model.uses import reached, used_by
from tests.job.comparison.test_revisions import LIBRARY, SPEC, git

OTHER = SPEC.replace("W1", "W2").replace('use "library.hts"', 'use "shared.hts"')


@pytest.fixture
def plant(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A job that uses the library, one that uses it by way of another file, and one that does not;
    the second revision changes the library, moves a job and adds one."""
    for name in [name for name in os.environ if name.startswith("GIT_")]:
        monkeypatch.delenv(name)
    monkeypatch.chdir(tmp_path)
    git("init", "-q", "-b", "main", ".", cwd=tmp_path)
    jobs = tmp_path / "jobs"
    jobs.mkdir()
    (jobs / "library.hts").write_text(LIBRARY)
    (jobs / "shared.hts").write_text('spec 1\nuse "library.hts"\n')
    (jobs / "a.hts").write_text(SPEC)
    (jobs / "b.hts").write_text(OTHER)
    own = LIBRARY.replace("pipe-a", "pipe-c") + SPEC.partition("\n")[2].replace("pipe-a", "pipe-c")
    (jobs / "alone.hts").write_text(own.replace('use "library.hts"\n', ""))
    (jobs / "moves.hts").write_text(own.replace('use "library.hts"\n', "").replace("W1", "W9"))
    git("add", "-A", cwd=tmp_path)
    git("commit", "-qm", "first", cwd=tmp_path)
    (jobs / "library.hts").write_text(LIBRARY.replace("720", "725"))
    git("mv", "jobs/moves.hts", "jobs/moved.hts", cwd=tmp_path)
    git("add", "-A", cwd=tmp_path)
    git("commit", "-qm", "second", cwd=tmp_path)
    return tmp_path


def hts(*arguments: str) -> Result:
    return CliRunner().invoke(command, arguments, catch_exceptions=False)


def rows(*arguments: str) -> dict[str, Any]:
    found = json.loads(hts(*arguments, "--format", "json").output)["specifications"]
    return {each["path"]: each for each in found}


def test_all_that_changed_or_uses_what_did(plant: Path) -> None:
    found = rows("HEAD~1..HEAD")
    assert {path: (row["verdict"], row["uses_changed"]) for path, row in found.items()} == {
        "jobs/a.hts": ("re-approve", "jobs/library.hts"),
        "jobs/b.hts": ("re-approve", "jobs/shared.hts"),
        "jobs/library.hts": ("re-approve", None),
        "jobs/moved.hts": ("no change", None),
        # It says nothing itself; what it passes on is told where it is used.
        "jobs/shared.hts": ("no change", "jobs/library.hts"),
    }
    assert found["jobs/moved.hts"]["moved_from"] == "jobs/moves.hts"
    assert hts("HEAD~1..HEAD").exit_code == 1 and hts("HEAD..").exit_code == 0
    assert set(rows("HEAD~1", "jobs/b.hts")) == {"jobs/b.hts"}
    page = hts("HEAD~1..HEAD", "--format", "markdown").output
    assert "| re-approve | jobs/b.hts | 1 re-approve | uses jobs/shared.hts |" in page
    assert page.count("<details>") == page.count("</details>") == 3


def test_what_git_does_not_track_yet_counts(plant: Path) -> None:
    (plant / "jobs" / "new.hts").write_text(SPEC)
    (plant / "jobs" / "c.hts").write_text(SPEC)
    (plant / ".gitignore").write_text("c.hts\n")
    found = rows("jobs")
    assert {path: row["verdict"] for path, row in found.items()} == {"jobs/new.hts": "re-approve"}


def test_settings_are_a_row(plant: Path) -> None:
    (plant / "hts.toml").write_text('ignore = ["unused-waiver"]\n')
    assert {path: row["verdict"] for path, row in rows("HEAD").items()} == {"hts.toml": "review"}


def test_no_file_stands_in_for_a_revision(plant: Path) -> None:
    for name in ("main~1", "main~1:jobs", "main"):
        (plant / name).mkdir()
    (plant / "main~1:jobs" / "a.hts").write_text((plant / "jobs" / "a.hts").read_text())
    assert "jobs/a.hts" in rows("main~1")
    assert hts("main~1:jobs/a.hts", "jobs/a.hts").exit_code == 1


def test_what_cannot_be_read_is_told(plant: Path) -> None:
    (plant / "jobs" / "a.hts").write_bytes(b"spec 1\n\xff")
    run = hts("HEAD")
    assert run.exit_code == 2 and "not compared" in run.output and "UTF-8" in run.output
    (plant / "jobs" / "a.hts").unlink()
    (plant / "jobs" / "a.hts").symlink_to("/etc/hostname")
    run = hts("HEAD")
    assert run.exit_code == 2 and "a link out of the repository" in run.output


def test_an_approval_is_for_one_specification(plant: Path) -> None:
    run = hts("HEAD~1", "jobs/a.hts", "--approvals", "ok.json", "--approve", "Owner's engineer")
    assert run.exit_code == 0
    found = {path: row["verdict"] for path, row in rows("HEAD~1", "--approvals", "ok.json").items()}
    assert found["jobs/a.hts"] == "approved" and found["jobs/b.hts"] == "re-approve"
    assert hts("HEAD~1:jobs/a.hts", "jobs/a.hts", "--approvals", "ok.json").exit_code == 0
    run = hts("HEAD~1:jobs/library.hts", "jobs/library.hts", "--approvals", "ok.json")
    assert run.exit_code == 1


def test_a_page_of_limited_length_says_what_it_leaves_out(plant: Path) -> None:
    page = hts("HEAD~1", "--format", "markdown", "--most", "1200").output
    assert "| jobs/a.hts |" in page and "too many to stand here" in page


def test_uses() -> None:
    text = 'spec 1\nuse "a.hts"\n  use   "../b.hts" # and\n'
    assert used_by(text, "jobs/x.hts") == ["jobs/a.hts", "b.hts"]
    uses = {"a": ["b"], "b": ["c"], "c": ["a"], "d": ["e"]}
    assert reached(uses, {"c"}) == {"b": "c", "a": "b", "c": "a"}


def test_processes_compare_as_one_does(plant: Path) -> None:
    for number in range(6):
        (plant / "jobs" / f"new{number}.hts").write_text(SPEC.replace("W12", f"W{number}"))
    (plant / "jobs" / "wrong.hts").write_bytes(b"spec 1\n\xff")
    repository = Repository(str(plant))
    sides = between("HEAD~1", repository)
    assert sides is not None

    def told(jobs: int) -> list[object]:
        found = compare_all(repository, sides, defaults=lambda _: NO_DEFAULTS, jobs=jobs)
        return [
            (each._replace(comparison=None), repr(each.comparison), _changes(each))
            for each in found
        ]

    assert told(2) == told(1)
    assert len(told(1)) > 8


def _changes(compared: Compared) -> list[tuple[object, ...]]:
    changes = compared.comparison.changes if compared.comparison is not None else ()
    return [(c.path, c.verdict, c.reason, c.address, place(c.old), place(c.new)) for c in changes]
