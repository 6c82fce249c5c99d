"""Makes the mutants of the good specifications and libraries, and looks whether a check tells."""

from __future__ import annotations

import hashlib
import json
import os
import random
import re
from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from contextlib import ExitStack
from functools import cache, lru_cache
from pathlib import Path
from typing import NamedTuple

from hts.base.findings import ADVICE, ERROR, WARNING
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
RIGHT = sorted((ROOT / "tests" / "specs" / "right").glob("*.hts"))
FILES = [*JOBS, *MORE_JOBS, *LIBRARY]
#: A day on which all certificates are in date and all documents are out.
TODAY = "2026-11-25"

#: The line a thing of a library begins with, and its name.
_HEAD = re.compile(r"^(?:[a-z]+ )+?([\w.-]+)(?: \".*\")? \{$", re.MULTILINE)

_GRAVEST = (ERROR, WARNING, ADVICE)
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
    """Reads files of the repository as other texts, by their paths, and all others as they lie
    there."""

    def __init__(self, texts: Mapping[Path, str], others: Loader) -> None:
        super().__init__(str(ROOT))
        self._instead = {os.path.realpath(path): text for path, text in texts.items()}
        self._libraries = {
            key: library
            for key, library in others._libraries.items()
            if key[0] not in self._instead
        }

    def text(self, path: str) -> str:
        instead = self._instead.get(os.path.realpath(path))
        return super().text(path) if instead is None else instead


@lru_cache(maxsize=1)
def loader_of_all() -> Loader:
    """One loader for all, with every library read."""
    loader = Loader(str(ROOT))
    for path in FILES:
        Spec(loader.read(str(path)), loader)
    for path in LIBRARY:
        loader._library(os.path.realpath(path))
    return loader


@cache
def _places(path: Path) -> Places:
    return places(loader_of_all().read(str(path)))


@cache
def _mutants(path: Path) -> tuple[Mutant, ...]:
    own = _places(path)
    used = [_places(other) for other in LIBRARY if other != path]
    return tuple(mutants(own, World(own, used)))


@cache
def _used(job: Path) -> tuple[str, ...]:
    """The real paths of the files a job uses, and last all their texts but the equipment's."""
    spec = Spec(loader_of_all().read(str(job)), loader_of_all())
    texts = [spec.source.text]
    texts += [each.file.source.text for each in spec.libraries if each.file.joints]
    return (*(os.path.realpath(each.path) for each in spec.libraries), "\n".join(texts))


@cache
def users(path: Path, name: str) -> tuple[Path, ...]:
    """The jobs that use a library file, through others or not, and name the thing of this name in
    it; for a job itself none."""
    if path not in LIBRARY:
        return ()
    real, word = os.path.realpath(path), re.compile(rf"(?<![\w-]){re.escape(name)}(?![\w-])")
    return tuple(
        job
        for job in (*JOBS, *MORE_JOBS, *RIGHT)
        if real in _used(job)[:-1] and word.search(_used(job)[-1]) and _passes(job)
    )


@cache
def _passes(job: Path) -> bool:
    """Whether a job has no finding of its own, so that one about it tells something."""
    return not check_spec(Spec(loader_of_all().read(str(job)), loader_of_all()), TODAY)


def thing_at(path: Path, at: int) -> str:
    """The name of the thing of a library that a place of it belongs to."""
    text = _places(path).source.text
    heads = [found for found in _HEAD.finditer(text) if found.start() <= at]
    return heads[-1][1] if heads else ""


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
    told = _told(path, new, thing_at(path, mutant.start))
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


def _told(path: Path, text: str, thing: str) -> str | None:
    """The first finding about a spoiled file, in itself or in a job that uses the thing spoiled."""
    loader = Spoiled({path: text}, loader_of_all()) if path in LIBRARY else loader_of_all()
    for each in (path, *users(path, thing)):
        if each == path:
            source = Source(text, loader.name(str(path)), os.path.abspath(path))
        else:
            source = loader.read(str(each))
        spec = Spec(source, loader)
        findings = spec.findings or check_spec(spec, TODAY)
        if findings:
            gravest = min(findings, key=lambda finding: _GRAVEST.index(finding.severity))
            return f"{gravest.severity} {gravest.kind.code} {gravest.kind.name}"
    return None


def _one(job: tuple[Path, int]) -> Result:
    return judged(*job)


def run(jobs: list[tuple[Path, int]], processes: int, kept: Path | None = None) -> Iterator[Result]:
    """The results of mutants, in their order.

    ``kept``: results are added to this file as they come. What it already has as found in the same
    text is not run again, so that an interrupted run goes on and a later one looks at survivors.
    """
    known = _read(kept) if kept is not None else {}
    waiting = [job for job in jobs if _key(*job) not in known]
    with ExitStack() as stack:
        out = stack.enter_context(kept.open("a", encoding="utf-8")) if kept is not None else None
        pool = stack.enter_context(ProcessPoolExecutor(processes)) if processes > 1 else None
        fresh = pool.map(_one, waiting, chunksize=20) if pool is not None else map(_one, waiting)
        for job in jobs:
            result = known.get(_key(*job)) or next(fresh)
            if out is not None and _key(*job) not in known:
                out.write(json.dumps([_key(*job), result]) + "\n")
            yield result


def _key(path: Path, number: int) -> str:
    """A mutant by what it does to which text."""
    mutant, text = _mutants(path)[number], _places(path).source.text
    digest = hashlib.sha256(text.encode("utf-8")).hexdigest()[:12]
    return f"{path.stem} {digest} {mutant.start} {mutant.end} {mutant.new}"


def _read(kept: Path) -> dict[str, Result]:
    """The mutants a file of results has as found."""
    found: dict[str, Result] = {}
    for line in kept.read_text("utf-8").splitlines() if kept.exists() else []:
        key, fields = json.loads(line)
        result = Result(fields[0], Mutant(*fields[1]), *fields[2:])
        if result.outcome == FOUND:
            found[key] = result
    return found
