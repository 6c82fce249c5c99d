"""The cases that conditions tell apart.

A condition compares facts with fixed values. These values cut each number into points and the
stretches between them, and each word into those named and the rest; within one cell of that grid
no condition changes. Trying one sample of every cell is therefore exact, and no guess.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from itertools import product
from typing import NamedTuple

from hts.base.quantities import COUNT, DIFFERENCE, Dimension, Quantity, find_unit
from hts.limits.demand import Amount, size
from hts.limits.facts import FACTS
from hts.syntax.formula import Fact, Formula, Text, Words
from hts.syntax.formula.conditions import Compare, Joined, Known, Member, Negation
from hts.syntax.formula.nodes import Literal, Name, Node, Number, Word

#: A word that no condition names.
OTHER = "another"
#: Beyond so many cells the question is left open: no procedure a person wrote needs them.
_MOST = 5000
_CELLS_BETWEEN = 4
#: Of a longer closed list those no condition names are one word like any other.
_WORDS = 8


class Undecidable(Exception):
    """Conditions that do more than compare facts with fixed values."""


class TooMuch(Undecidable):
    """Could be decided, but not in a time anyone would wait."""


class Sample(NamedTuple):
    """One value of a fact that stands for all from `low` to `high`.

    For a point both are the value; an end that is open, and those of a word, are None.
    """

    value: Fact
    low: Amount | None = None
    high: Amount | None = None

    @property
    def is_point(self) -> bool:
        return self.low is not None and self.low is self.high


class Domain(NamedTuple):
    """What a procedure is for.

    `words`: facts that are words, with those it is for. `condition`: a further one. `ends`: the
    least and the greatest value of facts that are numbers.
    """

    words: Mapping[str, tuple[str, ...]] = {}
    condition: Formula | None = None
    ends: Mapping[str, tuple[Amount | None, Amount | None]] = {}


class Grid:
    """All cells of some conditions within a domain. Raises Undecidable.

    `formulas` are formulas to be worked out in the cells: their numbers are sampled at the ends of
    the domain, too, and never beyond the outermost value known.
    """

    def __init__(
        self,
        conditions: Iterable[Formula | None],
        domain: Domain,
        formulas: Iterable[Formula] = (),
    ) -> None:
        self.domain = domain
        marks: dict[str, list[Fact]] = {}
        for condition in conditions:
            if condition is not None:
                _mark(condition.root, marks)
        inside = {name for formula in formulas for name in formula.names}
        for name in inside:
            marks.setdefault(name, [])
        self._whole = domain.condition
        if domain.condition is not None:
            if set(domain.condition.names) & set(marks):
                _mark(domain.condition.root, marks)
            else:
                self._whole = None
        self.axes = {
            name: samples_of(name, values, domain, name in inside) for name, values in marks.items()
        }
        count = 1
        for samples in self.axes.values():
            count *= len(samples)
        if count > _MOST:
            raise TooMuch

    def along(self, name: str) -> Iterator[list[dict[str, Sample]]]:
        """For each choice of the other facts, the cells of the domain along this one."""
        others = [fact for fact in self.axes if fact != name]
        for choice in product(*(self.axes[fact] for fact in others)):
            held = dict(zip(others, choice, strict=True))
            cells = [{**held, name: sample} for sample in self.axes[name]]
            yield [cell for cell in cells if holds(self._whole, cell)]

    def __iter__(self) -> Iterator[dict[str, Sample]]:
        """All cells of the domain."""
        for choice in product(*self.axes.values()):
            cell = dict(zip(self.axes, choice, strict=True))
            if holds(self._whole, cell):
                yield cell


def holds(condition: Formula | None, cell: Mapping[str, Sample]) -> bool:
    """Whether a condition of the grid holds in a cell."""
    return condition is None or condition.holds(facts(cell))


def facts(cell: Mapping[str, Sample]) -> dict[str, Fact]:
    """The facts of the cell's sample."""
    return {name: sample.value for name, sample in cell.items()}


def range_text(name: str, first: Sample, last: Sample) -> str:
    """`60 mm < t <= 65 mm`: the values of a number from one sample to a later one."""
    if first is last and first.is_point:
        return f"{name} = {first.low}"
    low, high = "<=" if first.is_point else "<", "<=" if last.is_point else "<"
    if first.low is None:
        return f"{name} {high} {last.high}"
    if last.high is None:
        return f"{name} {'>=' if first.is_point else '>'} {first.low}"
    return f"{first.low} {low} {name} {high} {last.high}"


def _mark(node: Node, marks: dict[str, list[Fact]]) -> None:
    """Collects the values each fact is compared with."""
    if isinstance(node, Joined | Negation):
        # `not carbon is known` holds just where this grid does not look.
        if isinstance(node, Negation) and _asks_whether_known(node):
            raise Undecidable
        for part in node.parts:
            _mark(part, marks)
    elif isinstance(node, Known):
        # Only cells in which everything is known are looked at.
        marks.setdefault(node.parts[0].names()[0], [])
    elif isinstance(node, Member) and isinstance(node.parts[0], Name):
        name = node.parts[0].word
        found = marks.setdefault(name, [])
        text = isinstance(FACTS[name].kind, Text)
        for choice in node.choices:
            if isinstance(choice, Word):
                found.append(choice.word)
            else:
                found.append(choice.written if text else choice.base)
    elif isinstance(node, Compare):
        left, right = node.parts
        if not isinstance(left, Name):
            left, right = right, left
        if not isinstance(left, Name) or right.names():
            raise Undecidable
        marks.setdefault(left.word, []).append(fixed(left.word, right))
    else:
        raise Undecidable


