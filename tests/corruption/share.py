"""Makes the mutants of the good specifications and libraries, and looks whether a check tells."""

from __future__ import annotations

import os
import random
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from functools import cache, lru_cache
from pathlib import Path
from typing import NamedTuple

from hts.base.text import Source
from hts.checking.checker import check_spec
from hts.language.model import Loader, Spec
from tests.corruption.changes import Mutant, mutants
from tests.corruption.harm import harm
from tests.corruption.legal import reason
from tests.corruption.meaning import meaning
from tests.corruption.places import Places, places
from tests.corruption.world import World

ROOT = Path(__file__).parents[2]
LIBRARY = sorted((ROOT / "specs" / "library").glob("*.hts"))
JOBS = sorted((ROOT / "specs").glob("*.hts"))
#: Jobs that stand beside the tests because the owners' procedures want one each.
MORE_JOBS = sorted((ROOT / "tests" / "specs" / "jobs").glob("*.hts"))
FILES = [*JOBS, *MORE_JOBS, *LIBRARY]
#: A day on which all certificates are in date and all documents are out.
TODAY = "2026-11-25"

FOUND, SAME, LEGAL, SURVIVED = "found", "same", "legal", "survived"


class Result(NamedTuple):
    """A mutant of one file and what became of it; ``told`` is the first finding, or the reason why
    it is legal. ``line`` is how the line reads."""

    file: str
    mutant: Mutant
    harm: str
    outcome: str
    told: str
    number: int
    was: str
    line: str


class Spoiled(Loader):
    """Reads one file of the repository as another text, all others as they lie there."""

    def __init__(self, path: str, text: str, others: Loader) -> None:
        super().__init__(str(ROOT))
        self._spoiled = os.path.realpath(path)
        self._instead = text
        self._libraries = {p: lib for p, lib in others._libraries.items() if p != self._spoiled}

    def text(self, path: str) -> str:
        return self._instead if os.path.realpath(path) == self._spoiled else super().text(path)


@lru_cache(maxsize=1)
def _loader() -> Loader:
    """One loader for all, with every library read."""
    loader = Loader(str(ROOT))
    for path in FILES:
        Spec(loader.read(str(path)), loader)
    for path in LIBRARY:
        loader._library(os.path.realpath(path))
    return loader


@cache
def _places(path: Path) -> Places:
    return places(_loader().read(str(path)))


@cache
def _mutants(path: Path) -> tuple[Mutant, ...]:
    own = _places(path)
    used = [_places(other) for other in LIBRARY if other != path]
    return tuple(mutants(own, World(own, used)))


@cache
def _users(path: Path) -> tuple[Path, ...]:
    """The jobs that use a library file, through others or not; for a job itself none."""
    if path not in LIBRARY:
        return ()
    real = os.path.realpath(path)
    return tuple(
        job
        for job in (*JOBS, *MORE_JOBS)
        if any(
            os.path.realpath(library.path) == real
            for library in Spec(_loader().read(str(job)), _loader()).libraries
        )
    )


def every(files: Iterable[Path] = FILES) -> list[tuple[Path, int]]:
    """All mutants, by file and number."""
    return [(path, number) for path in files for number in range(len(_mutants(path)))]


def sample(count: int, seed: int, files: Iterable[Path] = FILES) -> list[tuple[Path, int]]:
    """So many of them, drawn."""
    whole = every(files)
    return random.Random(seed).sample(whole, min(count, len(whole)))


def judged(path: Path, number: int) -> Result:
    """One mutant, checked."""
    mutant = _mutants(path)[number]
    text = _places(path).source.text
    new = mutant.applied(text)
    told = _told(path, new)
    was = text[mutant.start : mutant.end]
    name = path.relative_to(ROOT).as_posix()
    outcome = FOUND
    if told is None:
        legal = reason(name, mutant.path, mutant.change, was, mutant.new)
        outcome, told = (LEGAL, legal) if legal else (SURVIVED, "")
        if meaning(new) == meaning(text):
            outcome = SAME
    line = _places(path).line(mutant.start)
    shown = new.splitlines()[line - 1].strip() if mutant.new else f"(left out) {was.strip()}"
    return Result(name, mutant, harm(mutant.path), outcome, told, line, was, shown[:160])


def _told(path: Path, text: str) -> str | None:
    """The first finding about a spoiled file, in itself or in a job that uses it."""
    loader = Spoiled(str(path), text, _loader()) if path in LIBRARY else _loader()
    for each in (path, *_users(path)):
        if each == path:
            source = Source(text, loader.name(str(path)), os.path.abspath(path))
        else:
            source = loader.read(str(each))
        spec = Spec(source, loader)
        findings = [f for f in spec.findings if f.severity != "advice"]
        findings = findings or [f for f in check_spec(spec, TODAY) if f.severity != "advice"]
        if findings:
            return f"{findings[0].kind.code} {findings[0].kind.name}"
    return None


def _one(job: tuple[Path, int]) -> Result:
    return judged(*job)


def run(jobs: list[tuple[Path, int]], processes: int) -> Iterator[Result]:
    """The results of mutants, in their order."""
    if processes <= 1:
        yield from map(_one, jobs)
        return
    with ProcessPoolExecutor(processes) as pool:
        yield from pool.map(_one, jobs, chunksize=50)
