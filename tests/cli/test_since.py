"""`hts compile --since`: what changed in meaning is marked, and nothing else."""

import csv
import io
import json
import os
import subprocess
from pathlib import Path

import jsonschema
import openpyxl
import pypdf
import pytest
from click.testing import CliRunner, Result

from hts.cli.main import cli

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "grammar" / "spec.schema.json").read_text())


def git(folder: Path, *arguments: str) -> str:
    named = ["-c", "user.name=Tern", "-c", "user.email=tern@example.invalid"]
    done = subprocess.run(
        ["git", *named, *arguments],
        cwd=folder,
        check=True,
        capture_output=True,
        text=True,
        env={**os.environ, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull},
    )
    return done.stdout.strip()


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    (tmp_path / "library").mkdir()
    for path in (ROOT / "specs" / "library").glob("*.hts"):
        (tmp_path / "library" / path.name).write_text(path.read_text())
    (tmp_path / "p22.hts").write_text((ROOT / "specs" / "p22-header.hts").read_text())
    git(tmp_path, "init", "-q")
    git(tmp_path, "add", "-A")
    git(tmp_path, "commit", "-qm", "first")
    return tmp_path


def since(repository: Path) -> str:
    """HEAD as it stands on paper: with its commit, for a branch moves on."""
    return f"HEAD ({git(repository, 'rev-parse', 'HEAD')[:8]})"


def change(repository: Path, old: str, new: str) -> None:
    path = repository / "p22.hts"
    text = path.read_text()
    assert text.count(old) == 1
    path.write_text(text.replace(old, new))


def compiled(repository: Path, *more: str) -> Result:
    arguments = ["compile", str(repository / "p22.hts"), "-o", str(repository / "out"), *more]
    return CliRunner().invoke(cli, arguments)


def marked(repository: Path, name: str, column: str) -> dict[str, str]:
    text = (repository / "out" / name).read_text()
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    return {row[column]: row[f"changed since {since(repository)}"] for row in rows}


def test_a_moved_thermocouple_is_marked_with_the_revision(repository: Path) -> None:
    change(
        repository, "T6   monitors soak edge      at 6:00, ", "T6   monitors soak edge  at 6:30, "
    )
    assert compiled(repository, "--since", "HEAD").exit_code == 0
    marks = marked(repository, "tags.csv", "tag")
    assert {tag for tag, mark in marks.items() if mark} == {"T6"} and marks["T6"] == "B"
    sheet = (repository / "out" / "tags.md").read_text()
    assert "Rows that changed are marked B" in sheet
    assert [line for line in sheet.splitlines() if line.startswith("| T6 |") and "| B |" in line]


def test_a_slower_rate_marks_its_step(repository: Path) -> None:
    old = "heat to 705 degC        at most 120 degC/h"
    change(repository, old, old.replace("120", "100"))
    assert compiled(repository, "--since", "HEAD", "--xlsx", "--packet").exit_code == 0
    rows = list(csv.DictReader((repository / "out" / "setpoints.csv").open(newline="")))
    changed = {
        (row["cycle"], row["step"]) for row in rows if row[f"changed since {since(repository)}"]
    }
    assert changed == {("stress-relief", "2")}
    book = openpyxl.load_workbook(repository / "out" / "workbook.xlsx")["Setpoints"]
    heads = [cell.value for cell in book[4]]
    column = heads.index(f"Changed since {since(repository)}") + 1
    assert "B" in {book.cell(row, column).value for row in range(5, book.max_row + 1)}
    packet = pypdf.PdfReader(repository / "out" / "packet-W12.pdf")
    text = "".join(page.extract_text() for page in packet.pages)
    assert f"Changed since {since(repository)}" in text and "rate tightened" in text.replace(
        "\n", " "
    )


def test_the_document_tells_every_change_and_keeps_to_its_schema(repository: Path) -> None:
    change(
        repository, "wall                 39.6 mm measured", "wall                 41 mm measured"
    )
    assert compiled(repository, "--since", "HEAD").exit_code == 0
    job = json.loads((repository / "out" / "job.json").read_text())
    schema = {**SCHEMA, "$ref": "#/$defs/job-file"}
    schema.pop("oneOf", None)
    jsonschema.validate(job, schema)
    assert job["changes"]["since"] == since(repository)
    assert any("wall" in line["address"] for line in job["changes"]["lines"])
    assert any(row["kind"] == "limit" for row in job["changes"]["rows"])


def test_another_unit_or_layout_is_no_change(repository: Path) -> None:
    old = "heat to 705 degC        at most 120 degC/h"
    change(repository, old, "heat to 705 degC  at most 216 degF/h  # the same")
    assert compiled(repository, "--since", "HEAD").exit_code == 0
    assert (
        f"Nothing changed in meaning since {since(repository)}"
        in (repository / "out" / "setpoints.md").read_text()
    )
    assert not any(marked(repository, "setpoints.csv", "step").values())


def test_without_the_option_nothing_is_said_of_changes(repository: Path) -> None:
    assert compiled(repository).exit_code == 0
    assert "changed since" not in (repository / "out" / "setpoints.csv").read_text()
    assert "changes" not in json.loads((repository / "out" / "job.json").read_text())


@pytest.mark.parametrize("revision", ["nowhere", "--all", "HEAD~5"])
def test_a_revision_there_is_not_is_told_and_nothing_written(
    repository: Path, revision: str
) -> None:
    run = compiled(repository, f"--since={revision}")
    assert run.exit_code != 0 and "revision" in run.output
    assert not (repository / "out").exists()


def test_a_new_file_is_told(repository: Path) -> None:
    (repository / "new.hts").write_text((repository / "p22.hts").read_text())
    run = CliRunner().invoke(
        cli,
        ["compile", str(repository / "new.hts"), "-o", str(repository / "o"), "--since", "HEAD"],
    )
    assert run.exit_code != 0 and "new.hts is not in HEAD" in run.output