def _asks_whether_known(node: Node) -> bool:
    return isinstance(node, Known) or any(_asks_whether_known(part) for part in node.parts)


def marked(condition: Formula | None, strict: bool = False) -> dict[str, list[Fact]]:
    """The values a condition compares each fact with; none where it does more than compare, or
    Undecidable where that is `strict`."""
    marks: dict[str, list[Fact]] = {}
    try:
        if condition is not None:
            _mark(condition.root, marks)
    except Undecidable:
        if strict:
            raise
        return {}
    return marks


def named(condition: Formula, fact: str) -> tuple[str, ...]:
    """The words a condition compares a fact with; none where it does more than compare."""
    return tuple(str(word) for word in marked(condition).get(fact, ()))


def fixed(name: str, node: Node) -> Fact:
    """The value a fact is compared with."""
    kind = FACTS[name].kind
    if isinstance(kind, Text):
        assert isinstance(node, Word | Number)
        return node.word if isinstance(node, Word) else node.written
    assert isinstance(kind, Dimension)
    unit = None
    if isinstance(node, Literal):
        if node.is_point and kind is DIFFERENCE:
            node = node.as_difference()
        unit = node.quantity.unit.symbol
    number = node.number({})
    if kind is COUNT:
        return number
    fitting = unit if unit is not None and find_unit(unit, kind) is not None else None
    return Quantity.of_base(number, kind, fitting)


def samples_of(
    name: str, values: list[Fact], domain: Domain, worked_out: bool = False
) -> tuple[Sample, ...]:
    """One sample for each piece that these values cut a fact into, numbers rising."""
    if isinstance(FACTS[name].kind, Text):
        return _words(name, values, domain.words)
    return _numbers(name, values, domain, worked_out)


def _words(
    name: str, named: list[Fact], allowed: Mapping[str, tuple[str, ...]]
) -> tuple[Sample, ...]:
    kind = FACTS[name].kind
    assert isinstance(kind, Text)
    closed = allowed.get(name) or (kind.words if len(kind.words) <= _WORDS else ())
    words = closed or (*(str(word) for word in named), OTHER)
    return tuple(Sample(word) for word in dict.fromkeys(words))


def _numbers(name: str, values: list[Fact], domain: Domain, worked_out: bool) -> tuple[Sample, ...]:
    """The points and the stretches between them, rising."""
    least, greatest = domain.ends.get(name, (None, None))
    ends = [end for end in (least, greatest) if end is not None]
    by_size: dict[Fraction, Amount] = {}
    for value in (*values, *ends):
        assert not isinstance(value, str | Words)
        amount = value if isinstance(value, Quantity) else Fraction(value)
        if (least is None or size(amount) >= size(least)) and (
            greatest is None or size(amount) <= size(greatest)
        ):
            by_size.setdefault(size(amount), amount)
    points = [by_size[number] for number in sorted(by_size)]
    if not points:
        kind = FACTS[name].kind
        assert isinstance(kind, Dimension)
        # Nothing tells its values apart; where a formula needs it, no value is representative.
        return () if worked_out else (Sample(_amount(Fraction(1), kind, None)),)
    samples: list[Sample] = []
    if least is None and not worked_out:
        samples.append(Sample(_beyond(points[0], -1), None, points[0]))
    for number, point in enumerate(points):
        samples.append(Sample(point, point, point))
        if number + 1 < len(points):
            samples += _between(point, points[number + 1], _CELLS_BETWEEN if worked_out else 1)
    if greatest is None and not worked_out:
        samples.append(Sample(_beyond(points[-1], 1), points[-1], None))
    return tuple(samples)


def _between(low: Amount, high: Amount, count: int) -> list[Sample]:
    first, step = size(low), (size(high) - size(low)) / (count + 1)
    return [Sample(like(low, first + step * (n + 1)), low, high) for n in range(count)]


def _beyond(end: Amount, sign: int) -> Amount:
    """A value past the end; below a positive one it stays positive, as sizes do."""
    number = size(end)
    return like(end, number / 2 if sign < 0 < number else number + sign)


def like(amount: Amount, number: Fraction) -> Amount:
    """A number in the canonical unit as an amount shown in the unit of another."""
    if isinstance(amount, Quantity):
        unit = amount.unit
        return Quantity.of(unit.from_canonical(number), unit.symbol, amount.dimension)
    return number


def _amount(number: Fraction, kind: Dimension, unit: str | None) -> Amount:
    return number if kind is COUNT else Quantity.of_base(number, kind, unit)
