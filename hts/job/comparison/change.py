"""A change: what it is, both sides of it, and what it asks for."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.text import Span
from hts.job.comparison.lookup import part_of
from hts.job.comparison.registry import REVIEW, Action, Row, Verdict


class Side(NamedTuple):
    """One side of a change: `text` as written, with the other system of units in brackets;
    `value` in its one spelling (hts.job.comparison.canonical).

    `place` is None for what is worked out rather than written.
    """

    address: str
    text: str
    value: str
    place: Span | None


class Change(NamedTuple):
    """`old` is None for what was added, `new` for what was removed, never both.

    `reason` says why the verdict is as it is; `lacks` what the files do not say, where it is
    review; `source` and `basis` where the demand comes from. `path` leads to the field in the
    vocabulary (hts.language.vocabulary.paths); of a limit it is the name of the quantity.
    """

    path: str
    row: Row
    action: Action
    old: Side | None
    new: Side | None
    verdict: Verdict
    reason: str
    lacks: str = ""
    source: str = ""
    basis: str = "practice"

    @property
    def area(self) -> str:
        return self.row.area

    @property
    def kind(self) -> str:
        return self.row.kind

    @property
    def part(self) -> str:
        """What of it changed, in the words of the language: empty where it is the whole thing its
        kind names, and where it is what the thing is called."""
        return part_of(self.path, self.row)

    @property
    def address(self) -> str:
        """On the newer side, where it is there."""
        side = self.new or self.old
        assert side is not None
        return side.address

    @property
    def places(self) -> list[Span]:
        """Where it is written, the older side first."""
        return [s.place for s in (self.old, self.new) if s is not None and s.place is not None]


class Representation(NamedTuple):
    """The same said in another way: another unit, another place or order, a comment, the layout.

    `what` is one of "unit or spelling", "default", "order", "file", "comments", "layout", "table";
    "default" is what holds unless said, now said or no longer.
    """

    what: str
    address: str
    old: str
    new: str


def make(
    path: str,
    row: Row,
    action: Action,
    old: Side | None,
    new: Side | None,
    verdict: Verdict | None = None,
    reason: str = "",
    lacks: str = "",
) -> Change:
    """A change with what its row says of it, unless something else is known."""
    decided = verdict or row.verdict(action)
    lacking = (lacks or row.lacks) if decided == REVIEW else ""
    told = reason or row.reason(action, decided)
    return Change(path, row, action, old, new, decided, told, lacking, row.source, row.basis)


def under(change: Change, verdict: Verdict, reason: str) -> Change:
    """The change with another verdict, for a reason of its own."""
    return change._replace(verdict=verdict, reason=reason, lacks="")
