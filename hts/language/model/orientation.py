"""Which end of the pipe every word for a side means, as the clock's viewer sees them.

A text may call the two ends of a pipe by the flow, by letters, by height, by the compass or as
branch and run. `viewed` ties one of these pairs to the direction of gaze and `flow` ties others
to that. Only what is tied can be put on a drawing the right way round: seen along the gaze the
clock runs clockwise, so on the outside laid flat, with the clock from left to right, up on the
page is the direction of gaze (geometry: to the right × up points at the reader outside).
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hts.base.text import Span
from hts.language.model.joint import Joint
from hts.language.vocabulary import joint as words

#: Pairs of opposite ends.
FLOW, LETTERS, HEIGHT, BRANCH = (
    ("upstream", "downstream"),
    ("side A", "side B"),
    ("below", "above"),
    ("on run", "on branch"),
)
_NORTH, _EAST = ("south", "north"), ("west", "east")
_GAZE = ("toward the viewer", "away from the viewer")
PAIRS = (FLOW, LETTERS, HEIGHT, BRANCH, _NORTH, _EAST)
_OPPOSITE = {one: other for a, b in (*PAIRS, _GAZE) for one, other in ((a, b), (b, a))}

#: The end the viewer looks toward, and the end the flow runs toward.
_LOOKS_TOWARD = {
    "with flow": "downstream",
    "against flow": "upstream",
    "from side A": "side B",
    "from side B": "side A",
    "from above": "below",
    "from below": "above",
    "from north": "south",
    "from branch": "on run",
}
_RUNS_TOWARD = {
    "A to B": "side B",
    "B to A": "side A",
    "up": "above",
    "down": "below",
    "north": "north",
    "run to branch": "on branch",
    "branch to run": "on run",
    "south": "south",
    "east": "east",
    "west": "west",
}
#: Kinds of weld whose places are told along the weld.
_ALONG_WELD = ("long seam", "attachment")
#: Names of the sides of a joint and of a zone that are told in other words elsewhere.
_AS_OFFSET = {"run": "on run", "branch": "on branch", "A": "side A", "B": "side B"}


class Clash(NamedTuple):
    """Two statements that cannot both hold: the field that says the second, and what is wrong."""

    field: str
    words: str


class Orientation:
    """Ends of one joint's pipe, tied together as far as its text does."""

    def __init__(self, entry: words.Joint) -> None:
        self._same: dict[str, str] = {word: word for word in _OPPOSITE}
        self._compass: tuple[str, str] | None = None
        #: Statements that contradict others.
        self.clashes: list[Clash] = []
        lies = entry.axis.lies if entry.axis is not None else ""
        viewed = _LOOKS_TOWARD.get(entry.viewed or "")
        if viewed is not None:
            self._state("viewed", f"viewed {entry.viewed}", _GAZE[1], viewed, lies)
        for flow in entry.flow:
            toward = _RUNS_TOWARD.get(flow)
            if toward is not None:
                self._state("flow", f"flow {flow}", FLOW[1], toward, lies)

        if self.clashes:
            # Nothing can be relied on.
            self._same = {word: word for word in _OPPOSITE}

    def sign(self, side: str) -> int | None:
        """1 for an end the viewer looks toward, -1 for that behind him, None where the text does
        not tell. `side` as in an offset, a zone or the name of a side."""
        return self.compared(side, _GAZE[1])

    def compared(self, one: str, other: str) -> int | None:
        """1 for two words for one end, -1 for opposite ends, None where nothing ties them."""
        one, other = _AS_OFFSET.get(one, one), _AS_OFFSET.get(other, other)
        if one not in self._same or other not in self._same:
            return None
        if self._root(one) == self._root(other):
            return 1
        return -1 if self._root(one) == self._root(_OPPOSITE[other]) else None

    def along(self, side: str) -> tuple[str, int]:
        """The end distances count toward, and the sign of a distance on `side`; sides that the
        text ties together count toward one end."""
        for _, toward in PAIRS:
            sign = self.compared(side, toward)
            if sign is not None:
                return toward, sign
        return side, 1

    def _state(self, field: str, said: str, one: str, other: str, lies: str) -> None:
        pair = pair_of(other)
        if lies == "horizontal" and pair is HEIGHT:
            self.clashes.append(Clash(field, f"`{said}` of a pipe that lies horizontal"))
        elif lies == "vertical" and pair in (_NORTH, _EAST):
            self.clashes.append(Clash(field, f"`{said}` of a pipe that stands vertical"))
        elif pair in (_NORTH, _EAST) and self._compass not in (None, pair):
            self.clashes.append(
                Clash(field, f"`{said}` is square to a direction that is stated, too")
            )
        elif self.compared(one, other) == -1:
            self.clashes.append(Clash(field, f"`{said}` contradicts what is stated, too"))
        else:
            self._tie(one, other)
            if pair in (_NORTH, _EAST):
                self._compass = pair

    def _tie(self, one: str, other: str) -> None:
        for a, b in ((one, other), (_OPPOSITE[one], _OPPOSITE[other])):
            self._same[self._root(a)] = self._root(b)

    def _root(self, word: str) -> str:
        while self._same[word] != word:
            word = self._same[word]
        return word


class Untied(NamedTuple):
    """A word for a side of which nothing tells which end of another pair it is, and its place."""

    side: str
    pair: tuple[str, str]
    other: tuple[str, str]
    at: Span


def untied(joint: Joint, orientation: Orientation) -> Untied | None:
    """The first word the joint places things by that is not tied to the direction of gaze, or on
    a pipe that stands vertical to up and down."""
    entry, used = joint.entry, list(named(joint))
    axis = entry.axis
    seen = _LOOKS_TOWARD.get(entry.viewed or "")
    if seen is not None:
        used.insert(0, (seen, entry.place("viewed")))
    stands = axis is not None and axis.lies == "vertical" and entry.kind != "branch"
    for side, at in used:
        pair = pair_of(side)
        if stands and axis is not None:
            other, at = HEIGHT, axis.place("lies")
        else:
            other = pair_of(used[0][0])
        if orientation.compared(pair[1], other[1]) is None:
            return Untied(side, pair, other, at)
    return None


def named(joint: Joint) -> Iterator[tuple[str, Span]]:
    """The words for sides by which the joint's entries place things, and where they stand."""
    for tc in joint.thermocouples:
        # The sides of a long seam and of a pad are no ends of the pipe.
        offset = tc.entry.offset
        told = offset is not None and offset.side in _OPPOSITE
        if offset is not None and told and joint.entry.kind not in _ALONG_WELD:
            yield offset.side, tc.place("offset")
    for near in joint.entry.nearby:
        if near.where is not None and near.where.side in _OPPOSITE:
            yield near.where.side, near.place("where")
    for heavy in joint.entry.heavy_sections:
        if heavy.where is not None:
            yield heavy.where.side, heavy.place("where")
    for support in joint.entry.supports:
        if support.where is not None and support.where.side in _OPPOSITE:
            yield support.where.side, support.place("where")
    for zone in joint.zones:
        if zone.entry.side not in (None, "both"):
            yield _AS_OFFSET.get(zone.entry.side, zone.entry.side), zone.place("side")


def opposite(side: str) -> str:
    """The word for the other end."""
    return _OPPOSITE.get(side, f"opposite {side}")


def pair_of(side: str) -> tuple[str, str]:
    """The two ends a word for a side is one of."""
    return next(pair for pair in PAIRS if side in pair)
