"""The row of the table of changes that a path of the vocabulary, or a name, leads to."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from itertools import product

from hts.job.comparison.change_kinds import ROWS
from hts.job.comparison.registry import Row

#: A step of a path that stands for several.
_TOGETHER = {
    "treatment": ("cycle", "bake"),
    "work": ("before heat", "during heat", "after heat"),
    "instrument": ("controller", "recorder"),
}


@lru_cache(maxsize=2048)
def row_of(path: str) -> Row:
    """The row of the longest path that covers this one. LookupError where none does."""
    found = find(path, _patterns())
    if found is None:
        raise LookupError(f"no kind of change covers {path!r}")
    return found


@lru_cache(maxsize=64)
def named(area: str, kind: str) -> Row:
    """The row of a kind. LookupError where there is none."""
    for row in ROWS:
        if (row.area, row.kind) == (area, kind):
            return row
    raise LookupError(f"there is no kind of change {area}/{kind}")


def find(path: str, patterns: dict[tuple[str, ...], Row]) -> Row | None:
    steps = tuple(path.split("."))
    for length in range(len(steps), 0, -1):
        # The fewest stars first.
        for pattern in sorted(_matching(steps[:length]), key=lambda p: p.count("*")):
            row = patterns.get(pattern)
            if row is not None:
                return row
    return None


@lru_cache(maxsize=1)
def _patterns() -> dict[tuple[str, ...], Row]:
    return patterns(ROWS)


def patterns(rows: Iterable[Row]) -> dict[tuple[str, ...], Row]:
    """Every path of the rows, written out. ValueError for one that two rows claim."""
    made: dict[tuple[str, ...], Row] = {}
    for row in rows:
        for path in row.paths:
            for steps in _written_out(path):
                if steps in made:
                    raise ValueError(f"two kinds of change claim {'.'.join(steps)!r}")
                made[steps] = row
    return made


def _written_out(path: str) -> Iterable[tuple[str, ...]]:
    return product(*(_TOGETHER.get(step, (step,)) for step in path.split(".")))


def _matching(steps: tuple[str, ...]) -> Iterable[tuple[str, ...]]:
    """The patterns that match these steps; the first step never hides behind a star."""
    choices = [(steps[0],), *((step, "*") for step in steps[1:])]
    return product(*choices)


#: Steps of values that say what a thing is called, or all that it says.
_WHOLE = ("name", "text", "what", "rule", "value", "title")


@lru_cache(maxsize=2048)
def part_of(path: str, row: Row) -> str:
    """The words of a clause or entry that a row covers without naming it: of
    `joint.thermocouples.thermocouple.at`, covered by the row of the thermocouple, `at`."""
    steps = tuple(path.split("."))
    covers = patterns([row])
    for length in range(len(steps), 0, -1):
        if any(pattern in covers for pattern in _matching(steps[:length])):
            return " ".join(step for step in steps[length:] if step not in _WHOLE)
    return ""
