"""An exact value with its dimension and the unit it was written in."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from sys import float_info

from hts.base.quantities import reading
from hts.base.quantities.dimensions import Dimension, difference_of
from hts.base.quantities.errors import QuantityError
from hts.base.quantities.number import (
    LONGEST,
    decimal_text,
    exact_places,
    places_for,
    short_text,
)
from hts.base.quantities.units import Unit, find_unit, is_unit

Number = int | Fraction
_COMPUTED_FIGURES = 4
_CONVERTED_FIGURES = 3


class Quantity:
    """A value of one dimension. Immutable; equal and hashed by value, not by unit.

    `value` is exact, in the canonical unit of `dimension`; `unit` is the unit as written; `written`
    is the text as written, or as shown when the quantity was computed. `beside` is the figure of
    the other system that its source prints beside it, None as a rule; arithmetic drops it.
    Comparing or adding across dimensions or hardness scales is a TypeError, and so is adding two
    points or scaling one.
    """

    __slots__ = ("_decimals", "_shown", "_written", "beside", "dimension", "unit", "value")

    value: Fraction
    dimension: Dimension
    unit: Unit
    beside: Quantity | None
    _written: str
    _shown: str
    _decimals: int | None

    def __init__(
        self,
        value: Fraction,
        unit: Unit,
        written: str = "",
        shown: str = "",
        decimals: int | None = None,
        beside: Quantity | None = None,
    ) -> None:
        """For this package: `read` and `of` are the ways to make one elsewhere."""
        put = object.__setattr__
        put(self, "value", value)
        put(self, "dimension", unit.dimension)
        put(self, "unit", unit)
        put(self, "beside", beside)
        put(self, "_decimals", decimals)
        put(self, "_shown", shown)
        put(self, "_written", written)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError("a quantity does not change")

    def __reduce__(self) -> tuple[type[Quantity], tuple[object, ...]]:
        known = (self.value, self.unit, self._written, self._shown, self._decimals, self.beside)
        return Quantity, known

    @staticmethod
    def read(text: str, dimension: Dimension) -> Quantity:
        """The quantity `text` writes, such as `25.4 mm`, `1 1/2 in` or `2 h 30 min`.

        `degC` and `degF` are points for a temperature and differences for a temperature
        difference; `K` is a difference only. Raises QuantityError. Repeated texts cost nothing.
        """
        return _read(text, dimension)

    @staticmethod
    def of(number: Number | str, unit: str, dimension: Dimension) -> Quantity:
        """`number` of `unit`, exact. Raises QuantityError; TypeError for a float."""
        if isinstance(number, str):
            return _read(f"{number} {unit}", dimension)
        known = _fitting_unit(unit, dimension)
        return Quantity(known.to_canonical(_exact(number)), known)

    @staticmethod
    def rounded(number: float, places: int, unit: str, dimension: Dimension) -> Quantity:
        """A number that was worked out, shown with so many decimals; however large it came to be,
        as what is written is limited in its letters and what follows from it is not."""
        number = min(number, float_info.max)
        text = f"{number:.{places}f}"
        if len(text) <= LONGEST:
            return _read(f"{text} {unit}", dimension)
        return Quantity.of(Fraction(number), unit, dimension)

    @staticmethod
    def of_base(value: Number, dimension: Dimension, unit: str | None = None) -> Quantity:
        """The quantity whose `base_value` is `value`; shown in `unit` or the canonical unit."""
        known = _fitting_unit(dimension.canonical if unit is None else unit, dimension)
        return Quantity(_exact(value) / dimension.coherent, known)

    @property
    def spelling(self) -> str:
        """The text it was read from; "" for one that was computed."""
        return self._written

    @property
    def written(self) -> str:
        return self._written or str(self)

    @property
    def base_value(self) -> Fraction:
        """The value in the coherent base units (mm, s, K, kg, A) that formulas multiply."""
        coherent = self.dimension.coherent
        return self.value if coherent == 1 else self.value * coherent

    def to(self, unit: str) -> Fraction:
        """The number of `unit` this is, exact. QuantityError for a unit that does not fit."""
        return self._unit_for(unit).from_canonical(self.value)

    def in_unit(self, unit: str) -> Quantity:
        """The same value, to be shown in `unit`."""
        known = self._unit_for(unit)
        kept = self.beside if known.system == self.unit.system else None
        return Quantity(self.value, known, beside=kept)

    def with_beside(self, other: Quantity) -> Quantity:
        """The same, printed beside a figure of the other system of units."""
        self._require_same(other, "print")
        return Quantity(
            self.value, self.unit, self._written, self._shown, self._decimals, beside=other
        )

    def number_shown(self, unit: str, toward: str = "nearest") -> Fraction:
        """The number of `unit` to show as a least value (`toward` "up") or a greatest ("down"): in
        the other system never looser than the figure printed there."""
        exact = self.to(unit)
        beside = self.beside
        if beside is None or toward == "nearest" or self._unit_for(unit).system == self.unit.system:
            return exact
        return (max if toward == "up" else min)(exact, beside.to(unit))

    def show(
        self, unit: str | None = None, places: int | None = None, toward: str = "nearest"
    ) -> str:
        """The quantity as text, in `unit` or the unit as written.

        Without `unit` and `places` these are the digits as written. With `places`, exactly so many
        decimals; else as many as the written value carries, at least three figures. `toward` "up"
        never shows less than the value and "down" never more, so that a rounded minimum still
        meets the minimum. A computed value without `places` has at most four figures.
        """
        if unit is None and places is None and (self._decimals is not None or toward == "nearest"):
            return str(self)
        target = self.unit if unit is None else self._unit_for(unit)
        number = self.number_shown(target.symbol, toward)
        if places is not None:
            text = decimal_text(number, places, toward)
        elif self._decimals is None:
            text = _computed_text(number, toward)
        else:
            text = short_text(number, self._places_in(target, number), toward)
        return f"{text} {target.symbol}".rstrip()

    def both(self, toward: str = "nearest") -> str:
        """As written and, in brackets, in the other system: `705 degC (1301 degF)`.

        Units usual in both systems have nothing in brackets. `toward` as in `show`.
        """
        first = self.show(toward=toward)
        if self.unit.partner is None:
            return first
        return f"{first} ({self.show(self.unit.partner, toward=toward)})"

    def _unit_for(self, symbol: str) -> Unit:
        unit = _fitting_unit(symbol, self.dimension)
        if unit.scale != self.unit.scale:
            raise TypeError(f"{self.unit.scale} does not convert to {unit.scale}")
        return unit

    def _places_in(self, target: Unit, number: Fraction) -> int:
        """Decimals whose step is nearest to, and at most twice, the one the digits written have."""
        step = self.unit.factor / target.factor / 10 ** (self._decimals or 0)
        places = places_for(number, _CONVERTED_FIGURES)
        while 2 * step * 10**places < 1:
            places += 1
        return places

    def __str__(self) -> str:
        # Most computed quantities are compared and never shown, so the text is made on request.
        if not self._shown:
            number = self.unit.from_canonical(self.value)
            shown = f"{_computed_text(number)} {self.unit.symbol}".rstrip()
            object.__setattr__(self, "_shown", shown)
        return self._shown

    def __repr__(self) -> str:
        return f"<Quantity {self.dimension.name} {self}>"

    def __hash__(self) -> int:
        return hash((self.dimension.name, self.unit.scale, self.value))

    def _over_one(self, other: Quantity) -> tuple[int, int]:
        """Both values over one denominator: whole numbers are compared in a fifth of the time."""
        if self.dimension is not other.dimension or self.unit.scale != other.unit.scale:
            self._require_same(other, "compare")
        value, against = self.value, other.value
        return value.numerator * against.denominator, against.numerator * value.denominator

    def _require_same(self, other: Quantity, verb: str) -> None:
        if self.dimension is not other.dimension:
            raise TypeError(f"cannot {verb} {self.dimension.name} and {other.dimension.name}")
        if self.unit.scale != other.unit.scale:
            raise TypeError(f"cannot {verb} {self.unit.scale} and {other.unit.scale}")

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        value, against = self._over_one(other)
        return value == against

    def __lt__(self, other: Quantity) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        value, against = self._over_one(other)
        return value < against

    def __le__(self, other: Quantity) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        value, against = self._over_one(other)
        return value <= against

    def __gt__(self, other: Quantity) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        value, against = self._over_one(other)
        return value > against

    def __ge__(self, other: Quantity) -> bool:
        if not isinstance(other, Quantity):
            return NotImplemented
        value, against = self._over_one(other)
        return value >= against

    def __add__(self, other: Quantity) -> Quantity:
        if not isinstance(other, Quantity):
            return NotImplemented
        if self.dimension.point and other.dimension.point:
            raise TypeError("two temperatures do not add; add a temperature difference to one")
        if self.dimension.point and other.dimension is difference_of(self.dimension):
            return Quantity(self.value + other.value, self.unit)
        if other.dimension.point and self.dimension is difference_of(other.dimension):
            return Quantity(self.value + other.value, other.unit)
        self._require_same(other, "add")
        return Quantity(self.value + other.value, self.unit)

    def __sub__(self, other: Quantity) -> Quantity:
        if not isinstance(other, Quantity):
            return NotImplemented
        if self.dimension.point and other.dimension is difference_of(self.dimension):
            return Quantity(self.value - other.value, self.unit)
        self._require_same(other, "subtract")
        unit = self.unit
        if self.dimension.point:
            # A difference in degC is one in K, and is written so.
            symbol = "K" if unit.symbol == "degC" else unit.symbol
            unit = _fitting_unit(symbol, difference_of(self.dimension))
        return Quantity(self.value - other.value, unit)

    def __neg__(self) -> Quantity:
        return self * -1

    def __abs__(self) -> Quantity:
        return self * (1 if self.value >= 0 else -1)

    def __mul__(self, factor: Number) -> Quantity:
        if not isinstance(factor, int | Fraction):
            return NotImplemented
        if self.dimension.point:
            raise TypeError("a temperature cannot be scaled; a temperature difference can")
        return Quantity(self.value * factor, self.unit)

    __rmul__ = __mul__

    def __truediv__(self, divisor: Number) -> Quantity:
        if not isinstance(divisor, int | Fraction):
            return NotImplemented
        if self.dimension.point:
            raise TypeError("a temperature cannot be scaled; a temperature difference can")
        return Quantity(self.value / divisor, self.unit)

    def ratio_to(self, other: Quantity) -> Fraction:
        """How many times `other` this is. TypeError for points and across dimensions."""
        self._require_same(other, "divide")
        if self.dimension.point:
            raise TypeError("temperatures have no ratio; temperature differences do")
        return self.value / other.value


def _exact(number: Number) -> Fraction:
    if not isinstance(number, int | Fraction):
        raise TypeError(f"a quantity is made of an exact number, not {type(number).__name__}")
    return Fraction(number)


def _fitting_unit(symbol: str, dimension: Dimension) -> Unit:
    unit = find_unit(symbol, dimension)
    if unit is None:
        problem = "wrong dimension" if is_unit(symbol) else "unknown unit"
        raise QuantityError(problem, symbol, symbol, dimension)
    return unit


def _computed_text(number: Fraction, toward: str = "nearest") -> str:
    """Exact when that is short, else four figures."""
    places = exact_places(number)
    if places is None:
        places = places_for(number, _COMPUTED_FIGURES)
    return short_text(number, places, toward)


@lru_cache(maxsize=16384)
def _read(text: str, dimension: Dimension) -> Quantity:
    value, unit, decimals, shown = reading.read(text, dimension)
    return Quantity(value, unit, text.strip(), shown, decimals)
