"""What keeps `hts check` from running exits 2, so that 1 always means findings."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from hts.checking.checker.check_paths import Failure, Task, check_paths
from hts.checking.checker.processes import check_in_processes
from hts.generate import ROOT
from hts.language.model import load

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


def test_an_interruption(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.hts")
    command = [sys.executable, "-m", "hts", "check", "a.hts"]
    surroundings = {**os.environ, "PYTHONPATH": ROOT}
    with (
        subprocess.Popen(
            command,
            stderr=subprocess.PIPE,
            cwd=tmp_path,
            env=surroundings,
            preexec_fn=interruptible,
        ) as run,
        open(tmp_path / "a.hts", "w"),  # possible once the check waits for the text
    ):
        run.send_signal(signal.SIGINT)
        assert run.stderr is not None
        said = run.stderr.read()
    assert (run.returncode, said.strip()) == (2, b"interrupted")


@pytest.mark.skipif(not os.path.exists("/dev/zero"), reason="needs an endless file")
def test_a_file_without_an_end(tmp_path: Path) -> None:
    run = hts("check", "/dev/zero", cwd=tmp_path)
    assert run.returncode == 2
    assert b"larger than 5 MB" in run.stdout


def test_a_pipe_is_read(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.hts")
    command = [sys.executable, "-m", "hts", "check", "a.hts"]
    surroundings = {**os.environ, "PYTHONPATH": ROOT}
    with subprocess.Popen(command, stdout=subprocess.PIPE, cwd=tmp_path, env=surroundings) as run:
        (tmp_path / "a.hts").write_text(SOUND)
        assert run.stdout is not None
        run.stdout.read()
    assert run.returncode == 0


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


def test_standard_output_is_closed(tmp_path: Path) -> None:
    for text, code in ((SOUND, 0), ("spec 1\nfoo\n", 1)):
        (tmp_path / "a.hts").write_text(text)
        command = f"exec {sys.executable} -m hts check a.hts >&-"
        surroundings = {**os.environ, "PYTHONPATH": ROOT}
        run = subprocess.run(
            ["/bin/sh", "-c", command],
            stderr=subprocess.PIPE,
            cwd=tmp_path,
            env=surroundings,
            check=False,
        )
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
    tasks: list[Task | Failure] = [Task(str(tmp_path), "a.hts", str(tmp_path / "a.hts"))]
    with pytest.raises(ChildProcessError, match="ended from outside"):
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
