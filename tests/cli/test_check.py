"""`hts check`: exit codes, what is read, what is written."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from hts.checking.rules.examples import BASES
from hts.generate import ROOT
from tests.cli import inside
from tests.rows import each_row

GOOD = Path(ROOT, "specs", "carbon-steel-butt.hts")
CLEAN = "spec 1\n"


Run = subprocess.CompletedProcess[bytes]


def hts(*arguments: str, data: bytes = b"", cwd: str | Path = ROOT) -> Run:
    ran = inside.hts(cwd, *arguments, data=data)
    return Run(ran.args, ran.returncode, ran.stdout.encode(), ran.stderr.encode())


def process(*arguments: str, data: bytes = b"", cwd: str | Path = ROOT) -> Run:
    """The same in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "hts", *arguments],
        input=data,
        capture_output=True,
        cwd=cwd,
        env={**os.environ, "PYTHONPATH": ROOT, "PYTHONIOENCODING": "utf-8"},
        check=False,
    )


def findings(run: Run) -> list[tuple[str, int, int]]:
    found = json.loads(run.stdout)["findings"]
    return [(f["code"], f["at"]["line"], f["at"]["column"]) for f in found]


# Exit codes.


def test_0_where_nothing_is_wrong() -> None:
    run = process("check", str(GOOD))
    assert (run.returncode, run.stderr) == (0, b"")
    assert run.stdout.startswith(b"1 file checked: ")


def test_1_where_something_is_wrong(tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_text("spec 1\njoint W1 {\n  wall 25.4 measured\n}\n")
    run = process("check", "--format", "json", "a.hts", cwd=tmp_path)
    assert run.returncode == 1
    assert ("Q101", 3, 8) in findings(run)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["check", "nothing.hts"], b"there is no such file or folder"),
        (["check", "empty"], b"there is no .hts file in this folder"),
        (["check", "latin.hts"], b"not UTF-8 text (byte 2)"),
        (["check", "large.hts"], b"larger than 5 MB"),
    ],
)
def test_2_where_a_path_cannot_be_read(tmp_path: Path, arguments: list[str], said: bytes) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "latin.hts").write_bytes("# ä".encode("latin-1"))
    (tmp_path / "large.hts").write_bytes(b"# \n" * 2_000_000)
    run = hts(*arguments, cwd=tmp_path)
    assert run.returncode == 2
    assert said in run.stdout
    assert b"Traceback" not in run.stderr


