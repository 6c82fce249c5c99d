"""What keeps `hts check` from running exits 2, so that 1 always means findings."""

import io
import json
import os
import signal
import subprocess
import sys
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path
from typing import Any
from unittest.mock import Mock, patch

import click
import pytest

from hts.base.findings import Finding
from hts.checking.checker import outcome
from hts.checking.checker.check_paths import Task, UncheckedFile, check_paths
from hts.checking.checker.processes import check_in_processes
from hts.checking.govern.case import Case
from hts.cli import main
from hts.generate import ROOT
from hts.language.model import load
from tests.rows import each_row

SOUND = "spec 1\n"


def hts(*arguments: str | bytes, cwd: Path) -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, "-m", "hts", *arguments]
    surroundings = {**os.environ, "PYTHONPATH": ROOT}
    return subprocess.run(command, capture_output=True, cwd=cwd, env=surroundings, check=False)


@pytest.mark.parametrize("today", ["", "tomorrow", "20-11-2026", "2026-02-30", "2026-11-20T10:00"])
def test_a_day_that_is_none(tmp_path: Path, today: str) -> None:
    (tmp_path / "a.hts").write_text(SOUND)
    run = hts("check", "--today", today, "a.hts", cwd=tmp_path)
    assert run.returncode == 2
    assert b"is not a day of the calendar" in run.stderr


def test_a_wrong_command_line(tmp_path: Path) -> None:
    for arguments in (["check"], ["check", "--jobs", "0", "."], ["--nothing"], ["nothing"]):
        assert hts(*arguments, cwd=tmp_path).returncode == 2


@pytest.mark.parametrize("arguments", [["--help"], ["check", "--help"], ["--version"]])
def test_help_is_no_failure(tmp_path: Path, arguments: list[str]) -> None:
    assert hts(*arguments, cwd=tmp_path).returncode == 0


