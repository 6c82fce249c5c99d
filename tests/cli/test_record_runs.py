"""`hts record simulate`, `watch` and `check --archive` as commands: files, words, exit codes."""

import json
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.cli.main import cli

ROOT = Path(__file__).parents[2]
SPEC = str(ROOT / "specs" / "p22-header.hts")


def run(*arguments: object) -> Result:
    return CliRunner().invoke(cli, ["record", *map(str, arguments)])


def simulated(path: Path, *more: str) -> Path:
    assert run("simulate", SPEC, "-o", path, *more).exit_code == 0
    return path


# simulate ---------------------------------------------------------------------------------------


def test_the_same_request_gives_the_same_file(tmp_path: Path) -> None:
    one = simulated(tmp_path / "one.csv", "--seed", "7")
    two = simulated(tmp_path / "two.csv", "--seed", "7")
    assert (
        one.read_bytes()
        == two.read_bytes()
        == run("simulate", SPEC, "-o", "-", "--seed", 7).output.encode()
    )


def test_rows_are_as_far_apart_as_the_recorder_writes_them(tmp_path: Path) -> None:
    rows = simulated(tmp_path / "log.csv").read_text().splitlines()[8:10]
    # `interval 60 s` of recorder R2, specs/library/equipment.hts
    assert [row.split(",")[0][-8:] for row in rows] == ["06:00:00", "06:01:00"]
    fine = simulated(tmp_path / "fine.csv", "--every", "15 s").read_text().splitlines()[9]
    assert fine.split(",")[0].endswith("06:00:15")


def test_a_real_record_is_never_written_over(tmp_path: Path) -> None:
    log = tmp_path / "log.csv"
    log.write_text("time,T1\n0,20\n")
    made = run("simulate", SPEC, "-o", log)
    assert made.exit_code == 2 and "not overwritten" in made.output
    assert log.read_text() == "time,T1\n0,20\n"
    simulated(tmp_path / "again.csv")
    assert run("simulate", SPEC, "-o", tmp_path / "again.csv", "--seed", 2).exit_code == 0


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (("--fault", "melted"), "there is no fault 'melted'"),
        (("--fault", "flat=T99"), "no thermocouple 'T99'"),
        (("--departure", "late"), "there is no departure 'late'"),
        (("--every", "60"), "60"),
        (("--every", "2 h"), "at most 10 min"),
        (("--start", "tomorrow"), "is not a time"),
        (("--cycle", "annealing"), "--cycle stress-relief"),
    ],
)
def test_what_cannot_be_simulated_is_told(tmp_path: Path, more: tuple[str, ...], says: str) -> None:
    made = run("simulate", SPEC, "-o", tmp_path / "log.csv", *more)
    assert made.exit_code == 2 and says in made.output
    assert not (tmp_path / "log.csv").exists()


def test_the_kinds_are_listed_without_a_specification() -> None:
    listed = run("simulate", "--kinds").output
    assert "over-rate" in listed and "extension-reversed" in listed and "exchanged" in listed


# watch ------------------------------------------------------------------------------------------


def cut(log: Path, rows: int) -> None:
    lines = log.read_text().splitlines(keepends=True)
    log.write_text("".join(lines[: 8 + rows]))


def test_one_look_says_by_its_exit_whether_there_is_an_alarm(tmp_path: Path) -> None:
    good = simulated(tmp_path / "good.csv")
    cut(good, 120)
    looked = run("watch", SPEC, good, "--once")
    assert looked.exit_code == 0 and "no alarm" in looked.output
    bad = simulated(tmp_path / "bad.csv", "--departure", "over-rate")
    cut(bad, 120)
    looked = run("watch", SPEC, bad, "--once", "--format", "json")
    view = json.loads(looked.output)
    assert looked.exit_code == 1
    assert any("limit 120 degC/h above 300 degC" in alarm for alarm in view["alarms"])
    assert run("watch", SPEC, tmp_path / "none.csv", "--once").exit_code == 2


def test_a_growing_log_is_followed_and_alarms_come_and_go(tmp_path: Path) -> None:
    lines = simulated(tmp_path / "whole.csv", "--departure", "over-rate").read_text()
    rows = lines.splitlines(keepends=True)
    log = tmp_path / "log.csv"
    log.write_text("".join(rows[:40]))
    command = [sys.executable, "-m", "hts", "record", "watch", SPEC, str(log), "--every", "1 s"]
    watch = subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        # In the background of a shell interruptions are ignored, by what is started there, too.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    )
    try:
        assert watch.stdout is not None
        time.sleep(3)
        with log.open("a") as file:
            file.writelines(rows[40:140])
        line = watch.stdout.readline()  # waits for the first alarm
        assert "ALARM" in line and "limit 120 degC/h" in line
    finally:
        watch.send_signal(signal.SIGINT)
        watch.communicate(timeout=60)
    assert watch.returncode == 0


# archive ----------------------------------------------------------------------------------------


def test_the_exit_of_an_archive_is_that_of_its_worst_record(tmp_path: Path) -> None:
    logs = tmp_path / "logs"
    logs.mkdir()
    simulated(logs / "a.csv")
    assert run("check", SPEC, "--archive", logs).exit_code == 0
    simulated(logs / "b.csv", "--departure", "short-hold")
    judged = run("check", SPEC, "--archive", logs, "--format", "csv")
    assert judged.exit_code == 1 and "hold time" in judged.output
    (logs / "c.csv").write_text("nothing\n")
    assert run("check", SPEC, "--archive", logs, "--jobs", 1).exit_code == 2
    assert run("check", SPEC, "--archive", tmp_path / "no").exit_code == 2


def test_a_record_or_an_archive_not_both(tmp_path: Path) -> None:
    log = simulated(tmp_path / "log.csv")
    for arguments in ((SPEC,), (SPEC, log, "--archive", tmp_path), (SPEC, log, "--format", "csv")):
        assert run("check", *arguments).exit_code == 2
    assert run("check", SPEC, "--archive", tmp_path, "-o", tmp_path / "out").exit_code == 2


def test_papers_of_a_record_are_all_there_or_none(tmp_path: Path) -> None:
    log = simulated(tmp_path / "log.csv")
    out = tmp_path / "out"
    judged = run("check", SPEC, log, "-o", out, "--pdf", "--xlsx", "--svg")
    assert judged.exit_code == 0
    assert sorted(path.suffix for path in out.iterdir()) == [
        ".json",
        ".pdf",
        ".sha256",
        ".svg",
        ".xlsx",
    ]
    (tmp_path / "file").write_text("")
    assert run("check", SPEC, log, "-o", tmp_path / "file", "--pdf").exit_code == 2
    assert run("check", SPEC, log, "--pdf").exit_code == 2


@pytest.mark.parametrize("rows", [30, 60, 90, 120, 150])
def test_a_run_on_its_way_up_has_no_alarm(tmp_path: Path, rows: int) -> None:
    """What has not come to its hold stands nowhere, whatever level it has just reached."""
    good = simulated(tmp_path / "good.csv")
    cut(good, rows)
    looked = run("watch", SPEC, good, "--once")
    assert looked.exit_code == 0 and "no alarm" in looked.output, looked.output
