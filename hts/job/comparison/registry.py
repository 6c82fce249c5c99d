"""The axes of a change: area and kind (a row of `hts.job.comparison.change_kinds`), and action."""

from __future__ import annotations

from typing import Literal, NamedTuple

Verdict = Literal["re-approve", "review", "note"]
Sense = Literal["maximum", "minimum", "range", "plain"]
Action = Literal["added", "removed", "tightened", "loosened", "moved", "changed", "renamed"]

REAPPROVE: Verdict = "re-approve"
REVIEW: Verdict = "review"
NOTE: Verdict = "note"
#: The worst first.
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

_RENAMED = "another name for the same"
_LETTERS: dict[str, Verdict] = {"R": REAPPROVE, "V": REVIEW, "n": NOTE}


class Row(NamedTuple):
    """A kind of change. `paths` lead into the vocabulary (hts.language.vocabulary.paths); a path
    covers all below it that no longer one covers, and `*` is any one step. `lacks` is what
    the files do not say where the verdict is review. `why` is the reason of what asks for
    something; `calm` that of a note, where the same kind can ask for more."""

    area: str
    kind: str
    sense: Sense
    letters: str
    paths: tuple[str, ...]
    why: str
    lacks: str = ""
    source: str = ""
    basis: str = "practice"
    calm: str = ""

    @property
    def actions(self) -> tuple[Action, ...]:
        """The actions that can come about, in the order of ACTIONS."""
        return tuple(a for a, letter in zip(ACTIONS, self.letters, strict=True) if letter != ".")

    def verdict(self, action: Action) -> Verdict:
        """What a change asks for. KeyError for an action that cannot come about."""
        return _LETTERS[self.letters[ACTIONS.index(action)]]

    def reason(self, action: Action, verdict: Verdict) -> str:
        """Why a change asks for what it asks for."""
        if verdict != NOTE:
            return self.why
        return _RENAMED if action == RENAMED else self.calm or self.why


class Waived(NamedTuple):
    """A kind that does not turn into its mirror when the sides change places, and why."""

    area: str
    kind: str
    reason: str
