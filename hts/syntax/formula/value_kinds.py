"""What a sub-expression is: a quantity of some dimension, a word, or a condition."""

from __future__ import annotations

from collections.abc import Container
from fractions import Fraction
from functools import lru_cache

from hts.base.quantities import COUNT, MASS_FRACTION, RATIO, Dimension, Quantity, dimension_of
from hts.base.quantities.dimensions import BASES, DIMENSIONLESS, Powers


class Text:
    """A word such as a P-number. `words` are the ones allowed, empty when any is."""

    __slots__ = ("words",)
    with_article = "a word"

    def __init__(self, *words: str) -> None:
        self.words = words


class Condition:
    """True or false."""

    __slots__ = ()
    with_article = "a condition"


CONDITION = Condition()
ANY_TEXT = Text()


class Words(tuple[str, ...]):
    """Several words that hold at once, such as the services of a line: each of them counts."""

    __slots__ = ()

    def __str__(self) -> str:
        return " and ".join(self)


Kind = Dimension | Text | Condition
Fact = Quantity | Fraction | int | str | Words
"""The value of a name: a plain number is a count, a string is a word."""


def one_of(fact: object, words: Container[object]) -> bool:
    """Whether a word, or any of several, is among these."""
    return any(word in words for word in fact) if isinstance(fact, Words) else fact in words


_SHARES = (RATIO, MASS_FRACTION)
_POWER_WORDS = {1: "", 2: " squared", 3: " cubed"}


def kind_of(fact: Fact) -> Kind:
    """The kind of a value."""
    if isinstance(fact, Quantity):
        return fact.dimension
    return ANY_TEXT if isinstance(fact, str | Words) else COUNT


def fits(kind: Kind, wanted: Kind) -> bool:
    """Whether a value of `kind` may stand where `wanted` is expected.

    A written percentage fits a mass fraction as well as a ratio; apart from that, dimensions
    with equal exponents stay apart.
    """
    if isinstance(wanted, Dimension):
        return kind is wanted or (kind in _SHARES and wanted in _SHARES)
    return type(kind) is type(wanted)


def product(left: Dimension, right: Dimension, sign: int = 1) -> Dimension:
    """The dimension of `left * right`, or of `left / right` when `sign` is -1."""
    if right is COUNT:
        return left
    if left is COUNT and sign > 0:
        return right
    return with_powers(tuple(a + sign * b for a, b in zip(left.powers, right.powers, strict=True)))


@lru_cache(maxsize=256)
def with_powers(powers: Powers) -> Dimension:
    """The dimension with these exponents; one without a name of its own is described by them."""
    return dimension_of(powers) or Dimension(_described(powers), "", 1, powers)


def _described(powers: Powers) -> str:
    above = [_factor(base, power) for base, power in zip(BASES, powers, strict=True) if power > 0]
    below = [_factor(base, -power) for base, power in zip(BASES, powers, strict=True) if power < 0]
    over = f" per {' '.join(below)}" if below else ""
    return (" times ".join(above) or "number") + over


def _factor(base: str, power: Fraction | int) -> str:
    return base + _POWER_WORDS.get(int(power), f" to the power {power}")


def dimensionless(dimension: Dimension) -> bool:
    return dimension.powers == DIMENSIONLESS
