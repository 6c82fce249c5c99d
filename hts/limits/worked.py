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
from hts.limits.cells import Domain
from hts.limits.demand import Amount, size
from hts.limits.limit import Limit
from hts.limits.quantities import LIMITED, Direction
from hts.limits.strictest import Strictest
from hts.syntax.formula import Fact, FormulaError, UnknownFact

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
        return applies(self.row, weld.facts)


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
        welds = _welds(group, names, domain)
        strictest = Strictest(group, direction, [weld.facts for weld in welds])
        bounds = tuple(
            (weld, None if found is None else Bound(weld, *found))
            for weld, found in zip(welds, strictest, strict=True)
        )
        yield Column(quantity, direction, tuple(group), bounds)


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
    pieces = [
        _piece(wall, nominal, Fraction(str(outside)), kind)
        for nominal, outside in pipes
        for wall in walls
        if wall * 4 < Fraction(str(outside))
    ]
    return [
        Weld(metal, wall, outside, facts | _of_metal(metal))
        for metal in metals
        for wall, outside, facts in pieces
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


_Piece = tuple[Fraction, Fraction, dict[str, Fact]]
"""Wall and outside diameter in mm, and the facts that hang on them."""


@lru_cache(maxsize=256)
def _piece(wall: Fraction, nominal: int, outside: Fraction, kind: str) -> _Piece:
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
    return wall, outside, facts


def _of_metal(metal: str) -> dict[str, Fact]:
    if not metal:
        return {}
    critical = Quantity.of(CRITICAL[metal], "degC", TEMPERATURE)
    return {"p_number": metal, "lower_critical": critical, "filler_lower_critical": critical}


#: Lower critical temperatures typical of the metals in degC, from memory.
CRITICAL = {"1": 725, "3": 735, "4": 775, "5A": 805, "5B": 820, "15E": 800}


def _mm(number: Fraction) -> Quantity:
    return Quantity.of(number, "mm", LENGTH)


def _is_for(row: Limit, facts: Mapping[str, Fact]) -> bool:
    return all(facts.get(name) in words for name, words in row.where.items())


def applies(row: Limit, facts: Mapping[str, Fact]) -> bool:
    """Whether a row holds where these are the facts; not where they do not tell."""
    if not _is_for(row, facts):
        return False
    if row.when is None:
        return True
    try:
        return row.when.holds(facts)
    except (UnknownFact, FormulaError):
        return False
