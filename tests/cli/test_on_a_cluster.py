"""Commands whose work is shared out over a cluster write the bytes they write alone, also where a
worker is killed in the middle."""

from __future__ import annotations

import os
import shutil
import signal
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from hts.base.cluster import ClusterError, connected, each
from hts.cli.main import cli
from tests.record.archive.test_archive import record_of
from tests.specs.found import SPECS


@pytest.fixture(scope="module")
def cluster() -> Iterator[Any]:
    distributed: Any = pytest.importorskip(
        "distributed", reason="the extra `cluster` is not installed"
    )
    made = distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
    )
    yield made
    made.close()


def run(*arguments: object) -> Result:
    return CliRunner().invoke(cli, [str(each) for each in arguments])


def kill_one(cluster: Any) -> None:
    worker = next(iter(cluster.workers.values()))
    os.kill(worker.process.process.pid, signal.SIGKILL)


def square(number: int, fails: bool = False) -> int:
    if fails:
        raise ValueError(f"{number} is not wanted")
    return number * number


def sleepy(number: int) -> int:
    import time

    time.sleep(0.1)
    return number


@pytest.mark.long
def test_units_come_back_in_order_and_errors_of_the_work_are_its_own(cluster: Any) -> None:
    with connected(cluster.scheduler_address):
        assert list(each(square, ((n,) for n in range(50)))) == [n * n for n in range(50)]
        with pytest.raises(ValueError, match="7 is not wanted"):
            list(each(square, ((n, n == 7) for n in range(9))))
    assert list(each(square, [(3,)])) == [9]


@pytest.mark.long
def test_a_unit_whose_worker_dies_is_done_again(cluster: Any) -> None:
    found = []
    with connected(cluster.scheduler_address):
        for number in each(sleepy, ((n,) for n in range(60))):
            if number == 10:
                kill_one(cluster)
            found.append(number)
    assert found == list(range(60))


@pytest.mark.long
def test_packets_are_the_same(cluster: Any, tmp_path: Path) -> None:
    spec = SPECS / "turnaround-many.hts"
    made = []
    for name, on in (("a", ()), ("b", ("--on", cluster.scheduler_address))):
        folder = tmp_path / name
        assert run("compile", spec, "-o", folder, "--packet", *on).exit_code == 0
        made.append({path.name: path.read_bytes() for path in folder.iterdir()})
    assert made[0] == made[1]
    assert sum(name.endswith(".pdf") for name in made[0]) > 2


@pytest.mark.long
def test_a_prediction_is_the_same(cluster: Any) -> None:
    from hts.predict import foresee

    asked = "predict", SPECS / "p22-header.hts", "--format", "json"
    alone = run(*asked)
    foresee._kept.cache_clear()
    foresee._followed.cache_clear()
    shared = run(*asked, "--on", cluster.scheduler_address)
    assert "lowest" in alone.output
    assert (shared.exit_code, shared.output) == (alone.exit_code, alone.output)


@pytest.mark.long
def test_an_archive_is_the_same_with_a_worker_killed(
    cluster: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / ".git").mkdir()
    shutil.copytree(SPECS / "library", tmp_path / "specs" / "library")
    shutil.copy(SPECS / "p22-header.hts", tmp_path / "specs")
    (tmp_path / "logs").mkdir()
    text = record_of("p22-header")
    for number in range(12):
        (tmp_path / "logs" / f"{number}.csv").write_text(text)
    (tmp_path / "logs" / "broken.csv").write_text(text[: len(text) // 2])
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(import_module("hts.record.archive.audit"), "_PORTION", 1)
    asked = "record", "check", "specs", "--archive", "logs", "--format", "csv"
    alone = run(*asked, "--jobs", "1")

    def tell(done: int, total: int) -> None:
        if done == 3:
            kill_one(cluster)

    monkeypatch.setattr("hts.cli.record.archive.progress", lambda *_: tell)
    shared = run(*asked, "--on", cluster.scheduler_address)
    assert alone.output.count("\n") >= 13
    assert (shared.exit_code, shared.output) == (alone.exit_code, alone.output)


def test_what_cannot_be_shared_is_refused() -> None:
    spec = SPECS / "p22-header.hts"
    for arguments, said in (
        (("compile", spec, "-o", "out", "--on", "tcp://h:1"), "say --packet as well"),
        (("record", "check", spec, "log.csv", "--on", "tcp://h:1"), "--on is for an archive"),
        (
            ("record", "check", spec, "--archive", ".", "--jobs", "2", "--on", "tcp://h:1"),
            "leave --jobs out",
        ),
    ):
        result = run(*arguments)
        assert result.exit_code == 2
        assert said in result.output


def test_no_scheduler_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("distributed", reason="the extra `cluster` is not installed")
    monkeypatch.setattr("hts.base.cluster.spread._PATIENCE", "1s")
    with pytest.raises(ClusterError, match="no scheduler answers"), connected("tcp://127.0.0.1:9"):
        pass
