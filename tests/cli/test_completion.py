"""Completion by the shell, through click's own mechanism."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from hts.generate import ROOT


def completed(*words: str) -> list[str]:
    """What bash is offered for the last word; `file` stands for its own completion of files."""
    # Click, "Shell Completion": the variables its bash script sets.
    surroundings = {
        **os.environ,
        "PYTHONPATH": ROOT,
        "_HTS_COMPLETE": "bash_complete",
        "COMP_WORDS": " ".join(("hts", *words)),
        "COMP_CWORD": str(len(words)),
    }
    run = subprocess.run(
        [sys.executable, "-c", "from hts.cli.main import main; main()"],
        env=surroundings, capture_output=True, text=True, cwd=ROOT, check=False,
    )  # fmt: skip
    assert run.stderr == ""
    return [line.removeprefix("plain,") for line in run.stdout.splitlines()]


@pytest.mark.parametrize(
    ("words", "offered"),
    [
        (("che",), ["check"]),
        (("check", "--sh"), ["--shard"]),
        (("check", "--format", "j"), ["json", "junit"]),
        (("check", "spe"), ["file,spe"]),
        (("fmt", "a"), ["file,a"]),
        (("rules", "zone-g"), ["zone-gap"]),
        (("rules", "Z11"), [f"Z11{digit}" for digit in range(10)]),
        (("books", "asme-b"), ["asme-b31.1", "asme-b31.3"]),
        (("new", "a.hts", "--material", "9"), ["9Cr", "9Cr-V"]),
    ],
    ids=lambda value: " ".join(value),
)
def test_what_is_offered(words: tuple[str, ...], offered: list[str]) -> None:
    assert completed(*words) == offered


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_each_shell_has_its_script(shell: str) -> None:
    run = subprocess.run(
        [sys.executable, "-m", "hts"],
        env={**os.environ, "PYTHONPATH": ROOT, "_HTS_COMPLETE": f"{shell}_source"},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    if "Shell completion is not supported for Bash versions older" not in run.stderr:
        assert "_HTS_COMPLETE" in run.stdout