def interruptible() -> None:
    """A shell that runs something in the background has it ignore interruptions, and what that
    starts ignores them, too."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


@pytest.mark.parametrize(
    ("number", "code", "said"),
    [(signal.SIGINT, 130, b"interrupted"), (signal.SIGTERM, 143, b"")],
)
def test_ended_by_a_signal(tmp_path: Path, number: int, code: int, said: bytes) -> None:
    """POSIX shells tell 128 and the number of the signal."""
    command = [sys.executable, "-c", WAITING]
    surroundings = {**os.environ, "PYTHONPATH": ROOT}
    pipe = subprocess.PIPE
    with subprocess.Popen(
        command, stdin=pipe, stdout=pipe, stderr=pipe, cwd=tmp_path, env=surroundings,
        preexec_fn=interruptible,
    ) as run:  # fmt: skip
        assert run.stdout is not None and run.stderr is not None
        run.stdout.readline()
        run.send_signal(number)
        told = run.stderr.read()
    assert (run.returncode, told.strip()) == (code, said)


#: Says that it has begun, and waits for a text that never comes.
WAITING = (
    "import sys\n"
    "from hts.cli import main\n"
    "import hts.cli.check\n"
    "class Slow:\n"
    "    def read(self):\n"
    "        print('waiting', flush=True)\n"
    "        import time\n"
    "        time.sleep(60)\n"
    "class Stream:\n"
    "    buffer = Slow()\n"
    "sys.stdin = Stream()\n"
    "sys.argv = ['hts', 'check', '-']\n"
    "main.start()\n"
)


@pytest.mark.skipif(not os.path.exists("/dev/zero"), reason="needs an endless file")
def test_only_plain_files_are_opened(tmp_path: Path) -> None:
    """A pipe would be waited for, a device read without end: neither has a specification in it."""
    os.mkfifo(tmp_path / "a.hts")
    (tmp_path / "good.hts").write_text(SOUND)
    for path in ("a.hts", ".", "/dev/zero"):
        run = hts("check", path, cwd=tmp_path)
        assert run.returncode == 2
        assert b"not a file with text in it" in run.stdout


def test_a_pipe_or_a_loop_of_settings(tmp_path: Path) -> None:
    (tmp_path / "good.hts").write_text(SOUND)
    os.mkfifo(tmp_path / "hts.toml")
    assert hts("check", "good.hts", cwd=tmp_path).returncode == 2
    (tmp_path / "hts.toml").unlink()
    (tmp_path / "hts.toml").symlink_to("hts.toml")
    assert hts("check", "good.hts", cwd=tmp_path).returncode == 2


def test_what_a_walk_meets(tmp_path: Path) -> None:
    """Nothing below a folder goes unread without a word."""
    inner = tmp_path / "inside"
    outside = tmp_path / "outside"
    for folder in (inner, outside):
        folder.mkdir()
    (inner / ".git").mkdir()
    (outside / "secret.hts").write_text("what nobody asked for\n")
    (inner / "CAPITALS.HTS").write_text("spec 1\nfoo\n")
    (inner / "link.hts").symlink_to(outside / "secret.hts")
    (inner / "folder").symlink_to(outside)
    found = check_paths([str(inner)])
    assert [f.source.name for f in found.findings] == ["CAPITALS.HTS"]
    assert sorted((f.name, f.reason.split(";")[0]) for f in found.failures) == [
        ("folder", "a link to a folder outside the repository"),
        ("link.hts", "a link to a file outside the repository"),
    ]
    before = (outside / "secret.hts").read_text()
    assert hts("fmt", ".", cwd=inner).returncode == 2
    assert (outside / "secret.hts").read_text() == before


def test_a_fault_of_ours_is_a_failure_of_that_file_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("a", "b", "c"):
        (tmp_path / f"{name}.hts").write_text(f"spec 1\nfoo{name}\n")
    real = outcome.check_case

    def faulty(case: Case, *more: Any) -> list[Finding]:
        if case.spec.source.name == "b.hts":
            raise ZeroDivisionError("Fraction(1, 0)")
        return real(case, *more)

    monkeypatch.setattr(outcome, "check_case", faulty)
    found = check_paths([str(tmp_path)])
    assert found.exit_code == 2
    assert found.checked == ["a.hts", "c.hts"]
    assert {f.source.name for f in found.findings} == {"a.hts", "c.hts"}
    [failure] = found.failures
    assert failure.name == "b.hts" and "please report it" in failure.reason
    assert "ZeroDivisionError: Fraction(1, 0)" in failure.reason and "\n" not in failure.reason


def test_nobody_reads_the_report(tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_text("foo\n" * 5000)
    command = [sys.executable, "-m", "hts", "check", "a.hts"]
    pipe, surroundings = subprocess.PIPE, {**os.environ, "PYTHONPATH": ROOT}
    with subprocess.Popen(command, stdout=pipe, stderr=pipe, cwd=tmp_path, env=surroundings) as run:
        assert run.stdout is not None and run.stderr is not None
        run.stdout.close()
        assert run.stderr.read() == b""
    assert run.returncode == 2


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs a full device")
def test_the_disk_of_the_report_is_full(tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_text(SOUND)
    command = [sys.executable, "-m", "hts", "check", "a.hts"]
    with open("/dev/full", "w") as full:
        run = subprocess.run(
            command,
            stdout=full,
            stderr=subprocess.PIPE,
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": ROOT},
            check=False,
        )
    assert run.returncode == 2
    assert run.stderr == b"cannot write the output: no space left on device\n"


@pytest.mark.parametrize("closed", [">&-", "2>&-", ">&- 2>&-", "<&-"])
def test_a_stream_is_closed(tmp_path: Path, closed: str) -> None:
    for text, code in ((SOUND, 0), ("spec 1\nfoo\n", 1)):
        (tmp_path / "a.hts").write_text(text)
        command = f"exec {sys.executable} -m hts check a.hts {closed}"
        surroundings = {**os.environ, "PYTHONPATH": ROOT}
        run = subprocess.run(
            ["/bin/sh", "-c", command], capture_output=True, cwd=tmp_path, env=surroundings,
            check=False,
        )  # fmt: skip
        assert (run.returncode, run.stderr) == (code, b"")


def test_the_largest_file_is_read_and_one_larger_is_not(tmp_path: Path) -> None:
    path = tmp_path / "a.hts"
    for size, failures in ((load.LARGEST, 0), (load.LARGEST + 1, 1)):
        path.write_text("spec 1\n#".ljust(size))
        assert len(check_paths([str(path)]).failures) == failures


def test_a_process_ended_from_outside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a.hts").write_text(SOUND)

    def end(*_: object) -> None:
        os.kill(os.getpid(), signal.SIGKILL)

    monkeypatch.setattr("hts.checking.checker.outcome.check_case", end)
    tasks: list[Task | UncheckedFile] = [Task(str(tmp_path), "a.hts", str(tmp_path / "a.hts"))]
    with pytest.raises(ChildProcessError, match="was killed"):
        list(check_in_processes(tasks, None, 1))


def test_what_is_named_twice_is_checked_once(tmp_path: Path) -> None:
    (tmp_path / "a.hts").write_text(SOUND)
    (tmp_path / "b.hts").write_text(SOUND)
    path, other = str(tmp_path / "a.hts"), str(tmp_path / "b.hts")
    assert check_paths([other, path, str(tmp_path), path]).checked == ["b.hts", "a.hts"]


@pytest.mark.skipif(sys.platform != "linux", reason="needs file names of any bytes")
def test_a_file_name_that_is_no_text(tmp_path: Path) -> None:
    Path(os.fsdecode(os.fsencode(tmp_path) + b"/n\xff.hts")).write_text("spec 1\nfoo\n")
    run = hts("check", "--format", "json", b"n\xff.hts", cwd=tmp_path)
    assert run.returncode == 1
    # RFC 8259, 8.1: JSON between systems is UTF-8.
    assert json.loads(run.stdout.decode("utf-8"))["checked"] == ["n\udcff.hts"]
    assert b"n<U+DCFF>.hts:2:1" in hts("check", b"n\xff.hts", cwd=tmp_path).stdout


def test_no_findings_is_said_of_what_was_judged_alone(tmp_path: Path) -> None:
    here = {"cwd": tmp_path, "capture_output": True, "text": True}
    args = [sys.executable, "-m", "hts", "check"]
    none = subprocess.run([*args, "nowhere.hts"], **here)  # type: ignore[call-overload]
    assert none.returncode == 2 and "no findings" not in none.stdout
    assert none.stdout.endswith("nothing judged: 0 files checked, 1 could not be judged whole\n")
    good = os.path.join(ROOT, "specs", "carbon-steel-butt.hts")
    some = subprocess.run([*args, "nowhere.hts", good], **here)  # type: ignore[call-overload]
    assert some.returncode == 2
    assert "1 file checked, 1 could not be judged whole" in some.stdout
    assert some.stdout.endswith("in what was judged\n")


@each_row(
    ("raised", "code", "said"),
    [
        (click.Abort(), 130, "interrupted"),
        (click.UsageError("no such thing"), 2, "Error: no such thing"),
        (OSError(28, "No space left on device"), 2, "cannot write the output: no space left on"),
        (OSError(2, "No such file or directory", "a"), 2, "a fault of hts"),
        (OSError("odd"), 2, "a fault of hts"),
        (ValueError("odd"), 2, "a fault of hts"),
    ],
)
def test_how_a_command_that_fails_ends(raised: Exception, code: int, said: str) -> None:
    out, errors = io.StringIO(), io.StringIO()
    with (
        patch.object(main.cli, "main", side_effect=raised),
        redirect_stdout(out),
        redirect_stderr(errors),
        pytest.raises(SystemExit) as ended,
    ):
        main._by_options()
    assert (ended.value.code, out.getvalue()) == (code, "")
    assert errors.getvalue().startswith(said)


@each_row(
    ("ended", "unwritten", "code"),
    [(3, False, 3), (0, False, 0), (None, False, 0), ("words", False, 1), (0, True, 2)],
)
def test_what_the_process_ends_with(ended: object, unwritten: bool, code: int) -> None:
    """As Python itself ends for SystemExit; 2 where the last of the output cannot be written."""
    out = Mock()
    if unwritten:
        out.flush.side_effect = OSError
    with (
        patch.object(main, "main", side_effect=SystemExit(ended)),
        patch.object(sys, "stdout", out),
        patch.object(os, "_exit") as left,
    ):
        main.start()
    left.assert_called_once_with(code)
