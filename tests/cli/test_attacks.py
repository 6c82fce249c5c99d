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
from hts.record.errors import RecordError
from hts.record.reading.source import regular

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
    ("command", "link"),
    [
        *(("check", f) for f in ("log.csv", "log.yaml", "log.events.yaml", "good.results.hts")),
        *(("watch", f) for f in ("log.csv", "log.yaml")),
    ],
)
def test_logs_and_their_side_files_are_no_way_out(root: Path, command: str, link: str) -> None:
    rows = "".join(f"2026-10-02 06:{n:02}:00,20,20\n" for n in range(9))
    (root / "log.csv").write_text(f"time,T1 [degC],T2 [degC]\n{rows}")
    (root / link).unlink(missing_ok=True)
    (root / link).symlink_to(root.parent / "secret")
    once = ["--once"] if command == "watch" else []
    code, shown = run("record", command, "good.hts", "log.csv", *once)
    assert SECRET not in shown
    assert code != 0 and "link" in shown, shown


def test_a_log_outside_every_repository_is_read_through_links(root: Path, tmp_path: Path) -> None:
    """A recorder's share, with a link to the newest log: nobody's change put it there."""
    share = tmp_path / "share"
    share.mkdir()
    (share / "1.csv").write_text("time,T1 [degC]\n2026-10-02 06:00:00,20\n")
    (share / "newest.csv").symlink_to("1.csv")
    assert regular(str(share / "newest.csv"), 1000).startswith(b"time")
    (root / "here.csv").symlink_to(share / "1.csv")
    with pytest.raises(RecordError, match="leads out"):
        regular(str(root / "here.csv"), 1000)


@pytest.mark.parametrize("through", ["out", "out/inner"])
@pytest.mark.parametrize(
    "command", [["compile", "good.hts", "-o"], ["view", "good.hts", "--export"],
                ["plan", "good.hts", "-o"]]
)  # fmt: skip
def test_nothing_is_written_through_a_link_out_of_the_repository(
    root: Path, through: str, command: list[str]
) -> None:
    there = root.parent / "there"
    there.mkdir()
    (root / "out").symlink_to(there)
    code, _ = run(*command, through)
    assert code != 0 and not os.listdir(there)
    code, _ = run(*command, str(there))
    assert code == 0 and os.listdir(there)


def test_no_report_is_written_through_a_link_out_of_the_repository(root: Path) -> None:
    there = root.parent / "there.json"
    (root / "report.json").symlink_to(there)
    code, _ = run("check", "good.hts", "--report", "json=report.json")
    assert code != 0 and not there.exists()


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
    # Python itself takes some from there before the program begins: `.github/SECURITY.md`.
    said = subprocess.run(
        [sys.executable, "-c", "import runpy, sys; print(*sys.modules)"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    first = {name.partition(".")[0] for name in said.stdout.split()}
    for name in {*sys.stdlib_module_names, "click", "yaml", "platformdirs"} - first:
        (root / f"{name}.py").write_text(f"print('{SECRET}')\n")
    done = subprocess.run(
        [sys.executable, "-m", "hts", "check", "good.hts"],
        env={k: v for k, v in os.environ.items() if k != "PYTHONPATH"} | {"PYTHONPATH": ROOT},
        capture_output=True,
        text=True,
        check=False,
    )
    assert SECRET not in done.stdout + done.stderr and done.returncode == 0, done.stderr


@pytest.mark.parametrize(
    "command",
    ["new away/a.hts", "books --new away/law.yaml", "books --new away/in/law.yaml"],
)
def test_no_new_file_is_written_where_a_link_leads_out(root: Path, command: str) -> None:
    outside = root.parent / "outside"
    outside.mkdir()
    (root / "away").symlink_to(outside)
    code, said = run(*command.split())
    assert code and "leads out" in said
    assert list(outside.iterdir()) == []
