"""`hts new` as it is used: questions on a terminal, options elsewhere, nothing overwritten."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli import inside

HTS = [sys.executable, "-m", "hts"]
#: The command must find the program where these tests do.
ROOT = Path(__file__).parents[3]


def hts(*arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    return inside.hts(cwd, *arguments)


def test_a_file_that_checks_clean(tmp_path: Path) -> None:
    run = hts("new", "a.hts", "--material", "9Cr-V", "--nps", "DN 400", "--schedule", "100",
              "--axis", "vertical", "--date", "2026-11-25", cwd=tmp_path)  # fmt: skip
    assert (run.returncode, run.stderr) == (0, "")
    assert run.stdout == "wrote a.hts; next: hts check a.hts\n"
    check = hts("check", "a.hts", "--today", "2026-11-25", cwd=tmp_path)
    assert (check.returncode, check.stdout) == (0, "1 file checked: no findings\n")
    assert hts("fmt", "--check", "a.hts", cwd=tmp_path).returncode == 0
    assert hts("compile", "a.hts", "-o", "out", cwd=tmp_path).returncode == 0


def test_the_same_answers_give_the_same_bytes(tmp_path: Path) -> None:
    one, two = (hts("new", "-", "--date", "2026-11-25", cwd=tmp_path) for _ in range(2))
    assert one.stdout == two.stdout and one.stdout.startswith("# A first specification")


def test_nothing_is_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "a.hts"
    path.write_text("mine")
    run = hts("new", "a.hts", cwd=tmp_path)
    assert run.returncode == 2
    assert run.stderr == "Error: a.hts already exists; nothing was written\n"
    assert path.read_text() == "mine"


@pytest.mark.skipif(os.name == "nt", reason="links need a right of their own there")
def test_a_link_to_nowhere_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "a.hts").symlink_to(tmp_path / "elsewhere.hts")
    assert hts("new", "a.hts", cwd=tmp_path).returncode == 2
    assert not (tmp_path / "elsewhere.hts").exists()


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["a.txt"], "a.txt does not end in .hts"),
        (["no/a.hts"], "cannot write no/a.hts: no such file or directory"),
        (["a.hts", "--nps", "13"], "no pipe of nominal size 13; close: "),
        (["a.hts", "--schedule", "7"], "NPS 12 has no schedule 7"),
        (["a.hts", "--material", "gold"], "'gold' is not one of 'carbon'"),
        (["a.hts", "--date", "tomorrow"], "not a day of the calendar"),
        (["a.hts", "--joint", "W 1"], "cannot be written as a specification; nothing was"),
    ],
)
def test_what_cannot_be(tmp_path: Path, arguments: list[str], said: str) -> None:
    run = hts("new", *arguments, cwd=tmp_path)
    assert run.returncode == 2
    assert said in run.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(sys.platform != "linux", reason="needs a terminal")
def test_questions_on_a_terminal(tmp_path: Path) -> None:
    ours, theirs = pty.openpty()
    surroundings = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [*HTS, "new", "a.hts", "--date", "2026-11-25", "--book", "asme-b31.1"]
    with subprocess.Popen(
        command, stdin=theirs, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=tmp_path,
        env=surroundings,
    ) as run:  # fmt: skip
        os.write(ours, b"\n5Cr\n6\nXS\ngold\ninduction\nvertical\n\nHT-7\nW7\n")
        try:
            said, asked = run.communicate(timeout=60)
        finally:
            run.kill()  # one that still asks would be waited for without end
    os.close(ours)
    os.close(theirs)
    assert run.returncode == 0, asked
    text = (tmp_path / "a.hts").read_text()
    for words in ("A335 P5", "NPS 6 schedule XS", "by induction", "axis       vertical", "HT-7"):
        assert words in text
    assert "asme-b31.1 edition 2018" in text and "Code" not in asked.decode()
    assert "'gold' is not one of 'resistance', 'induction'" in asked.decode()
    assert said == b"wrote a.hts; next: hts check a.hts\n"
