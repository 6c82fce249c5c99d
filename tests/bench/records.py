"""Times reading and judging records beside the data-frame library reading the same files:
`python -m tests.bench.records`. Processor time, so that a busy machine does not bear on it; by the
clock, on all cores, is what is waited for."""

from __future__ import annotations

import argparse
import os
import resource
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import numpy as np
import polars as pl

from hts.job.compiler import compile_spec
from hts.language.model import Loader, Spec
from hts.language.model.load import root_of
from hts.record import faults
from hts.record.archive import audit
from hts.record.archive.audit import Asked
from hts.record.judging import Evidence, draw_lines, judge, judged_together
from hts.record.plan import Plan, plan
from hts.record.reading import Options, Wished, read, read_each
from hts.record.simulation import Ask, simulate

ROOT = Path(__file__).parents[2]
SPEC = ROOT / "specs" / "p22-header.hts"
HEAD = 8


def _plan() -> Plan:
    loader = Loader(root_of(str(SPEC)))
    return plan(compile_spec(Spec(loader.read(str(SPEC)), loader)))


def _busy(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return time.process_time() - start


def _waited(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def _best(work: Callable[[], object], rounds: int = 3) -> float:
    return min(_busy(work) for _ in range(rounds))


def large(folder: str, hours: int) -> None:
    """One record of 24 channels at 1 s: a simulated run drawn out, eight columns added."""
    asked = _plan()
    text = simulate(asked, Ask(start=datetime(2026, 11, 20, 6)))
    lines = text.splitlines()
    rows = np.array([[float(cell) for cell in line.split(",")[1:]] for line in lines[HEAD:]])
    seconds = np.arange(hours * 3600.0)
    place = seconds / seconds[-1] * (len(rows) - 1)
    values = np.stack([np.interp(place, np.arange(len(rows)), column) for column in rows.T], axis=1)
    values = np.hstack([values, values[:, :8] - 30]) + np.sin(seconds)[:, None] * 0.2
    heads = [*lines[HEAD - 1].split(",")[1:], *(f"X{n} [degC]" for n in range(1, 9))]
    frame = pl.DataFrame(dict(zip(heads, np.round(values, 1).T, strict=True)))
    frame.insert_column(0, pl.Series("elapsed [s]", seconds))
    path = os.path.join(folder, "large.csv")
    frame.write_csv(path)
    tags = asked.run.tags
    alone = _best(lambda: pl.read_csv(path))
    reading = _best(lambda: read([path], tags, Options()))
    record = read([path], tags, Options())
    finding = _best(lambda: faults.find(record, asked))
    found = faults.find(record, asked)
    kept = faults.apply(record, found)
    judging = _best(lambda: [each.actual for each in judge(kept, asked, found).verdicts])
    print(f"one record, 24 channels, {len(seconds)} rows, {os.path.getsize(path) / 1e6:.0f} MB")
    for name, took in (
        ("polars alone", alone),
        ("reading", reading),
        ("faults", finding),
        ("judging and telling", judging),
    ):
        print(f"  {name:24} {took * 1e3:9.1f} ms")
    _goal("all / polars alone", (reading + finding + judging) / alone, 3.0)
    _memory()


def lay_out(place: Path, count: int, channels: int) -> None:
    """Many records of 10 h at 30 s, each with noise of its own."""
    lines = simulate(_plan(), Ask(seconds=30.0, start=datetime(2026, 11, 20, 6))).splitlines()
    lines = lines[: HEAD + 1200]
    cut = [line.split(",")[: channels + 1] for line in lines[HEAD - 1 :]]
    head = "\n".join([*lines[: HEAD - 1], ",".join(cut[0])])
    values = np.array([[float(cell) for cell in row[1:]] for row in cut[1:]])
    random = np.random.default_rng(1)
    for number in range(count):
        noisy = values + random.normal(0.0, random.uniform(0.05, 0.3), values.shape)
        rows = (f"{row[0]},{','.join(f'{one:.1f}' for one in its)}"
                for row, its in zip(cut[1:], noisy.tolist(), strict=True))  # fmt: skip
        Path(place, f"r{number:05d}.csv").write_text("\n".join([head, *rows]) + "\n")


def archive(folder: str, count: int, channels: int) -> None:
    """Many records judged, beside the data-frame library reading them."""
    asked = _plan()
    place = os.path.join(folder, "archive")
    os.mkdir(place)
    lay_out(Path(place), count, channels)
    paths = [os.path.join(place, name) for name in sorted(os.listdir(place))]
    skip = HEAD - 1

    def read_alone() -> object:
        return [len(pl.read_csv(path, skip_rows=skip)) for path in paths]

    alone = _busy(read_alone)
    before = _peak()
    took = _busy(lambda: [None for _ in audit(Asked(str(SPEC), place, Options(), None, 1))])
    print(f"{count} records, {channels} channels, 1,200 rows each, one process")
    print(f"  {'polars alone':24} {alone * 1e3 / count:9.2f} ms each")
    print(f"  {'judged':24} {took * 1e3 / count:9.2f} ms each")
    _parts(asked, paths[:64])
    _goal("judged / polars alone", took / alone, 3.0)
    asked_of_all = Asked(str(SPEC), place, Options(), None, None)
    waited = _waited(lambda: [None for _ in audit(asked_of_all)]) / _waited(read_alone)
    print(f"  {'by the clock, all cores':24} {waited:9.2f} times polars")
    print(f"  {'memory gained':24} {_peak() - before:9.1f} MB")
    _memory()


def _parts(asked: Plan, paths: list[str]) -> None:
    """What of judging takes how long."""
    tags = asked.run.tags
    records = [read([path], tags, Options()) for path in paths]
    found = [faults.find(one, asked) for one in records]
    applied = [faults.apply(one, its) for one, its in zip(records, found, strict=True)]

    def fresh() -> list[list[Evidence]]:
        all_runs = [Evidence(one, asked, its) for one, its in zip(applied, found, strict=True)]
        return [all_runs[at : at + 16] for at in range(0, len(all_runs), 16)]

    parts: dict[str, Callable[[], object]] = {
        "reading": lambda: list(read_each([Wished([path], tags) for path in paths], Options())),
        "faults": lambda: faults.find_each(records, asked),
        "requirements": lambda: [
            None for some in fresh() for _ in judged_together(some, None, [()] * len(some))
        ],
        "lines, where drawn": lambda: [draw_lines(some) for some in fresh()],
    }
    for name, work in parts.items():
        print(f"    {name:22} {_busy(work) * 1e3 / len(paths):9.2f} ms each")


def _peak() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def _memory() -> None:
    print(f"  {'peak memory':24} {_peak():9.0f} MB")


def _goal(name: str, reached: float, most: float) -> None:
    verdict = "reached" if reached <= most else "MISSED"
    print(f"  {name:24} {reached:9.2f}     at most {most:g}: {verdict}", flush=True)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench.records", description=__doc__)
    parser.add_argument("--hours", type=int, default=48, help="length of the large record")
    parser.add_argument("--count", type=int, default=2000, help="records of the archive")
    parser.add_argument("--channels", type=int, default=12)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        archive(folder, asked.count, asked.channels)
        large(folder, asked.hours)


if __name__ == "__main__":
    sys.exit(main())
