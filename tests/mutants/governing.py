"""Looks for texts and lines of procedures that show slips in what governs, or in a whole check.

    python -m tests.mutants.governing --seconds 600
    python -m tests.mutants.governing --room checker

Every slip of `hts/checking/govern` is put into the running code, first with what `test_told`
keeps, then with the lines of the requirement kinds changed in every way the vocabulary knows, then
with the examples of rules and with specifications changed likewise. What shows slips nothing before
showed is kept in `tests/checking/govern/nearby.txt`; slips nothing shows are listed.
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import sys
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from types import FrameType
from typing import Any, NamedTuple

from hts.checking.govern import case as case_file
from hts.checking.rules.catalogue import rules
from hts.checking.rules.examples import BASES
from tests.checking.checker import nearby as checking
from tests.checking.govern import nearby, test_told
from tests.checking.govern.changed import changed_lines, changed_texts
from tests.checking.govern.nearby import Line, Text
from tests.checking.rules.nearby import Nearby
from tests.mutants import code
from tests.mutants.lines import around
from tests.mutants.slipped_helpers import living
from tests.mutants.slipped_rules import TOP
from tests.rich import texts
from tests.specs.test_requirement_kinds import JOBS, ROWS

#: Of a room what it tells of a text, and the file that keeps it.
_ROOMS = {
    "govern": (nearby.told_of_text, nearby.KEPT),
    "checker": (checking.told_of_text, checking.KEPT),
}
#: What only many files, processes or a cache come by.
_ELSEWHERE = (
    "cache", "check_paths", "cluster", "processes", "program", "seal", "sealed_file", "shards",
    "stored", "several_roots", "tasks", "users", "results", "fault", "kept_joints", "outcome",
)  # fmt: skip
_BATCH = 120
Told = Callable[[], Any]


class Found(NamedTuple):
    lines: list[Line]
    texts: list[Text]
    missed: list[code.Slip]


def main() -> int:
    """Prints the slips nothing shows; 1 if there are any."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutants.governing", description=__doc__)
    parser.add_argument("--room", choices=_ROOMS, default="govern")
    parser.add_argument("--seconds", type=float, default=600, help="of work of each process")
    parser.add_argument("--processes", type=int, default=os.cpu_count() or 1)
    asked = parser.parse_args()
    room = TOP / "hts/checking" / asked.room
    files = sorted(path for path in room.glob("*.py") if path.stem not in _ELSEWHERE)
    every = [slip for path in files for slip in code.slips(TOP, path.relative_to(TOP).as_posix())]
    random.Random(1).shuffle(every)
    parts = [
        (asked.room, every[n :: asked.processes], asked.seconds) for n in range(asked.processes)
    ]
    file = _ROOMS[asked.room][1]
    left = 0
    with ProcessPoolExecutor(asked.processes, get_context("fork")) as pool:
        for found in pool.map(_search, parts):
            lines, kept = nearby.rows(file)
            nearby.write([*lines, *found.lines], [*kept, *found.texts], file)
            left += len(found.missed)
            for slip in sorted(found.missed):
                print(f"{slip.path}:{slip.line}: {slip.before!r} -> {slip.after!r}", flush=True)
    return 1 if left else 0


def _search(work: tuple[str, list[code.Slip], float]) -> Found:
    signal.signal(signal.SIGALRM, _late)
    room, slips, seconds = work
    told_of_text, file = _ROOMS[room]
    search = Search(slips, told_of_text)
    ends = time.process_time() + seconds
    for told in _kept() if room == "govern" else ():
        search.shown(told)
    print(f"{len(search.alive)} of {len(slips)} alive", flush=True)
    kept_lines, kept_texts = nearby.rows(file)
    for job in JOBS:
        some = [row.line for row in kept_lines if row.job == job]
        if some:
            search.shown(lambda job=job, some=some: nearby.told_of_lines(job, some))  # type: ignore[misc]
    for text in kept_texts:
        search.shown(lambda place=text.place: told_of_text(place))  # type: ignore[misc]
    print(f"{len(search.alive)} alive after what is kept", flush=True)
    drawn = random.Random(7)
    jobs = JOBS if room == "govern" else []
    batches = [(job, batch) for job in jobs for batch in _batches(job, drawn)]
    drawn.shuffle(batches)
    for number, (job, batch) in enumerate(batches):
        if time.process_time() > ends - seconds / 2:
            break
        search.lines(job, batch)
        print(f"batch {number} of {len(batches)}: {len(search.alive)} alive", flush=True)
    for number, place in enumerate(_texts(drawn)):
        if time.process_time() > ends or not search.alive:
            break
        search.text(place)
        if number % 50 == 0:
            print(f"text {number}: {len(search.alive)} alive", flush=True)
    return Found(search.found_lines, search.found_texts, search.alive)


