"""The rows of a procedure or a book worked out: every metal, wall and size they are for.

A formula reads well and still gives 1500 degC/h at the thinnest wall, or less for a thick wall than
for a thin one. So each quantity is worked out in a small grid of typical welds, the strictest row
counting in each, and what comes out is looked at: whether it is plausible, and whether it goes the
way it has to as more metal is joined.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple

from hts.base.quantities import LENGTH, TEMPERATURE, TIME, Quantity
from hts.limits.alternatives import value
from hts.limits.cells import Domain
from hts.limits.demand import Amount, size
from hts.limits.limit import Limit
from hts.limits.quantities import LIMITED, Direction
from hts.syntax.formula import Fact, Formula, FormulaError, UnknownFact

#: Facts that are one length where two equal pipes are joined.
THICKNESSES = ("t", "wall", "thicker_wall", "thinner_wall", "weld_thickness")
_SIZES = ("outside_diameter", "inside_diameter", "inside_radius", "girth", "nominal_size")
#: Common pipe sizes: outside diameter in mm, by nominal size in inches (ASME B36.10M).
_PIPES = ((4, 114.3), (24, 610.0))
_WALLS = (6, 16, 40, 100)
#: Metals from the one that hardens least to the one that hardens most.
ALLOYS = ("1", "3", "4", "5A", "5B", "15E")
#: A step in a condition is looked at this close on both sides.
_CLOSE = Fraction(1, 100000)


class Weld(NamedTuple):
    """A typical weld: P-number ("" where rows do not tell metals apart), wall and size in mm."""

    p_number: str
    wall: Fraction
    outside: Fraction
    facts: dict[str, Fact]


class Bound(NamedTuple):
    """What governs one weld: the value and the row that gives it."""

    weld: Weld
    row: Limit
    value: Amount

    @property
    def number(self) -> Fraction:
        """The value in the canonical unit of its quantity."""
        return size(self.value)

    def holds_for(self, weld: Weld) -> bool:
        """Whether the row holds for another weld, too."""
        return _applies(self.row, weld.facts)


class Column(NamedTuple):
    """One quantity in one direction, worked out: a bound, or None, for each weld."""

    quantity: str
    direction: Direction
    rows: tuple[Limit, ...]
    bounds: tuple[tuple[Weld, Bound | None], ...]

    def lines(self) -> Iterator[list[tuple[Weld, Bound | None]]]:
        """The welds of one metal and size each, from the thinnest wall to the thickest."""
        found: dict[tuple[str, Fraction], list[tuple[Weld, Bound | None]]] = {}
        for weld, bound in self.bounds:
            found.setdefault((weld.p_number, weld.outside), []).append((weld, bound))
        yield from found.values()


def columns(rows: Iterable[Limit], domain: Domain) -> Iterator[Column]:
    """The rows by what they limit, worked out. Rows for an option, for where others are silent and
    those that hang on facts a typical weld does not have stay out."""
    groups: dict[tuple[str, Direction, str], list[Limit]] = {}
    for row in rows:
        if row.option is not None or row.silent or row.quantity not in LIMITED:
            continue
        for direction in ("minimum", "maximum"):
            if direction in row.parts():
                step = "".join(
                    "" if formula is None else formula.text for formula in (row.above, row.within)
                )
                groups.setdefault((row.quantity, direction, step), []).append(row)
    for (quantity, direction, _), group in groups.items():
        names = set(_names(group, direction))
        if not names & {*THICKNESSES, *_SIZES, "p_number", *_WIDTHS, *_OTHERS}:
            continue
        strictest = _Strictest(group, direction)
        bounds = ((weld, strictest.of(weld)) for weld in _welds(group, names, domain))
        yield Column(quantity, direction, tuple(group), tuple(bounds))


_WIDTHS = ("cap_width", "soak_band", "heated_band")
_OTHERS = ("qualified_hold", "lower_critical", "filler_lower_critical")


def _names(rows: Sequence[Limit], direction: Direction) -> Iterator[str]:
    for row in rows:
        yield from row.names((direction, "when"))
        yield from row.where


def welds_of(rows: Sequence[Limit], domain: Domain) -> list[Weld]:
    """The welds that tell the rows of several quantities apart, within what they are for: of a
    step in a condition the last weld before it and the first after it are enough."""
    names = {name for way in ("minimum", "maximum") for name in _names(rows, way)}
    return _welds(rows, names, domain)


def _welds(rows: Sequence[Limit], names: set[str], domain: Domain) -> list[Weld]:
    """The welds that tell these rows apart, within what they are for."""
    metals: tuple[str, ...] = ("",)
    if "p_number" in names or names & set(_OTHERS):
        listed = domain.words.get("p_number", ALLOYS)
        metals = tuple(metal for metal in ALLOYS if metal in listed) or ("",)
    thick = bool(names & {*THICKNESSES, *_WIDTHS, "inside_radius", "inside_diameter"})
    walls = _walls(rows, domain) if thick else [Fraction(16)]
    kind = domain.words.get("weld_kind", ("girth-butt",))[0]
    pipes = [pipe for pipe in _PIPES if _inside(Fraction(str(pipe[1])), domain, "outside_diameter")]
    if not names & {*_SIZES, *_WIDTHS} or not pipes:
        pipes = [(12, 323.9)]
    return [
        _weld(metal, wall, nominal, Fraction(str(outside)), kind)
        for metal in metals
        for nominal, outside in pipes
        for wall in walls
        if wall * 4 < Fraction(str(outside))
    ]


def _walls(rows: Sequence[Limit], domain: Domain) -> list[Fraction]:
    """Walls in mm: common ones, the ends of what the rows are for, and both sides of each step."""
    low, high = domain.ends.get("thicker_wall", (None, None))
    found = {Fraction(wall) for wall in _WALLS}
    found |= {size(end) for end in (low, high) if end is not None}
    for row in rows:
        if row.when is not None and set(row.when.names) & set(THICKNESSES):
            for step in row.when.literals:
                if step.dimension is LENGTH:
                    found |= {step.value * (1 + near) for near in (-_CLOSE, 0, _CLOSE)}
    # Where nothing says for which walls, common ones will do.
    ends = (
        size(low) if low is not None else Fraction(5),
        size(high) if high is not None else Fraction(60),
    )
    return sorted(wall for wall in found if ends[0] <= wall <= ends[1])


def _inside(number: Fraction, domain: Domain, name: str) -> bool:
    low, high = domain.ends.get(name, (None, None))
    return (low is None or size(low) <= number) and (high is None or number <= size(high))


@lru_cache(maxsize=256)
def _weld(metal: str, wall: Fraction, nominal: int, outside: Fraction, kind: str) -> Weld:
    inside = outside - 2 * wall
    cap = wall + 5
    soak = cap + 2 * min(wall, Fraction(50))
    facts: dict[str, Fact] = dict.fromkeys((*THICKNESSES, "run_wall", "branch_wall"), _mm(wall))
    facts |= {
        "outside_diameter": _mm(outside),
        "inside_diameter": _mm(inside),
        "inside_radius": _mm(inside / 2),
        "girth": _mm(outside * Fraction(355, 113)),
        "nominal_size": Fraction(nominal),
        "weld_kind": kind,
        "more_alloyed": "yes",
        "cap_width": _mm(cap),
        "soak_band": _mm(soak),
        "heated_band": _mm(soak + 4 * Fraction(round(float(inside / 2 * wall) ** 0.5))),
        "qualified_hold": Quantity.of(5, "h", TIME),
    }
    if metal:
        facts["p_number"] = metal
        critical = Quantity.of(CRITICAL[metal], "degC", TEMPERATURE)
        facts |= {"lower_critical": critical, "filler_lower_critical": critical}
    return Weld(metal, wall, outside, facts)


#: Lower critical temperatures typical of the metals in degC, from memory.
CRITICAL = {"1": 725, "3": 735, "4": 775, "5A": 805, "5B": 820, "15E": 800}


def _mm(number: Fraction) -> Quantity:
    return Quantity.of(number, "mm", LENGTH)


#: A row whose bound hangs on facts, its formula, and its condition, read once.
_Varying = tuple[Limit, Formula, Formula | None]


class _Strictest:
    """Finds the strictest of some rows that hold for a weld. Hundreds of rows cost little: those
    for another metal are left out, and those with fixed values asked from the strictest on, until
    one holds."""

    def __init__(self, rows: Sequence[Limit], direction: Direction) -> None:
        self.direction = direction
        self.sign = 1 if direction == "minimum" else -1
        self.varying: list[_Varying] = []
        fixed: list[tuple[Limit, Amount]] = []
        for row in rows:
            formula = getattr(row, direction)
            if formula.names:
                self.varying.append((row, formula, row.when))
            elif (found := value(formula, {})) is not None:
                fixed.append((row, found))
        # Of rows that ask for the same the first counts.
        self.fixed = sorted(fixed, key=lambda each: -self.sign * size(each[1]))
        self.by_words: dict[
            tuple[Fact, ...], tuple[list[tuple[Limit, Amount]], list[_Varying]]
        ] = {}

    def of(self, weld: Weld) -> Bound | None:
        fixed, varying = self._for_words(weld)
        bounds = []
        for row, amount in fixed:
            if _applies(row, weld.facts):
                bounds.append(Bound(weld, row, amount))
                break
        strictest = self._strictest(varying, weld.facts)
        if strictest is not None:
            found = value(getattr(strictest, self.direction), weld.facts)
            if found is not None:
                bounds.append(Bound(weld, strictest, found))
        return max(bounds, key=lambda bound: self.sign * bound.number, default=None)

    def _strictest(self, rows: Sequence[_Varying], facts: Mapping[str, Fact]) -> Limit | None:
        """Of those that apply the first that asks for most, by numbers alone."""
        best, strictest = None, None
        for row, formula, when in rows:
            if row.where and not _is_for(row, facts):
                continue
            try:
                number = formula.number(facts)
                if number is None or (best is not None and not self._exceeds(number, best)):
                    continue  # whether it applies makes no difference
                if when is not None and not when.holds(facts):
                    continue
            except (UnknownFact, FormulaError):
                continue
            best, strictest = number, row
        return strictest

    def _exceeds(self, number: Fraction, best: Fraction) -> bool:
        return number > best if self.sign > 0 else number < best

    def _for_words(self, weld: Weld) -> tuple[list[tuple[Limit, Amount]], list[_Varying]]:
        """The rows that what a weld is called, its metal above all, leaves possible."""
        words = {name: fact for name, fact in weld.facts.items() if isinstance(fact, str)}
        key = tuple(words.values())
        if key not in self.by_words:
            self.by_words[key] = (
                [(row, amount) for row, amount in self.fixed if _may_apply(row, words)],
                [each for each in self.varying if _may_apply(each[0], words)],
            )
        return self.by_words[key]


class _Some(dict[str, Fact]):
    """Some of the facts of a weld: whether another is known is open, not denied."""

    def __contains__(self, name: object) -> bool:
        if not super().__contains__(name):
            raise UnknownFact([str(name)])
        return True


def _may_apply(row: Limit, words: Mapping[str, Fact]) -> bool:
    """Whether a row may hold where these of the facts are known."""
    try:
        return row.when is None or row.when.holds(_Some(words))
    except (UnknownFact, FormulaError):
        return True


def _is_for(row: Limit, facts: Mapping[str, Fact]) -> bool:
    return all(facts.get(name) in words for name, words in row.where.items())


def _applies(row: Limit, facts: Mapping[str, Fact]) -> bool:
    if not _is_for(row, facts):
        return False
    if row.when is None:
        return True
    try:
        return row.when.holds(facts)
    except (UnknownFact, FormulaError):
        return False
