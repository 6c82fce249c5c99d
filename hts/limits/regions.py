"""Where the conditions of many rows hold, as boxes: per fact a set of its values.

The values that conditions name cut each fact as in `cells`; a set of the pieces is one whole
number with a bit for each, so that two conditions are compared by a few operations on numbers
however many pieces there are. `t > 5 mm and p_number in (1, 4)` is one box, `or` makes more.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from fractions import Fraction

from hts.base.quantities import Quantity
from hts.limits.cells import Domain, Sample, TooMuch, Undecidable, fixed, marked, samples_of
from hts.limits.demand import size
from hts.limits.facts import FACTS
from hts.syntax.formula import Fact, Formula, Text
from hts.syntax.formula.conditions import Compare, Joined, Member, Negation
from hts.syntax.formula.nodes import Name, Node, Word

Box = tuple[int, ...]
"""A set of values for each axis, as bits; never empty in one of them."""

#: Boxes of one condition, and pieces left of one box, beyond which nothing is judged.
_MOST_BOXES = 64
_MOST_PIECES = 2000


class Regions:
    """Where each of some conditions holds within a domain.

    `boxes[n]` are those of the n-th condition, None where its region cannot be known;
    `too_much` are the numbers of those that are merely too many boxes.
    """

    def __init__(self, conditions: Sequence[Formula | None], domain: Domain) -> None:
        marks: dict[str, list[Fact]] = {}
        for condition in conditions:
            for name, values in marked(condition).items():
                marks.setdefault(name, []).extend(values)
        whole = domain.condition
        if whole is not None and set(whole.names) & set(marks):
            for name, values in marked(whole).items():
                marks.setdefault(name, []).extend(values)
        else:
            whole = None
        self.axes: dict[str, tuple[Sample, ...]] = {
            name: samples_of(name, values, domain) for name, values in marks.items()
        }
        self._place = {name: number for number, name in enumerate(self.axes)}
        self._sizes = {
            name: [size(_number(sample.value)) for sample in samples]
            for name, samples in self.axes.items()
            if not isinstance(FACTS[name].kind, Text)
        }
        self.everything: Box = tuple((1 << len(samples)) - 1 for samples in self.axes.values())
        self.domain: list[Box] = [self.everything]
        if whole is not None:
            self.domain = self._boxes(whole)
        self.unconditional = [condition is None for condition in conditions]
        self.too_much: set[int] = set()
        self.boxes = [self._region(number, each) for number, each in enumerate(conditions)]

    def _region(self, number: int, condition: Formula | None) -> list[Box] | None:
        if condition is None:
            return self.domain
        try:
            return meeting(self._boxes(condition), self.domain)
        except TooMuch:
            self.too_much.add(number)
        except Undecidable:
            pass
        return None

    def _boxes(self, condition: Formula) -> list[Box]:
        marked(condition, strict=True)
        return self._of(condition.root, True)

    def _of(self, node: Node, so: bool) -> list[Box]:
        """The boxes where a condition holds, or where it does not."""
        if isinstance(node, Negation):
            return self._of(node.parts[0], not so)
        if isinstance(node, Joined):
            first, second = (self._of(part, so) for part in node.parts)
            return joined(first, second) if node.decisive is so else meeting(first, second)
        name, bits = self._atom(node)
        place = self._place[name]
        bits = bits if so else self.everything[place] & ~bits
        if not bits:
            return []
        return [(*self.everything[:place], bits, *self.everything[place + 1 :])]

    def _atom(self, node: Node) -> tuple[str, int]:
        """A fact and the values of it for which a comparison holds."""
        if isinstance(node, Member):
            name = node.parts[0].names()[0]
            text = isinstance(FACTS[name].kind, Text)
            bits = 0
            for choice in node.choices:
                if isinstance(choice, Word):
                    bits |= self._equal(name, choice.word)
                else:
                    bits |= self._equal(name, choice.written if text else choice.base)
            return name, bits
        if not isinstance(node, Compare):
            name = node.parts[0].names()[0]  # known: it is, wherever this looks
            return name, self.everything[self._place[name]]
        left, right, relation = *node.parts, node.relation
        if not isinstance(left, Name):
            left, right = right, left
            relation = relation.translate(str.maketrans("<>", "><"))
        assert isinstance(left, Name)
        name, value = left.word, fixed(left.word, right)
        if relation in ("=", "!="):
            bits = self._equal(name, value)
            return name, bits if relation == "=" else self.everything[self._place[name]] & ~bits
        number, sizes = size(_number(value)), self._sizes[name]
        below = (
            bisect_left(sizes, number) if relation in ("<", ">=") else bisect_right(sizes, number)
        )
        bits = (1 << below) - 1
        return name, bits if relation in ("<", "<=") else self.everything[self._place[name]] & ~bits

    def _equal(self, name: str, value: Fact) -> int:
        if isinstance(FACTS[name].kind, Text):
            return sum(1 << n for n, sample in enumerate(self.axes[name]) if sample.value == value)
        number, sizes = size(_number(value)), self._sizes[name]
        at = bisect_left(sizes, number)
        return 1 << at if at < len(sizes) and sizes[at] == number else 0


def _number(value: Fact) -> Quantity | Fraction:
    assert not isinstance(value, str)
    return value if isinstance(value, Quantity) else Fraction(value)  # type: ignore[arg-type]


def meeting(first: Sequence[Box], second: Sequence[Box]) -> list[Box]:
    """Where both hold. Raises TooMuch."""
    found = []
    for one in first:
        for other in second:
            box = meet(one, other)
            if box is not None:
                found.append(box)
    return _counted(found)


def meet(one: Box, other: Box) -> Box | None:
    """What two boxes have in common."""
    box = tuple([a & b for a, b in zip(one, other, strict=True)])
    return box if all(box) else None


def meets(first: Sequence[Box], second: Sequence[Box]) -> bool:
    """Whether both hold anywhere."""
    return any(meet(one, other) is not None for one in first for other in second)


def joined(first: list[Box], second: list[Box]) -> list[Box]:
    """Where one of them holds; boxes that differ in one fact only become one. Raises TooMuch."""
    found = list(first)
    for box in second:
        for number, other in enumerate(found):
            differ = [n for n, (a, b) in enumerate(zip(box, other, strict=True)) if a != b]
            if len(differ) <= 1:
                found[number] = tuple(a | b for a, b in zip(box, other, strict=True))
                break
        else:
            found.append(box)
    return _counted(found)


def _counted(boxes: list[Box]) -> list[Box]:
    if len(boxes) > _MOST_BOXES:
        raise TooMuch
    return boxes


def within(boxes: Sequence[Box], others: Sequence[Box]) -> bool:
    """Whether the boxes lie wholly in the others. Raises TooMuch."""
    return all(_covered(box, others) for box in boxes)


def _covered(box: Box, others: Sequence[Box]) -> bool:
    left = [box]
    for other in others:
        left = [piece for each in left for piece in _less(each, other)]
        if not left:
            return True
        if len(left) > _MOST_PIECES:
            raise TooMuch
    return False


def _less(box: Box, other: Box) -> Iterator[Box]:
    """A box without another, in pieces."""
    if meet(box, other) is None:
        yield box
        return
    rest = list(box)
    for place, bits in enumerate(other):
        outside = rest[place] & ~bits
        if outside:
            yield (*rest[:place], outside, *rest[place + 1 :])
        rest[place] &= bits


def numbers(bits: int) -> Iterator[int]:
    """The numbers of the bits set, rising."""
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low


def runs(bits: int) -> Iterator[tuple[int, int]]:
    """Stretches of bits set: [first, last]."""
    at = 0
    while bits:
        skip = (bits & -bits).bit_length() - 1
        bits >>= skip
        length = (~bits & (bits + 1)).bit_length() - 1
        yield at + skip, at + skip + length - 1
        bits >>= length
        at += skip + length