def test_2_where_a_link_leads_nowhere(tmp_path: Path) -> None:
    os.symlink(tmp_path / "gone.hts", tmp_path / "a.hts")
    run = hts("check", ".", cwd=tmp_path)
    assert run.returncode == 2
    assert b"cannot read" in run.stdout


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read every file")
def test_2_where_a_file_may_not_be_read(tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_text(CLEAN)
    (tmp_path / "a.hts").chmod(0)
    assert hts("check", "a.hts", cwd=tmp_path).returncode == 2


@pytest.mark.parametrize("arguments", [["check"], ["check", "--format", "xml", "a"], ["chek"]])
def test_2_where_the_command_is_wrong(arguments: list[str]) -> None:
    run = hts(*arguments)
    assert run.returncode == 2
    assert b"Usage" in run.stderr and not run.stdout


def test_a_file_that_cannot_be_read_keeps_no_other_from_being_checked(tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_bytes(b"\xff")
    (tmp_path / "b.hts").write_text("joint W1 { $\n")
    run = hts("check", "--format", "json", ".", cwd=tmp_path)
    report = json.loads(run.stdout)
    assert run.returncode == 2
    assert [failure["name"] for failure in report["failures"]] == ["a.hts"]
    assert report["checked"] == ["b.hts"] and report["findings"]


# What is read.


def test_folders_are_walked_in_the_order_of_names(tmp_path: Path) -> None:
    for name in ("b.hts", "a/z.hts", "a/c.hts", ".hidden/x.hts", "a/note.txt"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text("$\n")
    (tmp_path / "hts.toml").write_text("")
    run = hts("check", "--format", "json", str(tmp_path))
    assert json.loads(run.stdout)["checked"] == ["b.hts", "a/c.hts", "a/z.hts"]


def test_standard_input_is_a_file_at_its_path() -> None:
    text = GOOD.read_bytes()
    alone = process("check", "-", data=text)
    placed = hts("check", "-", "--stdin-path", str(GOOD), data=text)
    assert placed.returncode == 0
    # Without a place its `use` lines are looked for from the root.
    assert alone.returncode in (0, 1) and b"Traceback" not in alone.stderr
    assert placed.stdout == hts("check", str(GOOD)).stdout


def test_standard_input_that_is_no_text() -> None:
    run = hts("check", "-", data=b"spec 1\n\xff")
    assert run.returncode == 2
    assert b"not UTF-8 text (byte 7)" in run.stdout


BROKEN = b"spec 1 $\njoint W1 {\n  wall 25.4 measured\n}\n"


def test_a_byte_order_mark_is_no_part_of_a_text(tmp_path: Path) -> None:
    (tmp_path / "plain.hts").write_bytes(BROKEN)
    (tmp_path / "marked.hts").write_bytes(b"\xef\xbb\xbf" + BROKEN)
    (tmp_path / "twice.hts").write_bytes(b"\xef\xbb\xbf\xef\xbb\xbf" + BROKEN)
    plain, marked, twice = (
        hts("check", "--format", "json", f"{name}.hts", cwd=tmp_path)
        for name in ("plain", "marked", "twice")
    )
    piped = hts("check", "--format", "json", "-", data=b"\xef\xbb\xbf" + BROKEN, cwd=tmp_path)
    assert findings(plain)[0] == ("S101", 1, 8)
    assert findings(marked) == findings(plain) == findings(piped)
    # A second mark is a character like any other that has no meaning there.
    assert findings(twice)[0] == ("S101", 1, 1)


def test_line_ends_of_other_systems_change_nothing(tmp_path: Path) -> None:
    (tmp_path / "unix.hts").write_bytes(BROKEN)
    (tmp_path / "other.hts").write_bytes(BROKEN.replace(b"\n", b"\r\n"))
    runs = [hts("check", "--format", "json", f, cwd=tmp_path) for f in ("unix.hts", "other.hts")]
    assert findings(runs[0]) == findings(runs[1]) != []


def test_a_spec_reads_nothing_outside_its_root(tmp_path: Path) -> None:
    (tmp_path / "secret.hts").write_text("spec 1\n")
    root = tmp_path / "root"
    root.mkdir()
    (root / "hts.toml").write_text("")
    os.symlink(tmp_path / "secret.hts", root / "link.hts")
    for path in ("../secret.hts", "link.hts", str(tmp_path / "secret.hts")):
        (root / "a.hts").write_text(f'spec 1\nuse "{path}"\n')
        run = hts("check", "--format", "json", "a.hts", cwd=root)
        assert run.returncode == 1
        assert findings(run)[0][1:] == (2, 5)


def test_a_hidden_character_is_told_once(tmp_path: Path) -> None:
    text = 'spec 1\na \u200b\nb "\u200b"\n'.encode()
    found = findings(hts("check", "--format", "json", "-", data=text, cwd=tmp_path))
    assert [place for place in found if place[0] in ("S101", "S111")] == [
        ("S101", 2, 3),
        ("S111", 3, 4),
    ]


# What is written.

REPORT = json.loads(Path(ROOT, "grammar", "check.schema.json").read_text("utf-8"))


@each_row(
    "text", [BROKEN, GOOD.read_bytes(), *(base.encode() for base in list(BASES.values())[:2])]
)
def test_the_report_for_machines_has_its_form(text: bytes) -> None:
    run = hts("check", "--format", "json", "-", data=text.replace(b"25.4 mm", b"25,4 mm"))
    Draft202012Validator(REPORT).validate(json.loads(run.stdout))


def test_two_runs_are_equal_byte_for_byte() -> None:
    arguments = ("check", "--format", "json", "specs/library", "specs/p22-header.hts")
    assert process(*arguments).stdout == process(*arguments).stdout == hts(*arguments).stdout


def test_a_spec_cannot_steer_the_terminal(tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_text('spec 1\njob "\x1b[31m\u202e" {\n}\n\x1b]0;x\x07\n')
    run = hts("check", "a.hts", cwd=tmp_path)
    assert run.returncode == 1
    shown = run.stdout.decode()
    assert "\x1b" not in shown and "\x07" not in shown and "\u202e" not in shown


def test_a_reader_that_goes_away_is_no_fault(tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_text("a ..\n" * 20_000)
    run = subprocess.Popen(
        [sys.executable, "-m", "hts", "check", "a.hts"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": ROOT},
    )
    assert run.stdout is not None and run.stderr is not None
    run.stdout.read(10)
    run.stdout.close()
    errors = run.stderr.read()
    run.stderr.close()
    run.wait()
    assert b"Traceback" not in errors and b"Exception" not in errors
    assert run.returncode != 0


def test_the_day_is_the_option_s_then_the_file_s_then_the_clock_s(tmp_path, monkeypatch) -> None:
    """A waiver until the 31st of January counts till then, on whichever day is named."""
    from click.testing import CliRunner

    from hts.checking.rules.examples import changed
    from hts.cli.main import cli

    text = changed(
        "butt",
        (
            ("  hold counts         while all in range\n", ""),
            (
                "controller C1 {",
                'waive unclear-hold-count on W12/stress-relief {\n  reason "Agreed"\n'
                '  by "Welding engineer"\n  until 2027-01-31\n}\n\ncontroller C1 {',
            ),
        ),
    )
    (tmp_path / "a.hts").write_text(text, "utf-8")

    def ended(*more: str) -> bool:
        found = CliRunner().invoke(cli, ["check", str(tmp_path / "a.hts"), "--no-cache", *more])
        return "ended on 2027-01-31" in found.output

    assert not ended()
    monkeypatch.setattr("hts.cli.today.clock", lambda: "2027-02-01")
    assert ended()
    assert not ended("--today", "2027-01-31")
    (tmp_path / "hts.toml").write_text('today = "2027-01-30"\n', "utf-8")
    assert not ended()
    (tmp_path / "hts.toml").write_text("today = 2027-03-30\n", "utf-8")
    assert ended()
    (tmp_path / "hts.toml").write_text('today = "30.3.2027"\n', "utf-8")
    assert "2026-11-20" in CliRunner().invoke(cli, ["check", str(tmp_path / "a.hts")]).output


def test_a_waiver_that_had_run_out_at_the_revision_is_told_without_a_day() -> None:
    from hts.base.text import Source
    from hts.checking.checker.run import check_spec
    from hts.checking.rules.examples import changed
    from hts.language.model import Loader, Spec

    text = changed(
        "butt",
        (
            ("  hold counts         while all in range\n", ""),
            (
                "controller C1 {",
                'waive unclear-hold-count on W12/stress-relief {\n  reason "Agreed"\n'
                '  by "Welding engineer"\n  until 2026-10-01\n}\n\ncontroller C1 {',
            ),
        ),
    )
    found = check_spec(Spec(Source(text, "a.hts"), Loader("/")))
    assert "this waiver ended on 2026-10-01" in [finding.message for finding in found]
