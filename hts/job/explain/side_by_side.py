"""What several books ask of one joint, side by side, the strictest of each line marked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from hts.base.quantities import TIME, Quantity
from hts.base.quantities.duration import show_duration
from hts.checking.govern.joint import JointLimits
from hts.checking.govern.sources import Authority
from hts.job.explain.why import shown
from hts.language.model.joint import Joint, Treatment
from hts.limits import LIMITED, Demand, Governing
from hts.limits.demand import size
from hts.limits.quantities import Direction
from hts.syntax.formula import Text

_WORDS: dict[Direction, str] = {"minimum": "at least", "maximum": "at most", "exactly": "is"}
#: Longer times are told in hours and whole minutes.
_LONG = Quantity.of(10, "min", TIME)


class Cell(NamedTuple):
    """What one book says of one line; `value` is "" where it says nothing.

    `undecided` are the facts that rows of the book lack here. `governs`: nothing is stricter.
    """

    value: str
    citation: str = ""
    basis: str = ""
    confidence: str = ""
    side: str = ""
    undecided: tuple[str, ...] = ()
    governs: bool = False


class Line(NamedTuple):
    """One demand, such as `hold temperature`, `at least`, `above 315 degC`, of each book."""

    quantity: str
    word: str
    cells: tuple[Cell, ...]

    @property
    def heading(self) -> str:
        return f"{self.quantity} {self.word}".rstrip()


class Comparison(NamedTuple):
    """`address` of the joint or treatment; `books` head the cells of each line. `exclusive` names
    quantities for which the strictest of all leave nothing."""

    address: str
    books: tuple[str, ...]
    lines: tuple[Line, ...]
    exclusive: tuple[str, ...]


def compared(
    joint: Joint, treatments: Sequence[Treatment], books: Sequence[Authority]
) -> list[Comparison]:
    """One table for each treatment of a joint, or one of the joint alone where it has none."""
    return [
        _compared(joint, treatment, books, first=number == 0)
        for number, treatment in enumerate(treatments or [None])
    ]


def called(book: Authority) -> str:
    return f"{book.name} {book.edition}".rstrip()


def _compared(
    joint: Joint, treatment: Treatment | None, books: Sequence[Authority], first: bool
) -> Comparison:
    by_book = [JointLimits(joint, treatment, [book]).governing for book in books]
    lines: list[Line] = []
    exclusive = []
    for quantity, limited in LIMITED.items():
        if not _told(quantity, treatment, first) or not any(quantity in g for g in by_book):
            continue
        found = [governing.get(quantity) for governing in by_book]
        if isinstance(limited.kind, Text):
            lines += _status(quantity, limited.kind.words, found)
            continue
        for direction in limited.directions:
            for threshold in _thresholds(found, direction):
                lines += _bound(quantity, direction, threshold, found)
        if _excluded(found):
            exclusive.append(quantity)
    address = treatment.address if treatment is not None else joint.address
    return Comparison(address, tuple(map(called, books)), tuple(lines), tuple(exclusive))


def _told(quantity: str, treatment: Treatment | None, first: bool) -> bool:
    """Whether a quantity belongs to this table: what is the joint's own is in the first one."""
    subject = LIMITED[quantity].subject
    if subject == "bake":
        return treatment is not None and treatment.is_bake
    if subject == "cycle":
        return treatment is None or not treatment.is_bake
    return first


def _thresholds(found: Sequence[Governing | None], direction: Direction) -> list[Quantity | None]:
    """The temperatures at which a limit of some book begins, None for throughout, rising."""
    starts: dict[Any, Quantity | None] = {}
    for governing in found:
        for demand in governing.ordered(direction) if governing else ():
            starts[demand.above.value if demand.above else None] = demand.above
        if _undecided(governing, direction):
            starts.setdefault(None, None)
    rising = sorted(value for value in starts if value is not None)
    return [*([None] if None in starts else []), *(starts[value] for value in rising)]


def _bound(
    quantity: str,
    direction: Direction,
    threshold: Quantity | None,
    found: Sequence[Governing | None],
) -> Iterator[Line]:
    demands = [g.rate_at(threshold, direction) if g is not None else None for g in found]
    undecided = [_undecided(g, direction) for g in found]
    if not any(demands) and not (threshold is None and any(undecided)):
        return
    sign = -1 if direction == "maximum" else 1
    sizes = [None if d is None else sign * size(d.bounds[direction]) for d in demands]
    strictest = max((s for s in sizes if s is not None), default=None)
    cells = tuple(
        _cell(demand, _value(demand, direction), names, own is not None and own == strictest)
        for demand, own, names in zip(demands, sizes, undecided, strict=True)
    )
    above = f" above {threshold.both()}" if threshold is not None else ""
    yield Line(quantity, f"{_WORDS[direction]}{above}", cells)


def _status(
    quantity: str, words: Sequence[str], found: Sequence[Governing | None]
) -> Iterator[Line]:
    setters = [g.status_setter() if g is not None else None for g in found]
    ranks = [None if s is None else words.index(s.limit.status or "") for s in setters]
    strictest = min((rank for rank in ranks if rank is not None), default=None)
    undecided = [_undecided(g) for g in found]
    if strictest is None and not any(undecided):
        return
    yield Line(
        quantity,
        "",
        tuple(
            _cell(setter, _word(setter), names, setter is not None and rank == strictest)
            for setter, rank, names in zip(setters, ranks, undecided, strict=True)
        ),
    )


def _word(setter: Demand | None) -> str:
    if setter is None:
        return ""
    option = f"{setter.limit.option}: " if setter.limit.option else ""
    return f"{option}{setter.limit.status}"


def _undecided(governing: Governing | None, direction: Direction | None = None) -> tuple[str, ...]:
    """The facts that rows with such a bound lack."""
    if governing is None:
        return ()
    lacking = [
        name
        for item in governing.unanswered
        if direction is None or direction in item.limit.parts()
        for name in item.names
    ]
    return tuple(dict.fromkeys(lacking))


def _value(demand: Demand | None, direction: Direction) -> str:
    if demand is None:
        return ""
    within = f" within {demand.within.both()}" if demand.within is not None else ""
    at = f" at {', '.join(demand.limit.positions)}" if demand.limit.positions else ""
    bound = demand.both(direction)
    if isinstance(bound, Quantity) and bound.dimension is TIME and bound >= _LONG:
        text = show_duration(bound, "min", "down" if direction == "maximum" else "up")
    else:
        text = shown(bound, direction)
    return f"{text}{within}{at}"


def _cell(demand: Demand | None, value: str, undecided: tuple[str, ...], governs: bool) -> Cell:
    if demand is None:
        return Cell("", undecided=undecided)
    source = demand.limit.source
    return Cell(
        value,
        source.citation,
        source.basis,
        source.confidence,
        demand.side or "",
        undecided,
        governs,
    )


def _excluded(found: Sequence[Governing | None]) -> bool:
    """Whether a least of one book is above a greatest of another that holds together with it."""
    present = [g for g in found if g is not None]
    whole = Governing("", tuple(d for g in present for d in g.demands))
    return whole.conflict() is not None
