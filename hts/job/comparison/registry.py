"""The axes of a change: area and kind (a row of `hts.job.comparison.kinds`), and action."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from itertools import product
from typing import Literal, NamedTuple

Verdict = Literal["re-approve", "review", "note"]
Sense = Literal["maximum", "minimum", "range", "plain"]
Action = Literal["added", "removed", "tightened", "loosened", "moved", "changed", "renamed"]

REAPPROVE: Verdict = "re-approve"
REVIEW: Verdict = "review"
NOTE: Verdict = "note"
#: The gravest first.
VERDICTS: tuple[Verdict, ...] = (REAPPROVE, REVIEW, NOTE)

MAXIMUM: Sense = "maximum"
MINIMUM: Sense = "minimum"
RANGE: Sense = "range"
PLAIN: Sense = "plain"

ADDED: Action = "added"
REMOVED: Action = "removed"
TIGHTENED: Action = "tightened"
LOOSENED: Action = "loosened"
MOVED: Action = "moved"
CHANGED: Action = "changed"
RENAMED: Action = "renamed"
ACTIONS: tuple[Action, ...] = (ADDED, REMOVED, TIGHTENED, LOOSENED, MOVED, CHANGED, RENAMED)

#: What an action is called when the two sides change places.
MIRROR: dict[Action, Action] = {
    ADDED: REMOVED,
    REMOVED: ADDED,
    TIGHTENED: LOOSENED,
    LOOSENED: TIGHTENED,
    MOVED: MOVED,
    CHANGED: CHANGED,
    RENAMED: RENAMED,
}

_LETTERS: dict[str, Verdict] = {"R": REAPPROVE, "V": REVIEW, "n": NOTE}
#: A step of a path that stands for several.
_TOGETHER = {
    "treatment": ("cycle", "bake"),
    "work": ("before heat", "during heat", "after heat"),
    "instrument": ("controller", "recorder"),
}


class Row(NamedTuple):
    """A kind of change. `paths` lead into the vocabulary (hts.language.vocabulary.paths); a path
    covers all below it that no longer one covers, and `*` is any one step. `lacks` is what
    the files do not say where the verdict is review."""

    area: str
    kind: str
    sense: Sense
    letters: str
    paths: tuple[str, ...]
    why: str
    lacks: str = ""
    source: str = ""
    basis: str = "practice"

    @property
    def actions(self) -> tuple[Action, ...]:
        """The actions that can come about, in the order of ACTIONS."""
        return tuple(a for a, letter in zip(ACTIONS, self.letters, strict=True) if letter != ".")

    def verdict(self, action: Action) -> Verdict:
        """What a change asks for. KeyError for an action that cannot come about."""
        return _LETTERS[self.letters[ACTIONS.index(action)]]


class Waived(NamedTuple):
    """A kind that does not turn into its mirror when the sides change places, and why."""

    area: str
    kind: str
    reason: str


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
    from hts.job.comparison.kinds import ROWS

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
    from hts.job.comparison.kinds import ROWS  # the table is made of the rows declared here

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
