"""The command: what it writes, says and exits with."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.cli.main import cli
from hts.language.layout import layout

ROUGH = "spec   1\njoint W1 {\nkind girth butt }\n"
NEAT = "spec 1\n\njoint W1 {\n  kind girth butt\n}\n"
BROKEN = "spec 1\njoint W1 {\n"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def fmt(*arguments: str, text: bytes | None = None) -> Result:
    return CliRunner().invoke(cli, ["fmt", *arguments], input=text)


def test_files_and_folders(folder: Path) -> None:
    (folder / "specs" / "library").mkdir(parents=True)
    (folder / ".hidden").mkdir()
    rough = [Path("a.hts"), Path("specs/b.hts"), Path("specs/library/c.hts")]
    for path in (*rough, Path(".hidden/d.hts"), Path("e.txt")):
        path.write_text(ROUGH)
    Path("specs/neat.hts").write_text(NEAT)
    result = fmt(".", "a.hts")
    assert result.exit_code == 0
    assert result.stdout.splitlines() == [
        "changed: ./a.hts",
        "changed: ./specs/b.hts",
        "changed: ./specs/library/c.hts",
        "3 of 4 files changed",
    ]
    assert [path.read_text() for path in rough] == [NEAT] * 3
    assert Path(".hidden/d.hts").read_text() == Path("e.txt").read_text() == ROUGH
    assert fmt(".").stdout == "0 of 4 files changed\n"


def test_check_writes_nothing() -> None:
    Path("a.hts").write_text(ROUGH)
    Path("b.hts").write_text(NEAT)
    result = fmt("--check", "a.hts", "b.hts")
    assert result.exit_code == 1
    assert result.stdout == "would change: a.hts\n1 of 2 files would change\n"
    assert Path("a.hts").read_text() == ROUGH
    assert fmt("--check", "b.hts").exit_code == 0


def test_diff_writes_nothing() -> None:
    Path("a.hts").write_text('spec 1\nuse   "b.hts"')
    result = fmt("--diff", "a.hts")
    assert result.exit_code == 1
    assert result.stdout == (
        '--- a.hts\n+++ a.hts\n@@ -1,2 +1,2 @@\n spec 1\n-use   "b.hts"\n'
        '\\ No newline at end of file\n+use "b.hts"\n'
    )
    assert Path("a.hts").read_text() == 'spec 1\nuse   "b.hts"'
    Path("a.hts").write_text(NEAT)
    assert (fmt("--diff", "a.hts").exit_code, fmt("--diff", "a.hts").stdout) == (0, "")


def test_standard_input_goes_to_standard_output() -> None:
    result = fmt("-", text=ROUGH.encode())
    assert (result.exit_code, result.stdout, result.stderr) == (0, NEAT, "")
    result = fmt("-", text=NEAT.encode())
    assert (result.exit_code, result.stdout, result.stderr) == (0, NEAT, "")
    result = fmt("--check", "-", "--stdin-path", "specs/a.hts", text=ROUGH.encode())
    assert result.exit_code == 1
    assert result.stdout == "would change: specs/a.hts\n1 of 1 file would change\n"


def test_errors_of_form_leave_the_text_alone() -> None:
    Path("a.hts").write_text(BROKEN)
    Path("b.hts").write_text(ROUGH)
    result = fmt("a.hts", "b.hts")
    assert result.exit_code == 1
    assert "unclosed-block (S105)" in result.stderr
    assert "a.hts:2:10" in result.stderr
    assert Path("a.hts").read_text() == BROKEN
    assert Path("b.hts").read_text() == NEAT
    result = fmt("-", "--stdin-path", "c.hts", text=BROKEN.encode())
    assert (result.exit_code, result.stdout) == (1, "")
    assert "c.hts:2:10" in result.stderr


def test_a_layout_the_guard_refuses_leaves_the_file_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    sound = layout.laid_out
    monkeypatch.setattr(layout, "laid_out", lambda tree: sound(tree).replace("girth", "branch"))
    Path("a.hts").write_text(ROUGH)
    result = fmt("a.hts")
    assert result.exit_code == 1
    assert "ERROR: laid out, 'girth' would be read as 'branch'" in result.stderr
    assert Path("a.hts").read_text() == ROUGH


def test_what_cannot_be_read_or_written_exits_2(monkeypatch: pytest.MonkeyPatch) -> None:
    Path("a.hts").write_text(ROUGH)
    Path("bytes.hts").write_bytes(b"spec 1 \xff\n")
    Path("empty").mkdir()
    for arguments, said in (
        (["missing.hts", "a.hts"], "error: missing.hts: no such file or directory"),
        (["bytes.hts"], "error: bytes.hts: the file is not UTF-8 text (byte 7)"),
        (["empty"], "error: empty: there is no .hts file in this folder"),
    ):
        result = fmt(*arguments)
        assert result.exit_code == 2
        assert said in result.stderr
    assert Path("a.hts").read_text() == NEAT
    result = fmt("-", text=b"\xff")
    assert result.exit_code == 2
    assert "error: <stdin>: not UTF-8 text (byte 0)" in result.stderr

    def fail(*_: object) -> None:
        raise OSError(30, "Read-only file system")

    Path("a.hts").write_text(ROUGH)
    monkeypatch.setattr(os, "replace", fail)
    result = fmt("a.hts")
    assert result.exit_code == 2
    assert "error: a.hts: cannot be written: read-only file system" in result.stderr
    assert Path("a.hts").read_text() == ROUGH
    assert sorted(os.listdir()) == ["a.hts", "bytes.hts", "empty"]


def test_wrong_use_exits_2() -> None:
    assert fmt().exit_code == 2
    assert fmt("--width", "80", "a.hts").exit_code == 2


def test_line_ends_and_byte_order_mark_are_kept() -> None:
    before = "\ufeff" + ROUGH.replace("\n", "\r\n")
    Path("a.hts").write_bytes(before.encode())
    assert fmt("a.hts").exit_code == 0
    assert Path("a.hts").read_bytes() == ("\ufeff" + NEAT.replace("\n", "\r\n")).encode()
    result = fmt("-", text=before.encode())
    assert result.stdout_bytes == ("\ufeff" + NEAT.replace("\n", "\r\n")).encode()
