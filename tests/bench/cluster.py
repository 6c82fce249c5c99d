"""Shows work on a cluster of this machine: a scheduler and two workers, of which one is killed in
the middle: `python -m tests.bench.cluster FOLDER joints alone`, then the same with `shared`.

`alone` lays the work out in the folder where it is not there yet, does it in one process and keeps
what was written; `shared` has it done on the cluster, holds every byte against that, and tells what
the scheduler costs for each unit of work. `joints` are rows of weld lists, `records` logs of an
archive. Of 20,000 records: `python -m tests.bench.cluster FOLDER records alone --count 20000`.
"""

from __future__ import annotations

import argparse
import csv
import json
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from unittest.mock import patch

import psutil
from click.testing import CliRunner

from hts.base.cluster import connected, each
from hts.cli.main import cli
from tests.bench import lists, records

#: Rows of one weld list; each list is a unit of work.
ROWS = 300
#: One list in so many has a wall that is a slip, so that there is something to tell.
SLIP_EVERY = 3
TODAY = "2026-12-01"
EMPTY_UNITS = 2000
Tell = Callable[[int, int], None]


class Cluster:
    """A scheduler and two workers without anybody who starts one anew."""

    def __init__(self, folder: Path) -> None:
        file = folder / "scheduler.json"
        file.unlink(missing_ok=True)
        where = ("--scheduler-file", str(file), "--no-dashboard")
        self.scheduler = _started("scheduler", "--host", "127.0.0.1", "--port", "0", *where)
        while not file.exists() or not file.read_text():
            time.sleep(0.1)
        one = ("--nthreads", "1", "--no-nanny", *where)
        self.workers = [_started("worker", *one) for _ in range(2)]
        self.address: str = json.loads(file.read_text())["address"]
        self.lost = 0.0

    def kill_one(self) -> None:
        worker = self.workers.pop()
        self.lost = busy(worker)
        worker.kill()
        worker.wait()

    def close(self) -> None:
        for process in (*self.workers, self.scheduler):
            process.kill()
            process.wait()


def _started(what: str, *arguments: str) -> psutil.Popen:
    command = (sys.executable, "-m", f"distributed.cli.dask_{what}", *arguments)
    return psutil.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


@contextmanager
def cluster(folder: Path) -> Iterator[Cluster]:
    made = Cluster(folder)
    try:
        yield made
    finally:
        made.close()


def busy(process: psutil.Process) -> float:
    """Processor seconds so far."""
    used = process.cpu_times()
    return float(used.user + used.system)


def lay_out_joints(place: Path, count: int) -> None:
    """Weld lists with so many rows together; some have a wall ten times as thick."""
    made = Path(lists.job(str(place), ROWS))
    shutil.copytree(made.parent / "library", place / "library")
    text, (heads, *rows) = made.read_text("utf-8"), _read(made.with_suffix(".csv"))
    wall = heads.index("WT [mm]")
    for number in range(-(-count // ROWS)):
        name = f"list{number:03}"
        (place / f"{name}.hts").write_text(text.replace(made.stem, name), "utf-8")
        of_list = [row[:] for row in rows]
        if number % SLIP_EVERY == 0:
            of_list[number % ROWS][wall] = of_list[number % ROWS][wall].replace(".", "")
        with open(place / f"{name}.csv", "w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows([heads, *of_list])
    shutil.rmtree(made.parent)


def _read(path: Path) -> list[list[str]]:
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def lay_out_records(place: Path, count: int) -> None:
    """Logs of the header of the examples, each with noise of its own."""
    (place / "specs").mkdir()
    shutil.copytree(records.SPEC.parent / "library", place / "specs" / "library")
    shutil.copy(records.SPEC, place / "specs")
    (place / "logs").mkdir()
    records.lay_out(place / "logs", count, 12)


LAID_OUT = {"joints": lay_out_joints, "records": lay_out_records}
COMMANDS = {
    "joints": ("check", ".", "--format", "json", "--today", TODAY),
    "records": ("record", "check", "specs", "--archive", "logs", "--format", "csv"),
}


def done(what: str, place: Path, options: tuple[str, ...], tell: Tell) -> str:
    """What the command writes, and the time it took told."""
    os.chdir(place)
    begun, spent = time.perf_counter(), time.process_time()
    with (
        patch("hts.cli.check.progress", lambda *_: tell),
        patch("hts.cli.record.archive.progress", lambda *_: tell),
    ):
        result = CliRunner().invoke(cli, [*COMMANDS[what], *options])
    if result.exit_code not in (0, 1):
        raise RuntimeError(result.output[-2000:])
    print(f"  {time.perf_counter() - begun:8.1f} s, {time.process_time() - spent:.1f} s processor")
    return result.output


def nothing(number: int) -> int:
    return number


def alone(what: str, place: Path, count: int) -> None:
    if not place.exists():
        (place / ".git").mkdir(parents=True)
        LAID_OUT[what](place, count)
    print(f"{count} {what}, one process", flush=True)
    no_cache = ("--no-cache",) if what == "joints" else ()
    written = done(what, place, ("--jobs", "1", *no_cache), lambda *_: None)
    (place.parent / f"{what}.alone").write_text(written, "utf-8")
    print(f"  {len(written)} letters written")


def shared(what: str, place: Path, count: int) -> None:
    killed: list[str] = []
    with cluster(place.parent) as made:

        def tell(done: int, total: int) -> None:
            if done >= total // 2 and len(made.workers) == 2:
                made.kill_one()
                killed.append(f"  one worker killed after {done} of {total}")

        print(f"{count} {what}, two workers", flush=True)
        written = done(what, place, ("--on", made.address), tell)
        print(*killed, sep="\n")
        workers = made.lost + sum(map(busy, made.workers))
        print(f"  {workers:8.1f} s processor of the workers, start included")
        print(f"  {busy(made.scheduler):8.1f} s processor of the scheduler, start included")
        same = written == (place.parent / f"{what}.alone").read_text("utf-8")
        print(f"  {'the same bytes as' if same else 'OTHER BYTES than'} alone", flush=True)
        before, spent, begun = busy(made.scheduler), time.process_time(), time.perf_counter()
        with connected(made.address):
            for _ in each(nothing, ((n,) for n in range(EMPTY_UNITS))):
                pass
        took = time.perf_counter() - begun, busy(made.scheduler) - before
        wall, there, here = (
            1e3 * each_ / EMPTY_UNITS for each_ in (*took, time.process_time() - spent)
        )
        print(f"{EMPTY_UNITS} empty units, each: {wall:.2f} ms; processor {there:.2f} ms of the "
              f"scheduler, {here:.2f} ms of the one who asks")  # fmt: skip
    if not same:
        sys.exit(1)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench.cluster", description=__doc__)
    parser.add_argument("folder", type=Path, help="where the work is laid out and kept")
    parser.add_argument("what", choices=LAID_OUT)
    parser.add_argument("how", choices=("alone", "shared"))
    parser.add_argument("--count", type=int, help="30,000 joints or 2,000 records unless said")
    asked = parser.parse_args()
    count = asked.count or {"joints": 30_000, "records": 2_000}[asked.what]
    place = asked.folder.resolve() / f"{asked.what}{count}"
    (alone if asked.how == "alone" else shared)(asked.what, place, count)


if __name__ == "__main__":
    main()
