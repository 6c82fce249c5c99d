"""What comes with a change and is not to be trusted: the table of `.github/SECURITY.md`, tried."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from hts.base.text.reading import Unreadable, leads_out, read_text
from hts.checking.rules.examples import BUTT
from hts.cli.main import cli
from hts.generate import ROOT

SECRET = "token-of-the-runner"
SPECS = Path(ROOT, "specs")


@pytest.fixture
def root(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository, and beside it what nobody who reads the log is to see."""
    made = tmp_path / "checkout"
    (made / ".git").mkdir(parents=True)
    (tmp_path / "secret").write_text(f"{SECRET} = 1\n")
    (tmp_path / "beyond.hts").write_text(BUTT.replace("joint", f"joint  {SECRET}  ", 1))
    (made / "good.hts").write_text(BUTT)
    monkeypatch.chdir(made)
    return made


def run(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(cli, list(arguments))
    return result.exit_code, result.output


@pytest.mark.parametrize("beyond", ["secret", "beyond.hts"])
@pytest.mark.parametrize(
    "command",
    [
        ["check", "link.hts"],
        ["check", "--fix", "link.hts"],
        ["check", "."],
        ["fmt", "link.hts"],
        ["fmt", "."],
        ["why", "link.hts"],
        ["fingerprint", "link.hts"],
        ["diff", "good.hts", "link.hts"],
        ["compile", "link.hts", "-o", "out"],
        ["weld-list", "link.hts"],
        ["plan", "link.hts"],
    ],
)
def test_a_link_out_of_the_repository_is_neither_read_nor_written(
    root: Path, beyond: str, command: list[str]
) -> None:
    there = root.parent / beyond
    before = there.read_bytes()
    (root / "link.hts").symlink_to(there)
    code, shown = run(*command)
    assert code != 0 and SECRET not in shown
    assert there.read_bytes() == before and not (root / "out").exists()


@pytest.mark.parametrize("name", ["hts.toml", "base.json"])
def test_settings_and_baselines_are_no_way_out(root: Path, name: str) -> None:
    (root / name).symlink_to(root.parent / "secret")
    code, shown = run("check", "good.hts", "--baseline", "base.json")
    assert code != 0 and SECRET not in shown


@pytest.mark.parametrize(
    ("spec", "file"),
    [
        ("turnaround-list.hts", "turnaround-list.csv"),
        ("condensate-own-law.hts", "books/island-law.yaml"),
        ("p22-header.hts", "library/materials.hts"),
    ],
)
def test_what_a_text_names_is_no_way_out(root: Path, spec: str, file: str) -> None:
    for folder in ("library", "books"):
        shutil.copytree(SPECS / folder, root / folder)
    for name in (spec, "turnaround-list.csv"):
        shutil.copy(SPECS / name, root / name)
    (root / file).unlink()
    (root / file).symlink_to(root.parent / "secret")
    code, shown = run("check", spec)
    assert code == 1 and SECRET not in shown
    code, shown = run("compile", spec, "-o", "out")
    assert code == 1 and SECRET not in shown and not (root / "out").exists()


def test_links_within_a_repository_are_followed(root: Path, tmp_path: Path) -> None:
    (root / "part").mkdir()
    (root / "part" / "same.hts").symlink_to(root / "good.hts")
    assert not leads_out(str(root / "part" / "same.hts"))
    # The way to the checkout may go by a link, such as a home folder on another disk.
    (tmp_path / "home").symlink_to(root)
    assert read_text(str(tmp_path / "home" / "good.hts")) == BUTT
    (root / "away").symlink_to(tmp_path)
    with pytest.raises(Unreadable, match="leads out"):
        read_text(str(root / "away" / "secret"))


def test_no_module_of_the_working_folder_is_run(root: Path) -> None:
    for name in ("click", "json", "yaml", "tomllib", "platformdirs"):
        (root / f"{name}.py").write_text(f"print('{SECRET}')\n")
    done = subprocess.run(
        [sys.executable, "-m", "hts", "check", "good.hts"],
        env={k: v for k, v in os.environ.items() if k != "PYTHONPATH"} | {"PYTHONPATH": ROOT},
        capture_output=True,
        text=True,
        check=False,
    )
    assert SECRET not in done.stdout + done.stderr and done.returncode == 0, done.stderr