class Search:
    def __init__(self, alive: list[code.Slip], told_of_text: Callable[[Nearby], list[str]]) -> None:
        self.alive = alive
        self.told_of_text = told_of_text
        self.around = {slip: set(around(TOP, slip)) for slip in alive}
        self.found_lines: list[Line] = []
        self.found_texts: list[Text] = []

    def _others(self, told: Told) -> tuple[Any, list[tuple[code.Slip, Any]]]:
        """What is told, and of each slip by whose lines it comes what is told with it, where that
        is another thing."""
        here, ran = _watched(told)
        others = []
        for slip in self.alive:
            if not self.around[slip] & ran.get(slip.path, set()) and living(slip).functions:
                continue
            with living(slip).put():
                other = _safely(told)
            if other != here:
                others.append((slip, other))
        _forget()
        if others and _safely(told) != here:
            return here, []
        return here, others

    def shown(self, told: Told) -> None:
        _, others = self._others(told)
        gone = {slip for slip, _ in others}
        self.alive = [slip for slip in self.alive if slip not in gone]

    def lines(self, job: str, batch: list[str]) -> None:
        here, others = self._others(lambda: nearby.told_of_lines(job, batch))
        if isinstance(here, str):
            return
        shows: dict[int, set[code.Slip]] = {}
        for slip, other in others:
            for number, (one, two) in enumerate(zip(here, other, strict=False)):
                if one != two or isinstance(other, str):
                    shows.setdefault(number, set()).add(slip)
        left = {slip for slip, _ in others}
        self.alive = [slip for slip in self.alive if slip not in left]
        while left:
            best = max(shows, key=lambda n: (len(shows[n] & left), -len(batch[n]), -n))
            left -= shows.pop(best)
            self.found_lines.append(Line(job, batch[best], here[best]))

    def text(self, place: Nearby) -> None:
        here, others = self._others(lambda: self.told_of_text(place))
        if isinstance(here, str) or not others:
            return
        told: dict[str, None] = {}
        for _, other in others:
            gone = (
                [line for line in here if line not in set(other)] if isinstance(other, list) else []
            )
            if not gone or not set(gone) & set(told):
                told |= dict.fromkeys(gone[:1] or here[-1:])
        self.found_texts.append(Text(place, tuple(told)))
        gone_slips = {slip for slip, _ in others}
        self.alive = [slip for slip in self.alive if slip not in gone_slips]


def _watched(told: Told) -> tuple[Any, dict[str, set[int]]]:
    """What is told, and the lines of the room that were run."""
    ran: dict[str, set[int]] = {}
    root = f"{TOP}/"

    def local(frame: FrameType, event: str, argument: object) -> object:
        ran[frame.f_code.co_filename[len(root) :]].add(frame.f_lineno)
        return local

    def begun(frame: FrameType, event: str, argument: object) -> object:
        name = frame.f_code.co_filename
        if not name.startswith(f"{root}hts/checking/") or "/rules/" in name:
            return None
        ran.setdefault(name[len(root) :], set()).add(frame.f_lineno)
        return local

    _forget()
    sys.settrace(begun)  # type: ignore[arg-type]
    try:
        here = _safely(told)
    finally:
        sys.settrace(None)
    return here, ran


def _safely(told: Told) -> Any:
    _forget()
    signal.alarm(20)
    try:
        return told()
    except Exception as error:
        return f"fails {error!r}"
    finally:
        signal.alarm(0)


def _late(*_: object) -> None:
    raise TimeoutError


def _forget() -> None:
    case_file._BY_BOOKS.clear()


def _kept() -> Iterator[Told]:
    """What `test_told` keeps."""
    for name in texts.NAMES:
        yield lambda name=name: test_told._governs(name)  # type: ignore[misc]
    for change in (str, *test_told._OTHERS.values()):
        for job in JOBS:
            yield lambda job=job, change=change: test_told._kinds(job, "met", change)  # type: ignore[misc]
    for job in JOBS:
        yield lambda job=job: test_told._kinds(job, "broken")  # type: ignore[misc]


def _batches(job: str, drawn: random.Random) -> list[list[str]]:
    """The lines of the kinds, and each changed in every way the vocabulary knows."""
    lines = [line for row in ROWS for line in (row.met, row.broken)]
    lines = list(dict.fromkeys([*lines, *changed_lines(job)]))
    drawn.shuffle(lines)
    return [lines[n : n + _BATCH] for n in range(0, min(len(lines), 12 * _BATCH), _BATCH)]


def _texts(drawn: random.Random) -> Iterator[Nearby]:
    """The bases, examples of rules, and shipped specifications with one edit."""
    yield from (Nearby((), base) for base in BASES)
    examples = [
        Nearby((), each.base, each.changes)
        for rule in rules()
        for each in (*rule.bad, *rule.good)
        if rule.family
        in ("procedures", "preheat", "limits", "documents", "bands", "cycle", "zones")
    ]
    drawn.shuffle(examples)
    edited: list[Nearby] = []
    for base in (*BASES, *(f"specs/{path.name}" for path in sorted((TOP / "specs").glob("*.hts")))):
        edited += changed_texts(base)
    drawn.shuffle(edited)
    while examples or edited:
        yield from (lot.pop() for lot in (examples, edited) if lot)


if __name__ == "__main__":
    raise SystemExit(main())
