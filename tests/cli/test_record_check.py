"""`hts record check`: what goes in, what comes out, how it ends."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path

import jsonschema
import pytest
from click.testing import CliRunner, Result

from hts.cli.main import cli
from hts.generate import ROOT

SPEC = os.path.join(ROOT, "specs", "p22-header.hts")
P91 = os.path.join(ROOT, "specs", "p91-pipe.hts")


def hts(*arguments: str) -> Result:
    return CliRunner().invoke(cli, ["record", *arguments])


def simulated(folder: Path, spec: str, *more: str) -> str:
    path = str(folder / "log.csv")
    made = hts("simulate", spec, "-o", path, *more)
    assert made.exit_code == 0, made.output
    return path


@pytest.fixture(scope="module")
def log(tmp_path_factory: pytest.TempPathFactory) -> str:
    return simulated(tmp_path_factory.mktemp("clean"), SPEC)


@pytest.fixture(scope="module")
def fast(tmp_path_factory: pytest.TempPathFactory) -> str:
    return simulated(tmp_path_factory.mktemp("fast"), SPEC, "--departure", "over-rate")


def test_a_cycle_that_meets_its_specification(log: str) -> None:
    judged = hts("check", SPEC, log)
    assert judged.exit_code == 0, judged.output
    lines = judged.output.splitlines()
    assert lines[0] == "Tern Island: reheat outlet header, closing weld: W12/stress-relief"
    assert "SIMULATED: this is not the record of a real run" in lines
    assert "assumed" in lines
    assert lines[-1].startswith("met: ")


def test_a_cycle_heated_too_fast(fast: str) -> None:
    judged = hts("check", SPEC, fast)
    assert judged.exit_code == 1
    assert "heating rate: not met" in judged.output
    assert "limit 120 degC/h above 300 degC" in " ".join(judged.output.split())


def test_json_is_as_its_schema_says(fast: str) -> None:
    judged = hts("check", SPEC, fast, "--format", "json")
    assert judged.exit_code == 1
    document = json.loads(judged.output)
    with open(os.path.join(ROOT, "grammar", "record.schema.json"), encoding="utf-8") as file:
        jsonschema.validate(document, json.load(file))
    assert document["overall"] == "not met"
    (rate,) = [one for one in document["verdicts"] if one["requirement"] == "heating rate"]
    assert rate["verdict"] == "not met"
    assert rate["failures"][0]["start_clock"].startswith(document["record"]["start"][:10])
    assert document["specification"]["fingerprint"] in hts("check", SPEC, fast).output


def test_the_same_log_gives_the_same_bytes(log: str) -> None:
    assert hts("check", SPEC, log).output == hts("check", SPEC, log).output


def test_which_run_of_several(tmp_path: Path) -> None:
    bake = simulated(tmp_path, P91, "--cycle", "bake", "--every", "30 s")
    judged = hts("check", P91, bake, "--cycle", "bake")
    assert judged.exit_code == 0, judged.output
    assert "W33/bake" in judged.output
    unknown = hts("check", P91, bake, "--cycle", "annealing")
    assert unknown.exit_code == 2
    assert "--cycle tempering" in unknown.output


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((SPEC, "nowhere.csv"), "nowhere.csv"),
        (("nowhere.hts", "nowhere.csv"), "nowhere.hts"),
        ((SPEC,), "LOG"),
    ],
)
def test_what_could_not_be_judged(arguments: tuple[str, ...], said: str) -> None:
    judged = hts("check", *arguments)
    assert judged.exit_code == 2
    assert said in judged.output


def test_a_run_made_to_a_sheet_with_an_error_is_judged_and_not_met(
    tmp_path: Path, log: str
) -> None:
    """The run is made; what the sheet asked for is judged, and nothing is met by a wrong sheet."""
    shutil.copytree(os.path.join(ROOT, "specs", "library"), tmp_path / "library")
    with open(SPEC, encoding="utf-8") as file:
        text = file.read()
    spec = tmp_path / "short.hts"
    spec.write_text(text.replace("for 2 h at most 6 h", "for 1 h at most 6 h"), encoding="utf-8")
    judged = hts("check", str(spec), log, "--format", "json")
    assert judged.exit_code == 1, judged.output
    told = json.loads(judged.stdout)
    assert told["overall"] == "not shown"
    first, *others = told["verdicts"]
    assert first["requirement"] == "specification"
    assert "1 error: hold-too-short L202 in line" in first["actual"]
    assert {one["verdict"] for one in others if one["requirement"] == "hold time"} == {"met"}
    watched = hts("watch", str(spec), log, "--once")
    assert watched.exit_code == 1 and "ALARM  the specification has 1 error" in watched.stdout
    assert "hold-too-short L202 in line" in watched.stdout and "T1S" in watched.stdout


def test_a_specification_that_cannot_be_made_out_judges_nothing(tmp_path: Path, log: str) -> None:
    spec = tmp_path / "bad.hts"
    spec.write_text("spec 1\njoint W1 {\n", encoding="utf-8")
    judged = hts("check", str(spec), log)
    assert judged.exit_code == 2
    assert "what the specification says cannot be made out" in judged.output


def test_a_record_without_dates_needs_a_day(tmp_path: Path) -> None:
    elapsed = simulated(tmp_path, SPEC, "--start", "none")
    judged = hts("check", SPEC, elapsed)
    assert judged.exit_code == 1
    assert "calibration of recorder R2: not shown" in judged.output or "--today" in judged.output
    assert hts("check", SPEC, elapsed, "--today", "2026-11-25").exit_code == 0
    assert hts("check", SPEC, elapsed, "--today", "2027-11-25").exit_code == 1
    assert hts("check", SPEC, elapsed, "--today", "soon").exit_code == 2


def test_a_calibration_is_judged_on_the_day_of_the_record(log: str) -> None:
    # Years later the record is as good as ever: its own days count.
    assert hts("check", SPEC, log, "--today", "2031-01-01").exit_code == 0


def test_a_log_cannot_steer_the_terminal(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    rows = "".join(f"{60 * k},{20 + k},{20 + k}\n" for k in range(10))
    path.write_text("time [s],T1 [degC],\x1b[31mX [degC]\n" + rows, encoding="utf-8")
    for form in ("text", "json"):
        assert "\x1b" not in hts("check", SPEC, str(path), "--format", form).output


def test_the_configuration_counts_as_for_compile(tmp_path: Path) -> None:
    shutil.copytree(os.path.join(ROOT, "specs", "library"), tmp_path / "library")
    spec = tmp_path / "a.hts"
    with open(SPEC, encoding="utf-8") as file:
        spec.write_text("".join(line for line in file if "governed by" not in line))
    log, books = tmp_path / "log.csv", tmp_path / "books.toml"
    books.write_text('books = ["asme-b31.3 edition 2016", "local-heating"]\n')
    refused = hts("simulate", str(spec), "-o", str(log))
    assert refused.exit_code == 2 and "has no `governed by`" in refused.output
    config = ("--config", str(books))
    assert hts("simulate", str(spec), "-o", str(log), *config).exit_code == 0
    judged = hts("check", str(spec), str(log), *config)
    assert judged.exit_code == 0, judged.output
    printed = CliRunner().invoke(cli, ["fingerprint", str(spec), *config]).output.strip()
    assert f"fingerprint {printed}" in judged.output
    watched = hts("watch", str(spec), str(log), "--once", *config)
    assert watched.exit_code == 0, watched.output


def test_options_that_are_none(tmp_path: Path, log: str) -> None:
    for arguments, said in (
        ((SPEC, log, "--time-unit", "weeks"), "'weeks' is not one of"),
        ((str(tmp_path / "none.hts"), "--archive", str(tmp_path)), "no such file or folder"),
        ((SPEC, "--archive", str(tmp_path / "none")), "this is not a folder"),
    ):
        refused = hts("check", *arguments)
        assert refused.exit_code == 2
        assert said in refused.stderr and refused.stdout == ""


def test_only_a_simulated_record_is_written_over(tmp_path: Path) -> None:
    (tmp_path / "log.csv").write_text("time,T1\n")
    refused = hts("simulate", SPEC, "-o", str(tmp_path / "log.csv"))
    assert refused.exit_code == 2 and "not overwritten; name another" in refused.stderr
    assert (tmp_path / "log.csv").read_text() == "time,T1\n"


def test_a_log_of_another_weld_is_neither_judged_nor_watched(tmp_path: Path, log: str) -> None:
    for arguments in (("check", P91, log), ("watch", P91, log, "--once")):
        refused = hts(*arguments)
        assert refused.exit_code == 2
        assert "it says it is of joint W12, and HT-0153 has none" in refused.stderr
    watched = hts("watch", P91, log, "--once", "--joint", "W33")
    assert "says it is of joint W12; it is held to joint W33" in watched.stderr
