"""Which run a record is judged as: a record of another weld proves nothing about this one."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.job.compiler import Job, compile_spec
from hts.language.model import Spec
from hts.record.belonging import belonging
from hts.record.errors import RecordError
from tests.texts import examples

ROOT = Path(__file__).parents[2]


def job(name: str) -> Job:
    path = str(ROOT / "specs" / f"{name}.hts")
    loader = examples()
    return compile_spec(Spec(loader.read(path), loader))


def log(folder: Path, *lines: str, name: str = "log.csv") -> str:
    path = folder / name
    path.write_text("\n".join([*lines, "time,T1 [degC]", "00:00:00,20"]) + "\n")
    return str(path)


def test_a_log_that_says_nothing(tmp_path: Path) -> None:
    found = belonging(job("p22-header"), [log(tmp_path)], None, None)
    assert (found.plan.address, found.notes) == ("W12/stress-relief", ())


def test_the_log_says_which_of_several(tmp_path: Path) -> None:
    found = belonging(
        job("turnaround-many"), [log(tmp_path, "joint,W22", "cycle,pair")], None, None
    )
    assert (found.plan.address, found.notes) == ("W22/pair", ())


def test_a_log_of_another_weld_is_refused(tmp_path: Path) -> None:
    with pytest.raises(RecordError) as refused:
        belonging(job("p22-header"), [log(tmp_path, "weld,W99")], None, None)
    assert str(refused.value) == (
        "log.csv: it says it is of joint W99, and HT-0147 has none of that name; "
        "name the specification it is of, or the joint with --joint"
    )


def test_who_says_the_joint_is_believed_and_the_difference_is_printed(tmp_path: Path) -> None:
    path = log(tmp_path, "document,HT-0147 revision A", "weld,12 west", "cycle,PWHT 3")
    found = belonging(job("p22-header"), [path], "W12", None)
    assert found.plan.address == "W12/stress-relief"
    assert found.notes == (
        "log.csv says it is of revision A; it is held to revision B",
        "log.csv says it is of joint 12 west; it is held to joint W12",
        "log.csv says it is of cycle PWHT 3; it is held to cycle stress-relief",
    )


def test_a_log_of_another_document_is_told(tmp_path: Path) -> None:
    found = belonging(
        job("p22-header"), [log(tmp_path, "job: HT-9 rev C", "weld: W12")], None, None
    )
    assert found.notes == ("log.csv says it is of document HT-9; it is held to document HT-0147",)


def test_logs_of_two_runs_are_not_one_record(tmp_path: Path) -> None:
    logs = [log(tmp_path, "joint,W21"), log(tmp_path, "joint,W22", name="b.csv")]
    with pytest.raises(RecordError, match=r"b\.csv: it says it is of joint W22, and log.csv of"):
        belonging(job("turnaround-many"), logs, None, None)
