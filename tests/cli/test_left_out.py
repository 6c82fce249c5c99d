"""Which files a folder stands for, and how they are told."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.checking.checker.check_paths import cache_folder, check_paths
from hts.checking.configuration import loader
from hts.cli.check import command as check
from hts.cli.fmt import command as fmt

WRONG = "spec 1\njoint W1 {\n  kind girth\n}\n"


def git(folder: Path, *words: str) -> None:
    subprocess.run(["git", "-C", str(folder), *words], check=True, capture_output=True)


def names(*paths: str) -> list[str]:
    configured = loader()
    return check_paths(paths, settings=lambda path: configured(path).setting).checked


def run(*words: str) -> Result:
    return CliRunner().invoke(check, [*words, "--no-cache"])


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    git(tmp_path, "init", "-q", ".")
    for name in ("a.hts", "old/b.hts", "build/c.hts", "deep/tmp/d.hts", "deep/e.hts"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(WRONG)
    return tmp_path


def test_what_git_ignores_is_left_out(folder: Path) -> None:
    (folder / ".gitignore").write_text("build/\n")
    (folder / "deep" / ".gitignore").write_text("tmp/\n!e.hts\n")
    assert names(".") == ["a.hts", "deep/e.hts", "old/b.hts"]
    assert names("deep") == ["deep/e.hts"]
    # Named by itself it is meant.
    assert names("build/c.hts") == ["build/c.hts"]


def test_what_git_tracks_is_never_hidden(folder: Path) -> None:
    """A change may bring along both a specification and the line that ignores it."""
    git(folder, "add", "a.hts", "build/c.hts")
    (folder / ".gitignore").write_text("*.hts\n")
    assert names(".") == ["a.hts", "build/c.hts"]


def test_settings_exclude_and_every_report_says_so(folder: Path) -> None:
    (folder / "hts.toml").write_text('exclude = ["old/", "/deep/**/d.hts"]\n')
    assert names(".") == ["a.hts", "build/c.hts", "deep/e.hts"]
    told = "leaves out the files: old/, /deep/**/d.hts"
    for form in ("text", "line", "json", "sarif", "github", "junit"):
        assert told in run(".", "--format", form).output.replace("\\/", "/"), form
    assert told in run(".", "-q").output and told in run(".", "--statistics").output
    assert names("old/b.hts") == ["old/b.hts"]
    assert "old" not in CliRunner().invoke(fmt, ["--check", "."]).output
    (folder / "hts.toml").write_text('exclude = ["*"]\n')
    assert run("-q", ".").output == "hts.toml:1:1 leaves out the files: *\n"


def test_a_file_reached_by_two_ways_is_checked_once(folder: Path) -> None:
    (folder / "z.hts").symlink_to("a.hts")
    (folder / "way").symlink_to("old")
    assert names("a.hts", "./a.hts", str(folder / "a.hts"), "z.hts") == ["a.hts"]
    assert names("old", "way", "old/b.hts") == ["old/b.hts"]


def test_two_repositories_are_told_apart(folder: Path) -> None:
    for name in ("one", "two"):
        (folder / name).mkdir()
        git(folder / name, "init", "-q", ".")
        (folder / name / "a.hts").write_text(WRONG)
    results = check_paths(["one", "two", "a.hts"])
    assert results.checked == ["one/a.hts", "two/a.hts", "a.hts"]
    assert {f.source.name for f in results.findings} == {"one/a.hts", "two/a.hts", "a.hts"}
    assert names("one") == ["a.hts"]


def test_a_line_for_each_finding(folder: Path) -> None:
    (folder / "b.hts").write_bytes(b"\xff")
    assert run("a.hts", "b.hts", "--format", "line").output == (
        "b.hts:1:1: error: the file is not UTF-8 text (byte 0); save it as UTF-8\n"
        "a.hts:3:8: error: 'girth' is not a choice here [unknown-choice (W108)]\n"
    )


def test_quiet_and_statistics(folder: Path) -> None:
    assert "1 file checked" not in run("-q", "a.hts").output
    told = run("--statistics", "a.hts", "old/b.hts").output
    assert told.startswith("    2  error    unknown-choice (W108)\n2 files checked: 2 errors")
    (folder / "good.hts").write_text("spec 1\n")
    assert run("-q", "good.hts").output == ""
    assert run("-q", "--format", "json", "a.hts").exit_code == 2


def test_colour_on_request(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert "\x1b[31;1m" in run("--color", "always", "a.hts").output
    assert "\x1b" not in run("--color", "never", "a.hts").output
    assert "\x1b" not in run("a.hts").output


def test_the_cache_is_where_the_system_keeps_caches(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    platformdirs = pytest.importorskip("platformdirs")
    monkeypatch.delenv("HTS_CACHE_DIR", raising=False)
    for base in (str(tmp_path), "relative", ""):
        monkeypatch.setenv("XDG_CACHE_HOME", base)
        expected = platformdirs.user_cache_dir("hts", appauthor=False)
        if base != "relative":  # the XDG specification has it ignored
            assert cache_folder() == expected
