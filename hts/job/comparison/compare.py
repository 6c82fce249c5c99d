"""Two specifications compared by meaning."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from hts.checking.govern.sources import book_faults
from hts.job.comparison.broken import broken, checked
from hts.job.comparison.canonical import RULE
from hts.job.comparison.change import Change, Representation, Side, make, under
from hts.job.comparison.direction import direction
from hts.job.comparison.effects import effects
from hts.job.comparison.facts import SpecNode
from hts.job.comparison.issue import issue, list_revisions
from hts.job.comparison.limits_in_force import LimitsInForce, shown
from hts.job.comparison.lookup import named
from hts.job.comparison.own_books import own_books
from hts.job.comparison.registry import ADDED, CHANGED, NOTE, REMOVED, VERDICTS, Verdict
from hts.job.comparison.representation import texts
from hts.job.comparison.requalify import requalifications
from hts.job.comparison.rows import ChangedRow, rows_of
from hts.job.comparison.swaps import without_swaps
from hts.job.comparison.tree import tree_of
from hts.job.comparison.walk import Walk
from hts.job.comparison.wording import said_whole
from hts.language.model import Spec

#: Areas whose changes reach every joint.
_EVERYWHERE = ("governing", "procedure", "material")


class Comparison:
    """What changed from `old` to `new`; either is None where there is no such file. `names` are
    those of their texts; `unpredicted` the treatments a prediction is asked of, which is not made
    for a comparison."""

    def __init__(
        self,
        old: Spec | None,
        new: Spec | None,
        changes: list[Change],
        representations: list[Representation],
        unpredicted: tuple[str, ...] = (),
    ) -> None:
        self.old = old
        self.new = new
        self.names = tuple(spec.source.name if spec is not None else None for spec in (old, new))
        self.changes = tuple(changes)
        self.representations = tuple(representations)
        self.unpredicted = unpredicted

    def __repr__(self) -> str:
        old, new = (name or "nothing" for name in self.names)
        counts = [
            f"{sum(c.verdict == verdict for c in self.changes)} {verdict}"
            for verdict in VERDICTS
            if any(c.verdict == verdict for c in self.changes)
        ]
        return f"<Comparison {old} -> {new}: {', '.join(counts) or 'no change'}>"

    def without_specs(self) -> Comparison:
        """What was found alone, for telling of many: no more of the texts than it points at."""
        changes, rewritten = list(self.changes), list(self.representations)
        made = Comparison(None, None, changes, rewritten, self.unpredicted)
        made.names = self.names
        return made

    @property
    def worst(self) -> Verdict | None:
        """The worst verdict; None where nothing changed but the representation."""
        return min((c.verdict for c in self.changes), key=VERDICTS.index, default=None)

    @cached_property
    def rows(self) -> frozenset[ChangedRow]:
        """The rows of the newer side's compiled job that changed."""
        if self.new is None:
            return frozenset()
        return rows_of(list(self.changes), self.old, self.new)


def compare(old: Spec | None, new: Spec | None, *, today: str | None = None) -> Comparison:
    """The changes from one specification to another, and what they ask for.

    None stands for a file that is not there. ``today`` is the ISO date that waivers and
    calibrations of both sides are judged on; without it nothing is that depends on the date.
    ValueError for two sides that are not there.
    """
    if old is None or new is None:
        return Comparison(old, new, [_whole(old, new)], [])
    if _same_text(old, new):
        return Comparison(old, new, [], [])
    walk = Walk(tree_of(old), tree_of(new))
    changes = list(_unreadable(old, new))
    before, after = LimitsInForce(old), LimitsInForce(new)
    changes += [_in_force(change, before, after) for change in walk.changes]
    changes += own_books(old, new)
    sides = checked(old, today), checked(new, today)
    changes += broken(*sides, changes, walk.joints)
    changes = without_swaps(changes, old, new, walk.joints)
    reached = _reached(changes, walk.joints)
    changes += effects(before, after, reached)
    changes += requalifications(before, after, reached)
    changes += list_revisions(old, new)
    changes += issue(changes, old, new)
    rewritten = [*walk.representations, *texts(old, new)]
    if not changes and not rewritten:
        rewritten.append(Representation("order", "", "", "entries of a block"))
    unpredicted = dict.fromkeys(address for side in sides for address in side.unpredicted)
    return Comparison(old, new, changes, rewritten, tuple(unpredicted))


def _same_text(old: Spec, new: Spec) -> bool:
    return [s.text for s in (*old.sources, *old.tables)] == [
        s.text for s in (*new.sources, *new.tables)
    ]


def _whole(old: Spec | None, new: Spec | None) -> Change:
    spec = new or old
    if spec is None:
        raise ValueError("there is nothing to compare")
    row = named("document", "specification")
    tree: SpecNode = tree_of(spec)
    _, value = said_whole(tree)
    names = ", ".join(joint.key for joint in tree.children.get("joints", ()))
    text = f"the whole specification{f': {names}' if names else ''}"
    side = Side("", text, value, spec.source.span(0, 0))
    if new is not None:
        return make("", row, ADDED, None, side)
    return make("", row, REMOVED, side, None)


def _unreadable(old: Spec, new: Spec) -> Iterator[Change]:
    """Errors of language: what they hide is not compared."""
    sides = [_errors(spec) for spec in (old, new)]
    if sides == [None, None]:
        return
    action = CHANGED if None not in sides else ADDED if sides[0] is None else REMOVED
    yield make("", named("document", "unreadable text"), action, sides[0], sides[1])


def _errors(spec: Spec) -> Side | None:
    found = [f for f in spec.findings if f.severity == "error"]
    found += [f for library in spec.libraries for f in library.findings if f.severity == "error"]
    found += [f for f in book_faults(spec.books) if f.severity == "error"]
    if not found:
        return None
    count = f"{len(found)} error{'s' if len(found) > 1 else ''}"
    text = f"{count}, the first: {found[0].message}"
    return Side("", text, f"{len(found)} errors", found[0].at.span)


def _in_force(change: Change, before: LimitsInForce, after: LimitsInForce) -> Change:
    """A value that is now stated, or no longer: what counts is the value in force."""
    old, new = change.old, change.new
    if old is None or new is None or RULE not in (old.value, new.value):
        return change
    was, now = before.stands(old.address, change.path), after.stands(new.address, change.path)
    if was is None or now is None:
        return change
    (first, value), (second, other) = shown(was), shown(now)
    old, new = _known(old, first, value), _known(new, second, other)
    change = change._replace(old=old, new=new)
    if value == other:
        rewritten = (
            "now stated" if change.old is not None and old.text.startswith(RULE) else "now by rule"
        )
        return under(change, NOTE, f"the same value as before, {rewritten}")
    action = direction(change.row.sense, value, other)
    return make(change.path, change.row, action, old, new)


def _known(side: Side, text: str, value: str) -> Side:
    """A side with the value in force beside `by rule`."""
    if side.value != RULE:
        return side
    return side._replace(text=f"{RULE} ({text})", value=f"{RULE} {value}")


def _reached(changes: list[Change], joints: list[tuple[str, str]]) -> list[tuple[str, str]]:
    """The joints of both sides whose limits may have changed."""
    if any(c.area in _EVERYWHERE or c.kind == "units on paper" for c in changes):
        return joints
    touched = {
        side.address.partition("/")[0]
        for change in changes
        for side in (change.old, change.new)
        if side is not None
    }
    return [pair for pair in joints if touched & set(pair)]
