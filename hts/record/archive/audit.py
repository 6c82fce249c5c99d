"""Lines of the table, made in several processes and told in one order."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context
from typing import NamedTuple

from hts.checking.checker.processes import cores
from hts.checking.checker.program import digest_of
from hts.checking.checker.results import Shard
from hts.record.archive.find import Found, found, specifications
from hts.record.archive.line import NO_RECORD, NOT_JUDGED, ArchiveLine
from hts.record.archive.portion import Judged, Portion, Run, judged
from hts.record.errors import RecordError
from hts.record.reading import Options

#: Logs judged before their lines travel: enough that starting costs little, few enough that
#: memory does not hang on how many there are.
_PORTION = 32
#: Fewer logs are judged sooner by one process than others have started.
_FEW = 8

Tell = Callable[[int, int], None]


class Asked(NamedTuple):
    """What is judged, and how. `jobs` None: every core where there are many logs; `config` None:
    the configuration nearest to each specification."""

    specs: str
    folder: str
    options: Options
    today: str | None = None
    jobs: int | None = None
    shard: Shard | None = None
    config: str | None = None


def audit(asked: Asked, tell: Tell | None = None) -> Iterator[ArchiveLine]:
    """A line for each log, and after those of a specification one for each of its runs that has
    no record; logs without a specification come last. `tell` hears how many logs are done.

    Raises RecordError where there is no log at all.
    """
    specs = specifications(asked.specs)
    all_logs = list(found(asked.folder, specs))
    if not all_logs:
        raise RecordError(asked.folder, "there is no log in this folder", "name another")
    by_spec: dict[str, list[Found]] = {}
    for log in all_logs:
        by_spec.setdefault(log.spec, []).append(log)
    for files in specs.values():
        for file in files:
            by_spec.setdefault(file, [])
    orphans = by_spec.pop("", [])
    mine = _dealt(sorted(by_spec), asked)
    portions = [Portion(spec, tuple(part)) for spec in mine for part in _parts(by_spec[spec])]
    total = sum(len(portion.logs) for portion in portions)
    done = 0
    runs: tuple[Run, ...] = ()
    seen: set[tuple[str, str]] = set()
    for at, (portion, result) in enumerate(_each(portions, asked)):
        yield from result.lines
        done += len(portion.logs)
        if tell is not None:
            tell(done, total)
        runs = result.runs or runs
        seen |= set(result.seen)
        if at + 1 == len(portions) or portions[at + 1].spec != portion.spec:
            for run in runs:
                if (run.joint, run.cycle) not in seen:
                    yield _missing(run)
            runs, seen = (), set()
    if asked.shard is None or asked.shard.number == 1:
        yield from map(_orphan, orphans)


def _dealt(specs: list[str], asked: Asked) -> list[str]:
    """The specifications of a shard: dealt out by a digest of their names, so that no pattern of
    the names makes one shard slow."""
    if asked.shard is None:
        return specs
    root = asked.specs if os.path.isdir(asked.specs) else os.path.dirname(asked.specs)

    def key(spec: str) -> str:
        return digest_of(os.path.relpath(spec, root or ".").encode())

    order = sorted(specs, key=key)
    return sorted(order[asked.shard.number - 1 :: asked.shard.of])


def _parts(logs: list[Found]) -> list[list[Found]]:
    return [logs[at : at + _PORTION] for at in range(0, len(logs), _PORTION)] or [[]]


def _each(portions: list[Portion], asked: Asked) -> Iterator[tuple[Portion, Judged]]:
    work = partial(judged, options=asked.options, today=asked.today, config=asked.config)
    count = sum(len(portion.logs) for portion in portions)
    jobs = asked.jobs or (cores() if count > _FEW else 1)
    if jobs == 1 or len(portions) < 2:
        for portion in portions:
            yield portion, work(portion)
        return
    # Threads of the data-frame library do not survive a fork; one each is enough here.
    os.environ.setdefault("POLARS_MAX_THREADS", "1")
    with ProcessPoolExecutor(min(jobs, len(portions)), get_context("spawn")) as pool:
        yield from zip(portions, pool.map(work, portions), strict=True)


def _missing(run: Run) -> ArchiveLine:
    return ArchiveLine(
        run.document, run.revision, run.joint, run.cycle, "", "", NO_RECORD, "", "", "", ""
    )


def _orphan(log: Found) -> ArchiveLine:
    own_labels = log.labels
    return ArchiveLine(
        own_labels.document,
        own_labels.revision,
        own_labels.joint,
        own_labels.cycle,
        log.name,
        "",
        NOT_JUDGED,
        "",
        "",
        log.reason,
        "",
    )
