"""The arithmetic of formulas: sums, products and powers."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import COUNT, difference_of
from hts.syntax.formula.nodes import Facts, Kinds, Literal, Name, Node, Number, unlike
from hts.syntax.formula.value_kinds import Kind, dimensionless, fits, product, with_powers

LARGEST_POWER = 4
LARGEST_BITS = 4096


class Sum(Node):
    """Addition (`sign` 1) or subtraction (-1)."""

    __slots__ = ("sign",)

    def __init__(self, left: Node, right: Node, sign: int) -> None:
        # After + or - a written degC or degF is a step, not a place on the thermometer.
        if isinstance(right, Literal) and right.is_point:
            right = right.as_difference()
        super().__init__(left.start, right.end, left, right)
        self.sign = sign

    def kind(self, names: Kinds) -> Kind:
        left, right = (part.dimension(names) for part in self.parts)
        if left.point and right.point:
            if self.sign > 0:
                raise self.error(
                    "a temperature cannot be added to a temperature",
                    "add a temperature difference, written in K",
                )
            return difference_of(left)
        if left.point and right is difference_of(left):
            return left
        if right.point and left is difference_of(right):
            if self.sign > 0:
                return right
            raise self.error("a temperature cannot be subtracted from a temperature difference")
        if not fits(left, right):
            raise self.error(unlike(self.parts[0], left, self.parts[1], right))
        return left

    def value(self, facts: Facts) -> Fraction:
        left, right = (part.number(facts) for part in self.parts)
        return left + right if self.sign > 0 else left - right


class Product(Node):
    """Multiplication (`sign` 1) or division (-1)."""

    __slots__ = ("sign",)

    def __init__(self, left: Node, right: Node, sign: int) -> None:
        super().__init__(left.start, right.end, left, right)
        self.sign = sign

    def kind(self, names: Kinds) -> Kind:
        dimensions = []
        for part in self.parts:
            dimension = part.dimension(names)
            if dimension.point:
                done = "multiplied" if self.sign > 0 else "divided"
                raise part.error(
                    f"a temperature cannot be {done}", "a difference is written in K, a rate in K/h"
                )
            dimensions.append(dimension)
        return product(dimensions[0], dimensions[1], self.sign)

    def value(self, facts: Facts) -> Fraction:
        left, right = (part.number(facts) for part in self.parts)
        if self.sign > 0:
            return left * right
        if not right:
            raise self.parts[1].error("this is zero, and nothing can be divided by zero")
        return left / right


class Multiple(Product):
    """`5 t`: a number of times the governing thickness."""

    __slots__ = ()

    def __init__(self, start: int, written: str) -> None:
        number = Number(start, written[:-1].rstrip(" \t"))
        super().__init__(number, Name(start + len(written) - 1, "t"), 1)


class Negative(Node):
    __slots__ = ()

    def kind(self, names: Kinds) -> Kind:
        dimension = self.parts[0].dimension(names)
        if dimension.point:
            raise self.error("a temperature cannot be negated")
        return dimension

    def value(self, facts: Facts) -> Fraction:
        return -self.parts[0].number(facts)


class Power(Node):
    """A number multiplied by itself; the exponent is a small whole number."""

    __slots__ = ("exponent",)

    def __init__(self, base: Node, exponent: Number) -> None:
        super().__init__(base.start, exponent.end, base)
        self.exponent = int(exponent.base)
        if self.exponent != exponent.base or not 1 <= self.exponent <= LARGEST_POWER:
            raise exponent.error(f"an exponent is a whole number from 1 to {LARGEST_POWER}")

    def kind(self, names: Kinds) -> Kind:
        dimension = self.parts[0].dimension(names)
        if dimension.point:
            raise self.error("a temperature cannot be multiplied")
        if dimensionless(dimension):
            return dimension if self.exponent == 1 else COUNT
        return with_powers(tuple(power * self.exponent for power in dimension.powers))

    def value(self, facts: Facts) -> Fraction:
        base = self.parts[0].number(facts)
        if (base.numerator.bit_length() + base.denominator.bit_length()) > LARGEST_BITS:
            raise self.error("this number is too long")
        return base**self.exponent
