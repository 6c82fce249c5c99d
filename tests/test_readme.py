"""The README's examples are what the program prints."""

from __future__ import annotations

import doctest
import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from hts.cli.main import cli

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
CONSOLE = re.findall(r"```console\n\$ hts ([^\n]*)\n(.*?)```", README, re.DOTALL)
PYTHON = re.findall(r"```python\n(.*?)```", README, re.DOTALL)


@pytest.mark.parametrize(("arguments", "output"), CONSOLE, ids=[c[0] for c in CONSOLE])
def test_output_is_real(
    arguments: str, output: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.chdir(ROOT)
    words = [str(tmp_path) if word == "out" else word for word in shlex.split(arguments)]
    run = CliRunner().invoke(cli, words)
    assert run.output.replace(str(tmp_path), "out") == output


def test_the_tour_shows_the_main_commands() -> None:
    assert {arguments.split()[0] for arguments, _ in CONSOLE} == {"check", "why", "compile"}


def test_the_excerpt_stands_in_the_spec() -> None:
    (excerpt,) = re.findall(r"```hts\n(.*?)```", README, re.DOTALL)
    spec = (ROOT / "specs" / "p22-header.hts").read_text(encoding="utf-8")
    for block in excerpt.split("\n…\n"):
        assert block.strip("\n") in spec


@pytest.mark.parametrize("example", PYTHON)
def test_python_does_what_it_shows(example: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    test = doctest.DocTestParser().get_doctest(example, {}, "README.md", "README.md", 0)
    assert test.examples
    said: list[str] = []
    doctest.DocTestRunner().run(test, out=said.append)
    assert said == []
