"""The functions a formula can call."""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

from hts.base.quantities import COUNT, Dimension
from hts.syntax.formula.errors import FormulaError
from hts.syntax.formula.nodes import Facts, Kinds, Node, unlike
from hts.syntax.formula.value_kinds import Kind, dimensionless, fits, with_powers

SQRT_DIGITS = 40
FUNCTIONS = {
    "sqrt": (1, 1),
    "abs": (1, 1),
    "max": (2, 20),
    "min": (2, 20),
    "round_up": (2, 2),
    "round_down": (2, 2),
    "round_to": (2, 2),
}
"""Name -> fewest and most arguments. round_up(x, step) is the next whole number of steps, for
rules such as "1 h per 25 mm or part of it"; round_down the one before, for rates in whole degrees;
round_to the nearest, a half away from zero."""


class Call(Node):
    """A function of numbers; all but sqrt give what their first argument is."""

    __slots__ = ("function",)

    def __init__(self, start: int, function: str, arguments: list[Node], end: int) -> None:
        super().__init__(start, end, *arguments)
        if function not in FUNCTIONS:
            known = ", ".join(FUNCTIONS)
            raise FormulaError(
                start, start + len(function), f"{function} is not a function", f"there are {known}"
            )
        fewest, most = FUNCTIONS[function]
        if not fewest <= len(arguments) <= most:
            number = str(fewest) if fewest == most else f"{fewest} to {most}"
            values = "value" if most == 1 else "values"
            raise self.error(f"{function} takes {number} {values}, not {len(arguments)}")
        self.function = function

    def kind(self, names: Kinds) -> Kind:
        first, *others = (part.dimension(names) for part in self.parts)
        if self.function == "sqrt":
            return self._root(first)
        for part, other in zip(self.parts[1:], others, strict=True):
            if not fits(other, first):
                raise self.error(unlike(self.parts[0], first, part, other))
        if first.point and self.function not in ("max", "min"):
            raise self.error(f"{self.function} of a temperature depends on the scale it is read on")
        return first

    def _root(self, dimension: Dimension) -> Kind:
        if dimension.point or any(power % 2 for power in dimension.powers):
            raise self.error(
                f"there is no square root of {dimension.with_article}",
                "such as sqrt(inside_radius * wall), the root of a length squared",
            )
        if dimensionless(dimension):
            return COUNT
        return with_powers(tuple(power // 2 for power in dimension.powers))

    def value(self, facts: Facts) -> Fraction:
        values = [part.number(facts) for part in self.parts]
        first = values[0]
        if self.function == "sqrt":
            if first < 0:
                raise self.error("there is no square root of a negative number")
            return square_root(first)
        if self.function == "abs":
            return abs(first)
        if self.function in ("max", "min"):
            return max(values) if self.function == "max" else min(values)
        step = values[1]
        if step <= 0:
            raise self.parts[1].error("a step is greater than zero")
        if self.function == "round_up":
            return -(-first // step) * step
        if self.function == "round_down":
            return first // step * step
        steps = (abs(first) / step + Fraction(1, 2)) // 1
        return steps * step if first >= 0 else -steps * step


def square_root(value: Fraction) -> Fraction:
    """The root, exact when it is a fraction; else rounded down to 40 significant digits.

    The argument must not be negative. The result never exceeds the true root, and differs from
    it by less than one unit in its 40th digit.
    """
    whole, part = isqrt(value.numerator), isqrt(value.denominator)
    if whole * whole == value.numerator and part * part == value.denominator:
        return Fraction(whole, part)
    # sqrt(n/d) = sqrt(n*d) / d; the shift leaves the integer root 40 digits whatever n*d is.
    product = value.numerator * value.denominator
    shift = max(0, SQRT_DIGITS - (len(str(product)) - 1) // 2)
    return Fraction(isqrt(product * 100**shift), value.denominator * 10**shift)
