"""Which values of a text lie outside what the trade would call plausible.

Every type of quantity declares its usual range where its field is declared, in the words of the
language: `5 .. 60 mm`; ranges on several hardness scales, or for several elements, are parted by
commas; a lone 0 says that zero is usual besides the range. The ranges are common practice, without
a source: wide enough for the work of the trade, narrow enough for most slips of unit or digits.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache
from typing import Any, NamedTuple

from hts.base.quantities import COUNT, LENGTH, MASS_FRACTION, RATE, Interval, Quantity, symbols_of
from hts.base.quantities.dimensions import Dimension
from hts.base.quantities.number import read_number
from hts.language.vocabulary.declare import BLOCK, Entry, Field
from hts.language.vocabulary.demand_text import DemandText
from hts.language.vocabulary.demanded import Demanded, Test, stated
from hts.language.vocabulary.formulas import Expression, FormulaText
from hts.language.vocabulary.types import (
    ByRule,
    ElementShare,
    Multiple,
    OffsetValue,
    Share,
    Type,
    Width,
    WidthValue,
)
from hts.syntax.formula import CONDITION, Fact, Formula, FormulaError, UnknownFact

#: Quantities written in formulas and conditions, by dimension.
LITERALS = {
    # `max(0 in, t - 2 in)`: what a thickness is more than another.
    "length": "0, 1 .. 6000 mm",
    "time": "0, 1 min .. 200 h",
    "temperature": "-50 .. 1150 degC",
    "rate": "10 .. 600 degC/h",
    "mass fraction": "0 .. 30 %",
    "time per length": "0.4 .. 30 min/mm",
    "stress": "200 .. 1200 MPa",
}
#: Of these facts, what conditions compare them with.
COMPARED = {
    **dict.fromkeys(
        ("t", "wall", "thicker_wall", "thinner_wall", "weld_thickness", "run_wall", "branch_wall"),
        "1 .. 300 mm",
    ),
    **dict.fromkeys(("throat", "groove_depth", "fillet_cover", "cap_width"), "1 .. 150 mm"),
    # Lines that are heat-treated begin at about NPS 1: what is less tells no welds apart.
    "outside_diameter": "30 .. 6000 mm",
    "inside_diameter": "26 .. 6000 mm",
    "inside_radius": "13 .. 3000 mm",
    "girth": "95 .. 19000 mm",
    "soak_band": "30 .. 400 mm",
    "heated_band": "100 .. 3000 mm",
    **dict.fromkeys(("carbon", "specified_carbon"), "0.02 .. 0.6 %"),
    **dict.fromkeys(("chromium", "least_chromium", "filler_chromium"), "0.1 .. 30 %"),
    "manganese": "0.2 .. 3 %",
    "filler_nickel_manganese": "0.2 .. 3 %",
    "preheat": "5 .. 400 degC",
    "qualified_preheat": "5 .. 400 degC",
    "qualified_hold": "10 min .. 30 h",
}
#: Widths as multiples of the wall, in total.
MULTIPLES = "1 .. 24"


class Strange(NamedTuple):
    """A value outside its usual range: where it is written, and in which field.

    ``usual`` holds the ranges it is compared with; ``what`` adds to the words of the field.
    """

    entry: Entry
    field: Field
    value: Quantity | Fraction
    usual: tuple[Interval, ...]
    what: str = ""

    @property
    def other_unit(self) -> str:
        """The one unit with which the digits written would be usual, or ""."""
        if not isinstance(self.value, Quantity) or self.value.dimension is COUNT:
            return ""
        unit = self.value.unit
        number = unit.from_canonical(self.value.value)
        fits = []
        for symbol in symbols_of(self.value.dimension):
            other = Quantity.of(number, symbol, self.value.dimension)
            if other.unit.scale == unit.scale and _within(other, self.usual):
                fits.append(symbol)
        return fits[0] if len(fits) == 1 else ""


def strange(entry: Entry) -> Iterator[Strange]:
    """The values outside their usual range in an entry and all below it, in the order written.

    Only what the text itself writes: what a joint takes over from another is told there.
    """
    plan = _plan(type(entry))
    for name in entry.places:
        found = plan.get(name)
        if found is None:
            continue
        field, usual = found
        value = getattr(entry, name)
        for each in value if field.many else (value,):
            if not usual:
                if isinstance(each, Entry) and each.sound:
                    yield from strange(each)
            elif not _plain(each, usual):
                yield from _judge(entry, field, each)


#: Stands for the ranges of the fields that a demand is about.
_DEMANDED = "as demanded"
#: Ends of the ranges that are single, by declaration, as numerators and denominators: comparing
#: whole numbers takes a fifth of what comparing fractions does. An empty range for the others.
_BOUNDS: dict[str, tuple[int, int, int, int]] = {}
_PLANS: dict[type[Entry], dict[str, tuple[Field, str]]] = {}


def _plan(cls: type[Entry]) -> dict[str, tuple[Field, str]]:
    """The fields of an entry that hold quantities, with their usual range, or other entries."""
    known = _PLANS.get(cls)
    if known is not None:
        return known
    found = _PLANS[cls] = {}
    for name, field in cls.fields.items():
        if field.form == BLOCK:
            found[name] = field, ""
        elif isinstance(field.type, Expression):
            found[name] = field, field.type.usual or MULTIPLES
        elif isinstance(field.type, DemandText):
            found[name] = field, _DEMANDED
        elif field.type is not None and field.type.usual:
            found[name] = field, field.type.usual
    return found


def _plain(value: object, usual: str) -> bool:
    """Whether a value lies in a range that is one for all scales: the common case, told fast."""
    if isinstance(value, Quantity):
        return _lies_in(value, usual)
    if isinstance(value, Interval):
        ends = (value.low, value.high)
        return all(end is None or _lies_in(end, usual) for end in ends)
    if isinstance(value, OffsetValue):
        return _lies_in(value.distance, usual)
    if isinstance(value, int):
        return _lies_in_counts(value, usual)
    if isinstance(value, WidthValue):
        amount = value.amount
        return isinstance(amount, Quantity) and _lies_in(
            amount * 2 if value.each_side else amount, usual
        )
    if isinstance(value, ByRule):
        return True
    if isinstance(value, Share):
        key = f"{usual} {value.element}"
        if key not in _BOUNDS:
            _BOUNDS[key] = _bounds(ranges(usual, value.fraction, value.element))
        return _between(value.fraction.value, _BOUNDS[key])
    return False


def _lies_in(value: Quantity, usual: str) -> bool:
    return _between(value.value, _BOUNDS.get(usual) or _first_bounds(usual, value.dimension))


def _lies_in_counts(value: int, usual: str) -> bool:
    return _between(value, _BOUNDS.get(usual) or _first_bounds(usual, COUNT))


def _first_bounds(usual: str, dimension: Dimension) -> tuple[int, int, int, int]:
    found = _BOUNDS[usual] = _bounds([each for _, each in read(usual, dimension)])
    return found


def _between(value: Fraction | int, bounds: tuple[int, int, int, int]) -> bool:
    number, parts = value.numerator, value.denominator
    low, low_parts, high, high_parts = bounds
    return low * parts <= number * low_parts and number * high_parts <= high * parts


def _bounds(usual: Sequence[Interval]) -> tuple[int, int, int, int]:
    """The ends of a single range, a lone zero beside it left out; an empty range for all else."""
    wide = [each for each in usual if each.low != each.high]
    low, high = (wide[0].low, wide[0].high) if len(wide) == 1 else (None, None)
    if low is None or high is None:
        return 1, 1, 0, 1
    first, last = low.value, high.value
    return first.numerator, first.denominator, last.numerator, last.denominator


def _judge(entry: Entry, field: Field, value: Any) -> Iterator[Strange]:
    assert field.type is not None
    if isinstance(value, Demanded):
        for test in value.tests:
            yield from _judge_demand(entry, field, test)
        return
    if isinstance(value, FormulaText) and isinstance(field.type, Expression):
        yield from _judge_formula(entry, field, field.type, value.text)
        return
    for part, what in _parts(value):
        usual = ranges(MULTIPLES if what == "t" else field.type.usual, part, what)
        if usual and not _within(part, usual):
            yield Strange(entry, field, part, usual, "" if what == "t" else what)


def _judge_demand(entry: Entry, field: Field, test: Test) -> Iterator[Strange]:
    """The figures a demand names against the range of the field they are for."""
    type = stated(test.field)
    if isinstance(type, Width):
        yield from _judge_widths(entry, field, test)
        return
    if type is None or not type.usual:
        return
    for bound in (test.least, test.most, *test.among):
        if isinstance(bound, FormulaText):
            bound = _of_the_wall(bound.text, type)
        for part, _ in _parts(bound) if not isinstance(bound, str) else ():
            usual = ranges(type.usual, part, test.element)
            if usual and not _within(part, usual):
                yield Strange(entry, field, part, usual)


#: The wall that widths in multiples of it are tried with.
_WALL = Quantity.of(25, "mm", LENGTH)
_WALLS: dict[str, Fact] = dict.fromkeys(("t", "wall", "thicker_wall", "thinner_wall"), _WALL)


def _judge_widths(entry: Entry, field: Field, test: Test) -> Iterator[Strange]:
    """Widths demanded as figures, or as multiples of the wall; others lie in no one range."""
    usual = ranges(MULTIPLES, Fraction(1))
    type = stated(test.field)
    assert type is not None
    for bound in test.formulas:
        constant = _constant(bound.text)
        if constant is not None:
            of_field = ranges(type.usual, constant)
            if of_field and not _within(constant, of_field):
                yield Strange(entry, field, constant, of_field)
            continue
        try:
            width = Formula.parse(bound.text, LENGTH).evaluate(_WALLS)
        except (UnknownFact, FormulaError):
            continue
        if isinstance(width, Quantity) and "t" in Formula.parse(bound.text, LENGTH).names:
            times = width.value / _WALL.value
            if not _within(times, usual):
                yield Strange(entry, field, times, usual, "a width in t of")


def _of_the_wall(text: str, type: Type) -> Quantity | None:
    """What a formula comes to for a usual wall; None where it hangs on other facts."""
    dimension = getattr(type, "dimension", None)
    if not isinstance(dimension, Dimension):
        return None
    try:
        found = Formula.parse(text, dimension).evaluate(_WALLS)
    except (UnknownFact, FormulaError):
        return None
    return found if isinstance(found, Quantity) else None


def _constant(text: str) -> Quantity | None:
    """The length a formula comes to that hangs on no fact."""
    try:
        found = Formula.parse(text, LENGTH).evaluate({})
    except (UnknownFact, FormulaError):
        return None
    return found if isinstance(found, Quantity) else None


def _judge_formula(entry: Entry, field: Field, type: Expression, text: str) -> Iterator[Strange]:
    """A constant against the range of the field, else each quantity written against that of the
    fact it is compared with, or of its kind."""
    constant = None if type.wants is CONDITION else constant_of(text, type)
    if constant is not None:
        usual = ranges(type.usual, constant)
        if usual and not _within(constant, usual):
            yield Strange(entry, field, constant, usual)
        return
    compared = Formula.parse(text, type.wants).compared
    lengths = [written for _, written in compared if written.dimension is LENGTH]
    for fact, written in compared:
        kind = COMPARED.get(fact, LITERALS.get(written.dimension.name))
        usual = ranges(kind, written) if kind is not None else ()
        # EN 13445-4 prints 5500/e: `5500 K/h * 1 mm / t` is judged by what 25 mm make of it.
        meant = [written]
        if written.dimension is RATE:
            meant += [written * (length.value / _WALL.value) for length in lengths]
        if usual and not any(_within(value, usual) for value in meant):
            yield Strange(entry, field, written, usual)


def _parts(value: Any) -> Iterator[tuple[Quantity | Fraction, str]]:
    """The numbers of a value, each with the element it is the share of, or "t" for a multiple."""
    if isinstance(value, Quantity | int):
        yield (value if isinstance(value, Quantity) else Fraction(value)), ""
    elif isinstance(value, Interval):
        for end in (value.low, value.high):
            if end is not None:
                yield end, ""
    elif isinstance(value, WidthValue):
        times = 2 if value.each_side else 1
        if isinstance(value.amount, Multiple):
            yield read_number(value.amount.factor) * times, "t"
        else:
            yield value.amount * times if times > 1 else value.amount, ""
    elif isinstance(value, OffsetValue):
        yield value.distance, ""
    elif isinstance(value, Share):
        yield value.fraction, value.element
    elif isinstance(value, str):
        yield read_number(value), ""


def constant_of(text: str, type: Expression) -> Quantity | Fraction | None:
    """The value of a formula that hangs on no fact of the joint; None for any other."""
    try:
        found = Formula.parse(text, type.wants).evaluate({})
    except (UnknownFact, FormulaError):
        return None
    if isinstance(found, bool):
        return None
    return found if isinstance(found, Quantity | Fraction) else None


def _within(value: Quantity | Fraction, usual: tuple[Interval, ...]) -> bool:
    for each in usual:
        assert each.low is not None and each.high is not None
        if isinstance(value, Fraction):
            if each.low.value <= value <= each.high.value:
                return True
        elif each.low.value <= value.value <= each.high.value:
            return True
    return False


def ranges(usual: str, value: Quantity | Fraction, what: str = "") -> tuple[Interval, ...]:
    """The ranges that hold for a value: those of its element, on its scale of hardness."""
    dimension = value.dimension if isinstance(value, Quantity) else COUNT
    scale = value.unit.scale if isinstance(value, Quantity) else ""
    return tuple(
        each
        for element, each in read(usual, dimension)
        if element == (what if what != "t" else "")
        and (not scale or each.high is None or each.high.unit.scale == scale)
    )


@lru_cache(maxsize=512)
def read(usual: str, dimension: Dimension) -> tuple[tuple[str, Interval], ...]:
    """The ranges a declaration writes, each with its element ("" for none).

    Raises ValueError or QuantityError where the declaration cannot be read.
    """
    found: list[tuple[str, Interval]] = []
    zeros: list[str] = []
    for item in usual.split(", "):
        element, _, rest = item.partition(" ")
        if not element.isalpha():
            element, rest = "", item
        if rest == "0":
            zeros.append(element)
            continue
        if not element and zeros and zeros[-1]:
            # `C 0, 0.01 .. 0.6 %`: the range after the lone zero is of the same element.
            element = zeros[-1]
        found.append((element, Interval.read(rest, dimension)))
    for element in zeros:
        unit = next(each.high.unit.symbol for name, each in found if name == element and each.high)
        zero = Quantity.of(0, unit, dimension)
        found.append((element, Interval(zero, zero)))
    return tuple(found)


def dimension_of(type: Type) -> Dimension | None:
    """The dimension of the quantities a type takes; None for one that takes none."""
    stated = getattr(type, "stated", type)
    if isinstance(stated, Expression):
        return stated.wants if isinstance(stated.wants, Dimension) else None
    if isinstance(stated, Width):
        return LENGTH
    if isinstance(stated, ElementShare):
        return MASS_FRACTION
    known = getattr(stated, "dimension", None)
    return known if isinstance(known, Dimension) else None
