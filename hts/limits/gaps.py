"""Values of a number between two rows of one quantity that no row limits.

Along one fact all other facts are held equal. Every choice of these others is one bit of a long
number, so that one pass along the fact looks at all choices at once.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import prod
from typing import NamedTuple

from hts.limits.alternatives import Told, names_of, untold
from hts.limits.cells import Domain, Sample, TooMuch, Undecidable
from hts.limits.facts import FACTS
from hts.limits.limit import Limit
from hts.limits.quantities import Direction
from hts.limits.regions import Box, Regions, numbers, runs
from hts.syntax.formula import Text

#: Bits held at a time, and looked at in all: about 100 MB, and about a second.
_MOST_HELD = 800_000_000
_MOST_LOOKED_AT = 40_000_000_000


class Gap(NamedTuple):
    """Values of a number, from sample to sample, between two rows and limited by none."""

    direction: Direction
    below: Limit
    above: Limit
    fact: str
    first: Sample
    last: Sample


class _Piece(NamedTuple):
    """One box of a row along a fact: where it holds along it, and for which choices of others."""

    row: Limit
    along: int
    choices: int


def gaps(
    rows: Sequence[Limit],
    direction: Direction,
    domain: Domain,
    left_open: Told = untold,
) -> list[Gap]:
    """Gaps in the numbers of rows that limit one quantity in one direction, none if undecidable.

    `left_open` is called where it could be decided, but not in a time anyone would wait.
    """
    if any(row.when is None for row in rows):
        return []
    found: list[Gap] = []
    try:
        regions = Regions([row.when for row in rows], domain)
        for number in sorted(regions.too_much):
            left_open([rows[number]])
        if None not in regions.boxes:
            for fact in regions.axes:
                if not isinstance(FACTS[fact].kind, Text):
                    found += _Pass(rows, direction, regions, fact).gaps()
    except TooMuch:
        left_open(rows)
    except Undecidable:
        pass
    return found


class _Pass:
    """One pass along a fact."""

    def __init__(
        self, rows: Sequence[Limit], direction: Direction, regions: Regions, fact: str
    ) -> None:
        self.direction, self.fact = direction, fact
        self.samples = regions.axes[fact]
        place = list(regions.axes).index(fact)
        widths = [len(samples) for n, samples in enumerate(regions.axes.values()) if n != place]
        boxes = [
            (row, box) for row, held in zip(rows, regions.boxes, strict=True) for box in held or ()
        ]
        self.work = prod(width if n else -(-width // 8) * 8 for n, width in enumerate(widths))
        if self.work * (len(boxes) + len(self.samples)) > _MOST_HELD:
            raise TooMuch
        self.looked_at = 0

        def choices(box: Box) -> int:
            return _choices([*box[:place], *box[place + 1 :]], widths)

        self.pieces = [_Piece(row, box[place], choices(box)) for row, box in boxes]
        self.inside = self._each(
            [_Piece(rows[0], box[place], choices(box)) for box in regions.domain]
        )
        self.covered = self._each(self.pieces)

    def _each(self, pieces: Sequence[_Piece]) -> list[int]:
        """For each sample the choices covered there: a tree of halves, so that a long stretch is
        entered in few places."""
        count = len(self.samples)
        tree = [0] * (2 * count)
        for piece in pieces:
            for first, last in runs(piece.along):
                low, high = first + count, last + 1 + count
                while low < high:
                    if low & 1:
                        tree[low] |= piece.choices
                        low += 1
                    if high & 1:
                        high -= 1
                        tree[high] |= piece.choices
                    low, high = low // 2, high // 2
        for node in range(2, 2 * count):
            tree[node] |= tree[node // 2]
        return tree[count:]

    def gaps(self) -> list[Gap]:
        found: dict[tuple[int, int], Gap] = {}
        open_since = ever = 0
        for at, covered in enumerate(self.covered):
            ended = covered & open_since & ever
            before = at - 1
            while ended:
                self.looked_at += self.work
                if self.looked_at > _MOST_LOOKED_AT:
                    raise TooMuch
                begun = ended & self.covered[before]
                if begun:
                    self._between(before, at, begun, found)
                ended &= ~begun
                before -= 1
            open_since = (open_since & ~covered) | (self.inside[at] & ~covered)
            ever |= covered
        return list(found.values())

    def _between(
        self, before: int, at: int, choices: int, found: dict[tuple[int, int], Gap]
    ) -> None:
        """Enters gaps between rows that end at one sample and rows that begin at another."""
        below = self._there(before, before + 1, choices)
        above = self._there(at, at - 1, choices)
        for low in below:
            names = names_of(low.row)
            if self.fact not in names:
                continue
            for high in above:
                self.looked_at += self.work
                if low.row is high.row or names_of(high.row) != names:
                    continue
                both = low.choices & high.choices & choices
                if not both:
                    continue
                first, last = self.samples[before + 1], self.samples[at - 1]
                gap = Gap(self.direction, low.row, high.row, self.fact, first, last)
                found.setdefault((id(low.row), id(high.row)), gap)
                choices &= ~both
                if not choices:
                    return

    def _there(self, at: int, beyond: int, choices: int) -> list[_Piece]:
        return [
            piece
            for piece in self.pieces
            if piece.along >> at & 1 and not piece.along >> beyond & 1 and piece.choices & choices
        ]


def _choices(sets: Sequence[int], widths: Sequence[int]) -> int:
    """The choices of several facts as bits: the first fact counts fastest, the others in steps of
    whole bytes."""
    bits, length = 1, 1
    for n, (chosen, width) in enumerate(zip(sets, widths, strict=True)):
        if n == 0:
            bits, length = chosen, -(-width // 8)
            continue
        some, none = bits.to_bytes(length, "little"), bytes(length)
        held = set(numbers(chosen))
        joined = b"".join(some if number in held else none for number in range(width))
        bits, length = int.from_bytes(joined, "little"), length * width
    return bits
