"""The tutorial as a newcomer runs it: every step is written into a file, every command is run."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from hts.base.text import Source
from hts.cli.main import cli
from hts.generate.language_demands import FIRST
from hts.language.model import Loader, Spec
from tests.rows import each_row
from tests.texts import spec_of

ROOT = Path(__file__).resolve().parents[2]
TEXT = (ROOT / "grammar" / "TUTORIAL.md").read_text("utf-8")
STEPS, TASKS = TEXT.split("\n# Tasks\n")
_BLOCK = re.compile(r"```(\w+)\n(.*?)```", re.DOTALL)


def _head(entry: str) -> str:
    return entry.split("{")[0].splitlines()[0].strip()


def steps(folder: Path) -> list[tuple[str, list[str], list[str]]]:
    """Command, the lines shown, and the lines that are said, in order."""
    entries: dict[str, str] = {}
    found = []
    for kind, body in _BLOCK.findall(STEPS):
        if kind == "hts":
            for entry in body.strip().split("\n\n"):
                entries[_head(entry)] = entry
            (folder / "drain.hts").write_text("\n\n".join(entries.values()) + "\n", "utf-8")
            continue
        command, *shown = body.strip().splitlines()
        arguments = command.removeprefix("$ hts ").split()
        result = CliRunner().invoke(cli, arguments, catch_exceptions=False)
        found.append((command, shown, result.output.splitlines()))
    return found


def test_every_step_says_what_is_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / ".git").mkdir()
    monkeypatch.chdir(tmp_path)
    found = steps(tmp_path)
    assert len(found) >= 10
    missing = [
        (command, line) for command, shown, said in found for line in shown if line not in said
    ]
    assert missing == []
    assert list((tmp_path / "out").glob("packet-*.pdf"))


@each_row("body", [body for kind, body in _BLOCK.findall(TASKS) if kind == "hts"])
def test_every_text_of_a_task_is_read(body: str) -> None:
    # Names that stand in the rest of a job are not there.
    found = [f for f in spec_of(body).findings if "nothing is declared" not in f.message]
    unread = [f.message for f in found if f.kind.name not in ("unknown-name",)]
    assert unread == [], unread


def test_the_files_named_are_there() -> None:
    for path in re.findall(r"`((?:specs|tests)/[\w./-]+\.hts)`", TASKS):
        assert (ROOT / path).is_file(), path


def test_the_whole_job_of_the_reference_has_no_finding() -> None:
    from hts.checking.checker.run import check_spec

    body = _BLOCK.findall(FIRST)[0][1]
    loader = Loader("/")
    assert check_spec(Spec(Source(body, "first.hts"), loader), "2026-11-01") == []
