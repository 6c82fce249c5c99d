"""Lines of the table, made in several processes and told in one order."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from functools import partial
from typing import NamedTuple

from hts.base.cluster import each, is_connected
from hts.checking.checker.processes import cores, pool_of
from hts.checking.checker.program import digest_of
from hts.checking.checker.results import Shard, UncheckedFile
from hts.record.archive.find import Found, found, specifications
from hts.record.archive.line import NO_RECORD, NONE_DUE, UNREADABLE, ArchiveLine
from hts.record.archive.parts import Extent, parts
from hts.record.archive.portion import Judged, Portion, Run, judged
from hts.record.archive.sent import files_of, judged_there
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
    the configuration nearest to each specification. `joint` and `cycle` are of the logs that say
    no other themselves."""

    specs: str
    folder: str
    options: Options
    today: str | None = None
    jobs: int | None = None
    shard: Shard | None = None
    config: str | None = None
    joint: str | None = None
    cycle: str | None = None


def audit(asked: Asked, tell: Tell | None = None) -> Iterator[ArchiveLine]:
    """A line for each run that has a record, whose logs may be several, and after those of a
    specification one for each of its runs without a record. Of each specification there is a line,
    whatever became of it; those that could not be read and logs without a specification come last.
    `tell` hears how many logs are done.

    Raises RecordError where there is no log at all, ChildProcessError where a process was killed.
    Within `hts.base.cluster.connected` portions
    go to other machines.
    """
    specs = specifications(asked.specs)
    all_logs = list(found(asked.folder, specs.by_number))
    if not all_logs:
        raise RecordError(asked.folder, "there is no log in this folder", "name another")
    by_spec: dict[str, list[Found]] = {}
    for log in all_logs:
        by_spec.setdefault(log.spec, []).append(_labelled(log, asked))
    numbers = {file: number for number, files in specs.by_number.items() for file in files}
    for file in numbers:
        by_spec.setdefault(file, [])
    orphans = by_spec.pop("", [])
    mine = _dealt(sorted(by_spec), asked)
    portions = [Portion(spec, part) for spec in mine for part in _parts(by_spec[spec])]
    total = sum(len(portion.runs) for portion in portions)
    done = 0
    of_spec = _OfSpec()
    for at, (portion, result) in enumerate(_each(portions, asked)):
        of_spec.add(portion, result)
        done += len(portion.runs)
        if tell is not None:
            tell(done, total)
        if at + 1 == len(portions) or portions[at + 1].spec != portion.spec:
            yield from of_spec.lines(asked, numbers[portion.spec])
            of_spec = _OfSpec()
    if asked.shard is None or asked.shard.number == 1:
        yield from map(_unread, specs.lost)
        yield from map(_orphan, orphans)


def _labelled(log: Found, asked: Asked) -> Found:
    own = log.labels
    joint, cycle = own.joint or asked.joint or "", own.cycle or asked.cycle or ""
    return log._replace(labels=own._replace(joint=joint, cycle=cycle))


class _OfSpec:
    """What was judged of one specification, portion by portion."""

    def __init__(self) -> None:
        self._spec = ""
        self._logs: list[Found] = []
        self._lines: list[ArchiveLine] = []
        self._extents: list[Extent | None] = []
        self._runs: tuple[Run, ...] = ()
        self._seen: set[tuple[str, str]] = set()
        self._lost: ArchiveLine | None = None

    def add(self, portion: Portion, result: Judged) -> None:
        self._spec = portion.spec
        self._logs += [log for (log,) in portion.runs]
        self._lines += result.lines
        self._extents += result.extents
        self._runs = result.runs or self._runs
        self._seen |= set(result.seen)
        self._lost = result.lost or self._lost

    def lines(self, asked: Asked, number: str) -> Iterator[ArchiveLine]:
        """Its lines, parts of one run as one, and of the specification itself where nothing else
        tells of it."""
        self._join(asked)
        told = [line for line in self._lines if line.record]
        told += [
            ArchiveLine(*run, verdict=NO_RECORD)
            for run in self._runs
            if (run.joint, run.cycle) not in self._seen
        ]
        if not told and self._lost is not None:
            told.append(self._lost._replace(document=number))
        elif not told:
            note = f"no record is due for {os.path.basename(self._spec)}: it is not released for "
            note += "work, or has no treatment"
            told.append(ArchiveLine(number, verdict=NONE_DUE, note=note))
        yield from told

    def _join(self, asked: Asked) -> None:
        groups = parts(self._extents)
        if not groups:
            return
        runs = tuple(tuple(self._logs[at] for at in group) for group in groups)
        joined = judged(Portion(self._spec, runs), asked.options, asked.today, asked.config).lines
        for group, line in zip(groups, joined, strict=True):
            if line.why:
                continue  # they do not fit together after all: each stays by itself
            for at in group:
                self._lines[at] = ArchiveLine()
            self._lines[group[0]] = line


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


def _parts(logs: list[Found]) -> list[tuple[tuple[Found, ...], ...]]:
    """Each log by itself: which go together shows when they have been read."""
    runs = [(log,) for log in logs]
    return [tuple(runs[at : at + _PORTION]) for at in range(0, len(runs), _PORTION)] or [()]


def _each(portions: list[Portion], asked: Asked) -> Iterator[tuple[Portion, Judged]]:
    terms = asked.options, asked.today, asked.config
    work = partial(judged, options=asked.options, today=asked.today, config=asked.config)
    count = sum(len(portion.runs) for portion in portions)
    if is_connected():
        units = ((files_of(p, asked.options, asked.config), p, *terms) for p in portions)
        yield from zip(portions, each(judged_there, units), strict=True)
        return
    jobs = asked.jobs or (cores() if count > _FEW else 1)
    jobs = min(jobs, len(portions))
    if jobs < 2:
        for portion in portions:
            yield portion, work(portion)
        return
    # Threads of the data-frame library do not survive a fork; one each is enough here.
    os.environ.setdefault("POLARS_MAX_THREADS", "1")
    with pool_of(jobs, "judging records", forks=False) as pool:
        yield from zip(portions, pool.map(work, portions), strict=True)


def _unread(spec: UncheckedFile) -> ArchiveLine:
    return ArchiveLine(why=UNREADABLE, note=f"{spec.name}: {spec.reason}")


def _orphan(log: Found) -> ArchiveLine:
    own = log.labels
    return ArchiveLine(
        own.document, own.revision, own.joint, own.cycle, log.name, why=log.why, note=log.reason
    )
