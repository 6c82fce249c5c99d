"""Which side of the weld is drawn up, and what each is called."""

from __future__ import annotations

from typing import NamedTuple

from hts.language.model.joint import Joint

_UP = ("upstream", "side A", "on branch", "above")
_DOWN = ("downstream", "side B", "on run", "below")
_FLOW, _LETTERS, _BRANCH, _HEIGHT = range(4)


class Sides(NamedTuple):
    """Names of the upper and lower side; `unsettled` where the text uses words for sides without
    saying how they go together."""

    upper: tuple[str, ...]
    lower: tuple[str, ...]
    unsettled: bool

    def sign(self, side: str) -> int:
        """1 for a side that is drawn up, -1 for one drawn down."""
        return -1 if side in self.lower else 1


def sides_of(joint: Joint) -> Sides:
    """The sides as the joint's own entries name them.

    Side A, the branch and what is above are drawn up; so is upstream, unless the flow says that
    it lies on the other one.
    """
    pairs = sorted({_pair(side) for side in _named(joint)})
    if not pairs:
        pairs = [_BRANCH if joint.entry.kind == "branch" else _FLOW]
    flow, axis = joint.entry.flow or "", joint.entry.axis
    by_height = pairs == [_FLOW, _HEIGHT] and flow in ("up", "down")
    by_letters = pairs == [_FLOW, _LETTERS] and flow in ("A to B", "B to A")
    settled = len(pairs) == 1 or by_height or by_letters
    stands = pairs == [_FLOW] and axis is not None and axis.lies == "vertical"
    upper, lower = [_UP[pair] for pair in pairs], [_DOWN[pair] for pair in pairs]
    if ((by_height or stands) and flow == "up") or (by_letters and flow == "B to A"):
        upper[0], lower[0] = lower[0], upper[0]
    return Sides(tuple(upper), tuple(lower), not settled)


def _pair(side: str) -> int:
    return _UP.index(side) if side in _UP else _DOWN.index(side)


def _named(joint: Joint) -> list[str]:
    """The sides the joint's entries name."""
    entry = joint.entry
    offsets = [tc.entry.offset for tc in joint.thermocouples]
    offsets += [near.where for near in entry.nearby]
    offsets += [support.where for support in entry.supports]
    return [offset.side for offset in offsets if offset is not None]
