"""How the program begins: a check of paths alone."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.specs.found import SPECS


def run(*arguments: str, **surroundings: str) -> tuple[int, str, str]:
    done = subprocess.run(
        [sys.executable, "-m", "hts", *arguments],
        capture_output=True,
        text=True,
        cwd=SPECS.parent,
        env={**os.environ, **surroundings},
    )
    return done.returncode, done.stdout, done.stderr


@pytest.mark.parametrize("name", ["broken/zone-gap.hts", "nowhere.hts"])
def test_a_check_without_options_says_what_one_with_options_says(name: str) -> None:
    path = f"specs/{name}"
    assert run("check", path) == run("check", "--color", "auto", path)


def test_what_cannot_be_used_is_told_as_with_options(tmp_path: Path) -> None:
    (tmp_path / "hts.toml").write_text("nonsense = 1\n")
    (tmp_path / "a.hts").write_text("spec 1\n")
    path = str(tmp_path / "a.hts")
    alone = run("check", path)
    assert alone == run("check", "--color", "auto", path)
    assert alone[0] == 2
    assert "nonsense" in alone[2]
