"""Commands for specifications with a weld list: proposed, printed, compiled joint by joint."""

from __future__ import annotations

import csv
import io
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.cli.check import command as check
from hts.cli.compile import command as compile_
from hts.cli.diff import command as diff
from hts.cli.new import command as new
from hts.cli.weld_list import command as weld_list
from hts.job.outputs.contents import NAME
from tests.language.rows.lists import HEADS, ROWS, job, table


def run(command: object, *arguments: str) -> Result:
    return CliRunner().invoke(command, list(arguments))  # type: ignore[arg-type]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "job.hts").write_text(job(), "utf-8")
    (tmp_path / "welds.csv").write_text(table(), "utf-8")
    return tmp_path


def git(folder: Path, *arguments: str) -> None:
    name = ("-c", "user.name=a", "-c", "user.email=a@example.org")
    subprocess.run(["git", "-C", str(folder), *name, *arguments], check=True, capture_output=True)


def test_a_list_is_printed_as_read_with_what_governs(folder: Path) -> None:
    printed = run(weld_list, str(folder / "job.hts"), "--format", "csv")
    assert printed.exit_code == 0, printed.output
    rows = list(csv.DictReader(io.StringIO(printed.stdout)))
    assert [row["weld"] for row in rows] == ["W101", "W102", "W103"]
    first = rows[0]
    assert (first["WT [mm]"], first["like"], first["row"]) == ("25.4 mm", "W12", "1")
    assert (first["treatment"], first["hold time [min]"]) == ("stress-relief", "120")
    # Two zones of 9 kW and eight thermocouples each, three welds.
    text = run(weld_list, str(folder / "job.hts")).stdout
    assert text.splitlines()[-1].endswith("54.0 kW, 24 thermocouples")


def test_a_workbook_of_the_list_keeps_numbers_of_welds_as_text(folder: Path) -> None:
    polars = pytest.importorskip("polars")
    pytest.importorskip("xlsxwriter")
    out = folder / "welds.xlsx"
    made = run(weld_list, str(folder / "job.hts"), "--format", "xlsx", "-o", str(out))
    assert made.exit_code == 0, made.output
    assert out.read_bytes()[:2] == b"PK"
    assert polars is not None
    again = run(weld_list, str(folder / "job.hts"), "--format", "xlsx", "-o", str(out))
    assert again.exit_code != 0
    assert "already exists" in again.output


def test_what_has_errors_is_not_shown_as_right(folder: Path) -> None:
    (folder / "welds.csv").write_text(table().replace("25.1", "TBD"), "utf-8")
    printed = run(weld_list, str(folder / "job.hts"))
    assert printed.exit_code == 1
    assert "1 with errors, not shown" in printed.stdout


def test_a_block_is_proposed_with_every_column_not_used(folder: Path) -> None:
    made = run(new, "--weld-list", str(folder / "welds.csv"), str(folder / "list.hts"))
    assert made.exit_code == 0, made.output
    text = (folder / "list.hts").read_text("utf-8")
    assert text.count(" not used") == len(HEADS) - 1
    assert 'weld in "Weld no."' in text
    assert 'column "WT [mm]" not used  # perhaps: wall measured\n' in text
    assert f"rows {len(ROWS)}\n" in text
    # It can be read as it stands.
    checked = run(check, "--no-cache", str(folder / "list.hts"))
    assert checked.exit_code == 1
    assert "has no `kind`" in checked.output
    # What nobody has gone through yet is told where the weld hangs on it.
    assert 'column "WT [mm]" is not used; the welds have the wall' in checked.output


@pytest.mark.parametrize(
    ("above", "separator", "line"),
    [
        ("Weld list 2026,,,,,,,\r\n", ",", 2),
        ("Weld list\r\n\r\nrev C\r\n", ";", 4),
        ("Weld list,rev C,,,,,,\r\n", ",", 2),
        ("Weld list\r\nProject,12,,,,,,\r\n", ",", 3),
    ],
)
def test_nothing_is_proposed_from_a_title(
    folder: Path, above: str, separator: str, line: int
) -> None:
    (folder / "welds.csv").write_text(above + table(separator=separator), "utf-8")
    made = run(new, "--weld-list", str(folder / "welds.csv"))
    assert made.exit_code != 0
    assert f"is a title: take all above line {line} out, where the heads stand" in made.output


def test_papers_of_one_joint_and_folders_by_joint(folder: Path) -> None:
    out = folder / "out"
    one = run(compile_, str(folder / "job.hts"), "-o", str(out), "--joint", "W102")
    assert one.exit_code == 0, one.output
    assert "Joint W102" in (out / "setpoints.md").read_text("utf-8")
    assert "Joint W101" not in (out / "setpoints.md").read_text("utf-8")
    many = run(compile_, str(folder / "job.hts"), "-o", str(out), "--by-joint")
    assert many.exit_code == 0, many.output
    assert sorted(path.name for path in out.iterdir()) == sorted(
        ["W12", "W101", "W102", "W103", "index.html", "job.json", NAME]
    )
    page = (out / "index.html").read_text("utf-8")
    assert page.count("<tr>") == 5
    assert 'href="W102/setpoints.md"' in page
    assert "TI &quot;A&quot;, 2" in page
    unknown = run(compile_, str(folder / "job.hts"), "-o", str(out), "--joint", "W10")
    assert unknown.exit_code != 0
    assert "did you mean W101?" in unknown.output or "W10" in unknown.output


def test_only_joints_that_changed_and_what_uses_a_table(folder: Path) -> None:
    git(folder, "init", "-q")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "first")
    (folder / "welds.csv").write_text(table().replace("25.1", "25.2"), "utf-8")
    changed = run(diff, f"HEAD:{folder / 'job.hts'}", str(folder / "job.hts"))
    out = folder / "out"
    made = run(
        compile_,
        str(folder / "job.hts"),
        *("-o", str(out), "--since", "HEAD", "--only-changed", "--by-joint"),
    )
    assert made.exit_code == 0, made.output + changed.output
    assert [path.name for path in sorted(out.iterdir()) if path.is_dir()] == ["W102"]
    # A table alone says nothing; what names it is checked.
    assert run(check, "--no-cache", str(folder / "welds.csv")).exit_code == 2
    users = run(check, "--no-cache", "--with-users", str(folder / "welds.csv"))
    assert users.stdout.startswith("1 file checked: no findings")


def test_a_changed_table_is_checked_anew(
    folder: Path, monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory
) -> None:
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path_factory.mktemp("kept")))
    path = str(folder / "job.hts")
    assert run(check, path).exit_code == 0
    assert run(check, path).exit_code == 0
    (folder / "welds.csv").write_text(table().replace("25.1", "TBD"), "utf-8")
    told = [run(check, path).output for _ in range(2)]
    assert "'TBD' stands for something that is not known" in told[0]
    assert told[0] == told[1]
