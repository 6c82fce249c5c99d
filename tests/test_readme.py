"""The examples of the README and of the pages it leads to are what the program does."""

from __future__ import annotations

import doctest
import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from hts.checking.checker.all_kinds import all_kinds
from hts.cli.main import cli

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
CONSOLE = re.findall(r"```console\n\$ hts ([^\n]*)\n(.*?)```", README, re.DOTALL)
API = (ROOT / "grammar" / "API.md").read_text(encoding="utf-8")
PYTHON = re.findall(r"```python\n(.*?)```", API, re.DOTALL)


_FINGERPRINT = re.compile(r"\b[0-9a-f]{4}(?:-[0-9a-f]{4}){2}\b")


def test_output_is_real(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """All examples in their order; `out` is one folder for all of them, and what stands for a line
    with only … in it is anything."""
    monkeypatch.chdir(ROOT)
    for arguments, output in CONSOLE:
        words = [
            str(tmp_path / word.removeprefix("out").lstrip("/"))
            if word.split("/")[0] == "out"
            else word
            for word in shlex.split(arguments)
        ]
        said = CliRunner().invoke(cli, words).output.replace(str(tmp_path), "out")
        # Which digits a fingerprint has follows from every word of the specification and its books.
        said, output = (_FINGERPRINT.sub("0000-0000-0000", text) for text in (said, output))
        pieces = re.split(r"(?m)^…\n", output)
        if len(pieces) == 1:
            assert said == output, arguments
            continue
        at = 0
        for piece in pieces:
            assert piece in said[at:], (arguments, piece)
            at = said.index(piece, at) + len(piece)


def test_two_lines_do_everything_and_ci_runs_the_second_as_it_stands() -> None:
    (first, second) = re.findall(r"^(?:python3 -m venv|\.venv/bin/).*$", README, re.MULTILINE)
    assert first.endswith(".venv/bin/hts compile specs/p22-header.hts -o out")
    assert second in (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()


def test_every_page_it_leads_to_is_there() -> None:
    for page in (README, API, (ROOT / "grammar" / "CI.md").read_text(encoding="utf-8")):
        folder = ROOT if page is README else ROOT / "grammar"
        for target in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", page):
            assert (folder / target).exists(), target


def test_the_tour_shows_the_main_commands() -> None:
    assert {arguments.split()[0] for arguments, _ in CONSOLE} >= {
        "check",
        "why",
        "compile",
        "record",
    }


def test_the_excerpt_stands_in_the_spec() -> None:
    (excerpt,) = re.findall(r"```hts\n(.*?)```", README, re.DOTALL)
    spec = (ROOT / "specs" / "p22-header.hts").read_text(encoding="utf-8")
    for block in excerpt.split("\n…\n"):
        assert block.strip("\n") in spec


@pytest.mark.parametrize("example", PYTHON)
def test_python_does_what_it_shows(example: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    test = doctest.DocTestParser().get_doctest(example, {}, "API.md", "API.md", 0)
    assert test.examples
    said: list[str] = []
    doctest.DocTestRunner().run(test, out=said.append)
    assert said == []


def test_developers_are_told_every_letter_of_the_codes() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| ([A-Z0-9, ]+) \| [^|]+ \| [^|]*`", text, re.MULTILINE)
    told = {letter.strip()[0] for row in rows for letter in row.split(",")}
    assert {kind.code[0] for kind in all_kinds()} <= told
