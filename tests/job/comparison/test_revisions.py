"""Sides read through git, and git's own diff."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from hts.generate import ROOT
from hts.job.comparison.revisions import where
from tests.cli import inside
from tests.rows import each_row

HTS = f"{sys.executable} -m hts"
SURROUNDINGS = {
    **{key: value for key, value in os.environ.items() if not key.startswith("GIT_")},
    "PYTHONPATH": ROOT,
    "GIT_CONFIG_GLOBAL": os.devnull,
    "GIT_CONFIG_NOSYSTEM": "1",
}
LIBRARY = 'spec 1\nmaterial pipe-a {\n  grade "A106 B"\n  lower critical 720 degC\n}\n'
SPEC = (
    'spec 1\nuse "library.hts"\n'
    "joint W1 {\n  kind girth butt\n  between pipe-a and pipe-a\n"
    "  pipe NPS 10 schedule 80\n  cap width 20 mm\n}\n"
)


def git(*arguments: str, cwd: Path) -> str:
    run = subprocess.run(
        ["git", "-c", "user.name=x", "-c", "user.email=x@example.org", *arguments],
        cwd=cwd,
        env=SURROUNDINGS,
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    return run.stdout


def hts(*arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    return inside.hts(cwd, "diff", *arguments)


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """Two revisions; the second one changes the library alone."""
    git("init", "-q", ".", cwd=tmp_path)
    (tmp_path / "jobs").mkdir()
    (tmp_path / "jobs" / "library.hts").write_text(LIBRARY)
    (tmp_path / "jobs" / "a.hts").write_text(SPEC)
    git("add", "-A", cwd=tmp_path)
    git("commit", "-qm", "first", cwd=tmp_path)
    (tmp_path / "jobs" / "library.hts").write_text(LIBRARY.replace("720", "725"))
    git("commit", "-qam", "second", cwd=tmp_path)
    return tmp_path


def test_used_files_are_those_of_the_revision(repository: Path) -> None:
    run = hts("HEAD~1:jobs/a.hts", "HEAD:jobs/a.hts", cwd=repository)
    assert run.returncode == 1
    assert "base metal (lower critical) moved: pipe-a/lower-critical" in run.stdout
    assert "HEAD~1:jobs/library.hts:4:3" in run.stdout
    assert hts("HEAD:jobs/a.hts", "jobs/a.hts", cwd=repository).stdout.endswith("no change\n")


def test_paths_from_here(repository: Path) -> None:
    jobs = repository / "jobs"
    assert hts("HEAD~1:./a.hts", "a.hts", cwd=jobs).returncode == 1
    assert hts("a.hts", cwd=jobs).returncode == 0
    (jobs / "a.hts").write_text(SPEC.replace("20 mm", "2 cm"))
    run = hts("a.hts", cwd=jobs)
    assert run.returncode == 0 and "1 written differently only" in run.stdout


def test_a_path_from_the_top_that_is_meant_from_here(repository: Path) -> None:
    run = hts("HEAD:a.hts", "a.hts", cwd=repository / "jobs")
    assert run.returncode == 2 and "from this folder it is HEAD:./a.hts" in run.stderr


def test_a_file_named_like_a_revision_is_not_taken_for_it(repository: Path) -> None:
    """Whoever proposes a change could lay the new text there, and there would be no change."""
    for name in ("HEAD~1:a.hts", "HEAD~1:jobs/a.hts"):
        spoof = repository / name
        spoof.parent.mkdir(exist_ok=True)
        spoof.write_text(SPEC)
        (spoof.parent / "library.hts").write_text(LIBRARY.replace("720", "725"))
    run = hts("HEAD~1:jobs/a.hts", "jobs/a.hts", cwd=repository)
    assert run.returncode == 1 and "pipe-a/lower-critical" in run.stdout


def test_what_is_staged(repository: Path) -> None:
    (repository / "jobs" / "a.hts").write_text(SPEC.replace("20 mm", "22 mm"))
    git("add", "-A", cwd=repository)
    (repository / "jobs" / "a.hts").write_text(SPEC)
    run = hts("HEAD:jobs/a.hts", ":jobs/a.hts", cwd=repository)
    assert "size moved: W1/cap-width" in run.stdout


def test_a_side_that_is_not_there(repository: Path) -> None:
    (repository / "jobs" / "b.hts").write_text(SPEC)
    run = hts("HEAD:jobs/b.hts", "jobs/b.hts", cwd=repository)
    assert run.returncode == 1 and "re-approve specification added" in run.stdout
    assert "the whole specification: W1" in run.stdout
    gone = hts("jobs/b.hts", "/dev/null", cwd=repository)
    assert gone.returncode == 1 and "re-approve specification removed" in gone.stdout


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("HEAD:jobs/x.hts", "jobs/a.hts"), "there is no HEAD:jobs/x.hts"),
        (("HEAD:job/a.hts", "jobs/a.hts"), "there is no HEAD:job/a.hts"),
        (("nowhere.hts", "jobs/a.hts"), "there is no nowhere.hts"),
        (("nowhere/a.hts", "jobs/a.hts"), "there is no nowhere/a.hts"),
        (("nosuch:jobs/a.hts", "jobs/a.hts"), "git does not know revision 'nosuch'"),
        (("--output=stolen:jobs/a.hts", "jobs/a.hts"), "No such option"),
        (("--", "--output=stolen:jobs/a.hts", "jobs/a.hts"), "is not a revision"),
        (("/dev/null", "/dev/null"), "there is neither"),
        (("a", "b", "c"), "two sides"),
    ],
)
def test_what_cannot_be_read(repository: Path, arguments: tuple[str, ...], said: str) -> None:
    run = hts(*arguments, cwd=repository)
    assert run.returncode == 2 and said in run.stderr, run.stderr
    assert "Traceback" not in run.stderr and not (repository / "stolen").exists()


def test_outside_a_repository(tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_text(SPEC)
    run = hts("HEAD:a.hts", "a.hts", cwd=tmp_path)
    assert run.returncode == 2 and "not a git repository" in run.stderr


def test_a_link_in_a_revision_leads_nowhere(repository: Path) -> None:
    (repository / "outside.hts").write_text(LIBRARY)
    (repository / "jobs" / "library.hts").unlink()
    (repository / "jobs" / "library.hts").symlink_to("../outside.hts")
    git("add", "-A", cwd=repository)
    git("commit", "-qm", "link", cwd=repository)
    run = hts("HEAD~1:jobs/a.hts", "HEAD:jobs/a.hts", cwd=repository)
    assert "there is no file 'library.hts'" in run.stdout


# Called by git -----------------------------------------------------------------------------------


def driven(repository: Path) -> None:
    (repository / ".gitattributes").write_text("*.hts diff=hts\n")
    git("config", "diff.hts.command", f"{HTS} diff", cwd=repository)


def test_git_diff_of_the_working_folder(repository: Path) -> None:
    driven(repository)
    (repository / "jobs" / "a.hts").write_text(SPEC.replace("20 mm", "22 mm"))
    said = git("diff", cwd=repository / "jobs")
    assert "re-approve size moved: W1/cap-width" in said
    assert "-> jobs/a.hts: 1 re-approve" in said


def test_git_show_reads_used_files_of_the_parent(repository: Path) -> None:
    driven(repository)
    both = LIBRARY.replace("720", "730")
    (repository / "jobs" / "library.hts").write_text(both)
    (repository / "jobs" / "a.hts").write_text(SPEC.replace("20 mm", "22 mm"))
    git("commit", "-qam", "third", cwd=repository)
    said = git("show", "--ext-diff", "HEAD", "--", "jobs/a.hts", cwd=repository)
    assert "base metal (lower critical) moved: pipe-a/lower-critical" in said and "725 degC" in said


def test_git_diff_of_new_removed_and_renamed_files(repository: Path) -> None:
    driven(repository)
    (repository / "jobs" / "b.hts").write_text(SPEC)
    git("add", "-A", cwd=repository)
    assert "specification added" in git("diff", "--cached", cwd=repository)
    git("commit", "-qam", "third", cwd=repository)
    git("mv", "jobs/b.hts", "jobs/c.hts", cwd=repository)
    (repository / "jobs" / "c.hts").write_text(SPEC.replace("20 mm", "21 mm"))
    git("add", "-A", cwd=repository)
    said = git("diff", "--cached", "-M20", cwd=repository)
    assert "size moved: W1/cap-width" in said
    git("rm", "-qf", "jobs/c.hts", cwd=repository)
    assert "specification removed" in git("diff", "--cached", cwd=repository)


def test_git_goes_on_after_a_file_that_cannot_be_read(repository: Path) -> None:
    driven(repository)
    (repository / "jobs" / "a.hts").write_bytes(b"\xff\xfe")
    (repository / "jobs" / "library.hts").write_text(LIBRARY)
    said = git("diff", cwd=repository)
    assert "cannot compare jobs/a.hts: " in said
    assert "lower-critical" in said


def test_older_revisions_say_what_they_were_read_with(repository: Path) -> None:
    driven(repository)
    for width in (22, 24, 26):
        (repository / "jobs" / "a.hts").write_text(SPEC.replace("20 mm", f"{width} mm"))
        git("commit", "-qam", str(width), cwd=repository)
    said = git("diff", "HEAD~3", "HEAD~1", "--", "jobs/a.hts", cwd=repository)
    assert "read from the working folder" in said and "20 mm" in said and "24 mm" in said


def test_approved_changes_in_git_diff(repository: Path) -> None:
    (repository / "jobs" / "a.hts").write_text(SPEC.replace("20 mm", "22 mm"))
    options = ("--approvals", "approved.json")
    made = hts("jobs/a.hts", *options, "--approve", "Owner's engineer", cwd=repository)
    assert made.returncode == 0, made.stderr
    (repository / ".gitattributes").write_text("*.hts diff=hts\n")
    git("config", "diff.hts.command", f"{HTS} diff --approvals approved.json", cwd=repository)
    said = git("diff", cwd=repository / "jobs")
    assert "approved (re-approve) size moved: W1/cap-width" in said


@each_row(
    ("text", "revision", "path"),
    [
        ("specs/a.hts", None, "specs/a.hts"),
        ("HEAD:specs/a.hts", "HEAD", "specs/a.hts"),
        ("HEAD:./a.hts", "HEAD", "./a.hts"),
        (":a.hts", "", "a.hts"),
        ("C:\\jobs\\a.hts", None, "C:\\jobs\\a.hts"),
        ("C:/jobs/a.hts", None, "C:/jobs/a.hts"),
    ],
)
def test_a_side_is_a_path_or_of_a_revision(text: str, revision: str | None, path: str) -> None:
    assert where(text) == (revision, path)
