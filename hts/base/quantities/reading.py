"""From text to the parts of a quantity: number, unit and, for times, several of both."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities.dimensions import TIME, Dimension
from hts.base.quantities.errors import QuantityError
from hts.base.quantities.number import (
    MINUS_SIGN,
    VULGAR,
    NumberError,
    decimals_written,
    read_number,
    refusal,
)
from hts.base.quantities.units import Unit, find_unit, is_unit

_BLANKS = " \t"
_NUMBER_CHARACTERS = frozenset("0123456789.,/-+_" + _BLANKS)
# Longest first. Each part is smaller than one of the part before: 90 min after hours is a slip.
_TIME_UNITS = ("d", "h", "min", "s")

Reading = tuple[Fraction, Unit, int, str]
"""Value in the canonical unit, unit, decimals written, text with the standard symbol."""


def read(text: str, dimension: Dimension) -> Reading:
    """The parts of `text` as a quantity of `dimension`. Raises QuantityError."""
    number, blank, symbol = _split(text.strip(_BLANKS))
    if dimension is TIME and any(map(str.isdigit, symbol)) and any(map(str.isspace, symbol)):
        return _read_compound(text)
    return _read_one(text, number, blank, symbol, dimension)


def _split(text: str) -> tuple[str, str, str]:
    """Number, blanks after it, unit."""
    end = 0
    while end < len(text) and text[end] in _NUMBER_CHARACTERS:
        end += 1
    number = text[:end].rstrip(_BLANKS)
    return number, text[len(number) : end], text[end:]


def _read_one(text: str, number: str, blank: str, symbol: str, dimension: Dimension) -> Reading:
    try:
        value = read_number(number)
    except NumberError as error:
        raise _bad_number(text, number, blank, symbol, dimension, error) from None
    unit = find_unit(symbol, dimension)
    if unit is None:
        raise _bad_unit(text, number, blank, symbol, dimension)
    if not blank and unit.symbol[:1].isupper():
        # 5A is a material group and 80S a pipe schedule, so these units stand apart.
        reason = f"a blank comes before a unit with a capital letter: {number} {unit.symbol}"
        raise QuantityError(
            "unknown unit", text, text, dimension, f"{number} {unit.symbol}", reason
        )
    shown = f"{' '.join(number.split())} {unit.symbol}".rstrip()
    return unit.to_canonical(value), unit, decimals_written(number), shown


def _bad_number(
    text: str, number: str, blank: str, symbol: str, dimension: Dimension, error: NumberError
) -> QuantityError:
    if symbol[:1] in {MINUS_SIGN, *VULGAR}:
        return _misprint(text, number + blank, symbol, dimension)
    if not number:
        reason = "a quantity begins with a number"
        return QuantityError("bad number", text, text, dimension, None, reason)
    return QuantityError(error.problem, text, number, dimension, error.suggestion, error.reason)


def _bad_unit(
    text: str, number: str, blank: str, symbol: str, dimension: Dimension
) -> QuantityError:
    from hts.base.quantities.spelling import suggest_unit  # wanted by messages only

    if not symbol:
        return QuantityError("no unit", text, number, dimension)
    if symbol[0] in VULGAR or (symbol[0] in "eE'’" and symbol[1:].lstrip("+-")[:1].isdigit()):
        return _misprint(text, number + blank, symbol, dimension)
    problem = "wrong dimension" if is_unit(symbol) else "unknown unit"
    return QuantityError(problem, text, symbol, dimension, suggest_unit(symbol, dimension))


def _misprint(text: str, before: str, symbol: str, dimension: Dimension) -> QuantityError:
    """A number that goes on in characters no number has: `1½ in`, `1'300 degF`, `2e3 mm`."""
    rest = symbol.split()[0]
    while rest and not (rest[-1].isdigit() or rest[-1] in VULGAR):
        rest = rest[:-1]
    error = refusal(before + rest)
    return QuantityError(
        error.problem, text, before + rest, dimension, error.suggestion, error.reason
    )


def _read_compound(text: str) -> Reading:
    """A time in several units: whole numbers, each unit smaller than the one before."""
    parts: list[tuple[Fraction, Unit, int, str]] = []
    rest = text.strip(_BLANKS)
    while rest:
        number, blank, rest = _split(rest)
        symbol, _, rest = rest.replace("\t", " ").partition(" ")
        rest = rest.lstrip(_BLANKS)
        parts.append(_read_one(text, number, blank, symbol, TIME))
    total, decimals = Fraction(0), 0
    for position, (value, unit, decimals, shown) in enumerate(parts):
        follows = position + 1 < len(parts)
        if follows and (decimals or value.denominator != 1):
            raise _bad_compound(text, shown, "only the last part of a time can have a fraction")
        if position:
            larger = parts[position - 1][1]
            if _TIME_UNITS.index(unit.symbol) <= _TIME_UNITS.index(larger.symbol):
                raise _bad_compound(text, shown, "the units of a time get smaller")
            if not 0 <= value < larger.factor:
                raise _bad_compound(text, shown, f"this part is less than 1 {larger.symbol}")
        total += value
    if parts[0][0] < 0:
        raise _bad_compound(text, text, "a time in several units is not negative")
    return total, parts[0][1], 0, " ".join(part[3] for part in parts)


def _bad_compound(text: str, part: str, reason: str) -> QuantityError:
    return QuantityError("bad number", text, part, TIME, None, reason)
