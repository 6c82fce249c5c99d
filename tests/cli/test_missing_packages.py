"""Without the packages of an extra a command says which to install, and nothing else happens."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from hts.generate import ROOT

SPEC = os.path.join(ROOT, "specs", "p22-header.hts")


def hts(missing: str, *arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    program = (
        f"import sys; sys.modules[{missing!r}] = None; sys.argv = {['hts', *arguments]!r}\n"
        "from hts.cli.main import main\n"
        "main()\n"
    )
    surroundings = {**os.environ, "PYTHONPATH": ROOT}
    return subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        cwd=cwd,
        env=surroundings,
        check=False,
    )


@pytest.mark.parametrize(
    ("missing", "extra", "arguments"),
    [
        ("xlsxwriter", "paper", ["compile", SPEC, "-o", "out", "--xlsx"]),
        ("drawsvg", "paper", ["compile", SPEC, "-o", "out", "--svg"]),
        ("typst", "paper", ["compile", SPEC, "-o", "out", "--labels"]),
        ("scipy", "predict", ["predict", SPEC]),
        ("numpy", "record", ["record", "simulate", SPEC, "-o", "out"]),
        ("numpy", "record", ["record", "simulate", "--kinds"]),
        ("numpy", "record", ["record", "check", SPEC, "log.csv"]),
        ("numpy", "record", ["record", "check", SPEC, "--archive", "."]),
        ("numpy", "record", ["record", "watch", SPEC, "log.csv", "--once"]),
    ],
)
def test_what_to_install_is_said(
    tmp_path: Path, missing: str, extra: str, arguments: list[str]
) -> None:
    run = hts(missing, *arguments, cwd=tmp_path)
    assert run.returncode == 2
    assert run.stderr == f'Error: {missing} is not installed; run: pip install "hts[{extra}]"\n'
    assert os.listdir(tmp_path) == []


def test_checking_and_tables_need_none(tmp_path: Path) -> None:
    assert hts("numpy", "check", SPEC, cwd=tmp_path).returncode == 0
    assert hts("xlsxwriter", "compile", SPEC, "-o", "out", cwd=tmp_path).returncode == 0
