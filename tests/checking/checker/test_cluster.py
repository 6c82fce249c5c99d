"""A check shared out over a cluster gives the same as one alone."""

from __future__ import annotations

import os
import pickle
import signal
import threading
import time
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from hts.checking.checker.check_paths import check_paths
from hts.checking.checker.cluster import Reader, SentLoader, _units
from hts.checking.checker.outcome import outcomes
from hts.checking.checker.tasks import Task, tasks_of
from hts.checking.report.json_report import write
from hts.cli.check import command
from tests.bench import texts
from tests.specs.found import SPECS

TODAY = "2026-12-01"


def test_what_is_sent_is_all_that_is_needed() -> None:
    """Files of the repository as a worker without it has them: broken ones, tables, books, all."""
    tasks = tasks_of([str(SPECS / "broken"), str(SPECS / "turnaround-list.hts")])[::7]
    tasks += tasks_of([str(p) for p in sorted((SPECS / "broken").glob("list-*.hts"))[:4]])
    reader = Reader()
    portion = [reader.filled(task) for task in tasks]
    sent = pickle.loads(pickle.dumps(reader.sent(portion)))
    there = outcomes(portion, TODAY, loader=lambda root: SentLoader(root, sent))
    here = outcomes(tasks, TODAY)
    assert all(isinstance(task, Task) and task.data is not None for task in portion)
    for mine, theirs in zip(here, there, strict=True):
        assert mine.name == theirs.name
        assert [f.sort_key() for f in mine.findings] == [  # type: ignore[union-attr]
            f.sort_key()
            for f in theirs.findings  # type: ignore[union-attr]
        ]


def test_nothing_outside_the_repository_is_sent(tmp_path: Path) -> None:
    (tmp_path / "secret.hts").write_text("spec 1\n", "utf-8")
    inside = tmp_path / "repository"
    inside.mkdir()
    (inside / ".git").mkdir()
    (inside / "job.hts").write_text('spec 1\nuse "../secret.hts"\n', "utf-8")
    (inside / "link.hts").symlink_to(tmp_path / "secret.hts")
    (inside / "other.hts").write_text('spec 1\nuse "link.hts"\n', "utf-8")
    reader = Reader()
    names = [str(inside / "job.hts"), str(inside / "other.hts")]
    sent = reader.sent([reader.filled(task) for task in tasks_of(names)])
    assert sent.texts == {}


def test_long_weld_lists_are_units_of_their_own(tmp_path: Path) -> None:
    """So that they are shared out, however few files they are."""
    (tmp_path / ".git").mkdir()
    for n in range(3):
        (tmp_path / f"long{n}.csv").write_text("Weld\n" + "W\n" * 60, "utf-8")
        text = f'spec 1\nweld list all from "long{n}.csv" {{ weld in "Weld" }}\n'
        (tmp_path / f"long{n}.hts").write_text(text, "utf-8")
    for n in range(70):
        (tmp_path / f"short{n:02}.hts").write_text("spec 1\n", "utf-8")
    units = list(_units(tasks_of([str(tmp_path)]), TODAY))
    assert [len(portion) for portion, *_ in units] == [1, 1, 1, 32, 32, 6]  # type: ignore[arg-type]
    assert [len(sent.texts) for _, sent, _ in units] == [1, 1, 1, 0, 0, 0]  # type: ignore[attr-defined]


def test_no_scheduler_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("distributed", reason="the extra `cluster` is not installed")
    monkeypatch.setattr("hts.base.cluster.spread._PATIENCE", "1s")
    run = CliRunner().invoke(command, ["--on", "tcp://127.0.0.1:9", str(SPECS / "p22-header.hts")])
    assert run.exit_code != 0
    assert "no scheduler answers at tcp://127.0.0.1:9" in run.output


@pytest.mark.long
def test_two_workers_one_killed_give_the_bytes_of_one_process(tmp_path: Path) -> None:
    distributed: Any = pytest.importorskip(
        "distributed", reason="the extra `cluster` is not installed"
    )
    texts.write(str(tmp_path), 1200)
    alone = check_paths([str(tmp_path)], today=TODAY, jobs=1)
    cluster = distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None
    )
    try:
        pids = [worker.process.process.pid for worker in cluster.workers.values()]
        done: list[int] = []

        def kill() -> None:
            while len(done) < 60:
                time.sleep(0.02)
            os.kill(pids[0], signal.SIGKILL)

        thread = threading.Thread(target=kill)
        thread.start()
        shared = check_paths(
            [str(tmp_path)],
            today=TODAY,
            on=cluster.scheduler_address,
            progress=lambda n, _: done.append(n),
        )
        thread.join()
    finally:
        cluster.close()
    assert len(done) == 1200
    assert write(shared) == write(alone)
