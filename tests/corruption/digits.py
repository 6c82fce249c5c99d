"""Slips in a number: digits exchanged, dropped, doubled, a factor of ten."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise
from typing import NamedTuple

from hts.base.quantities import UNITS, find_unit
from hts.base.quantities.number import NumberError, read_number

_NUMBER = re.compile(r"\d+\s+\d+/\d+|\d+/\d+|\d+\.\d+|\d+")


class Slip(NamedTuple):
    """What was done, and how the text reads afterwards."""

    change: str
    text: str


def slips(text: str) -> Iterator[Slip]:
    """Every slip in the numbers of a text, each result once; none that leaves its value."""
    seen = {text}
    for found in _NUMBER.finditer(text):
        written = found[0]
        value = read_number(written)
        for change, new in _of(written, value):
            whole = text[: found.start()] + new + text[found.end() :]
            if whole in seen or _value(new) == value:
                continue
            seen.add(whole)
            yield Slip(change, whole)


def _of(written: str, value: Fraction) -> Iterator[tuple[str, str]]:
    at = [index for index, sign in enumerate(written) if sign.isdigit()]
    for one, other in pairwise(at):
        signs = list(written)
        signs[one], signs[other] = signs[other], signs[one]
        yield "digits exchanged", "".join(signs)
    if len(at) > 1:
        for index in at:
            yield "digit dropped", _tidy(written[:index] + written[index + 1 :])
    for index in at:
        yield "digit doubled", written[:index] + written[index] + written[index:]
    yield "ten times", _decimal(value * 10)
    yield "a tenth", _decimal(value / 10)


def _value(text: str) -> Fraction | None:
    try:
        return read_number(" ".join(text.split()))
    except (NumberError, ZeroDivisionError):
        return None


def _tidy(text: str) -> str:
    return text.removesuffix(".") if not text.startswith(".") else "0" + text


def _decimal(value: Fraction) -> str:
    return f"{float(value):.6f}".rstrip("0").rstrip(".")


def other_units(unit: str) -> list[str]:
    """The other units of the closed set a unit of this symbol could be mistaken for."""
    dimensions = [known.dimension for known in UNITS if known.symbol == unit]
    found: dict[str, None] = {}
    for known in UNITS:
        own = find_unit(unit, known.dimension)
        if known.dimension in dimensions and own is not None and known.symbol:
            same = (own.factor, own.offset, own.scale) == (known.factor, known.offset, known.scale)
            if not same:
                found[known.symbol] = None
    return list(found)


_UNIT = re.compile(r"(?<=\d)(\s*)([a-zA-Z%][\w%/*]*)")


def exchanged_units(text: str) -> Iterator[Slip]:
    """Every other unit in place of each unit of a quantity, the digits kept."""
    for found in _UNIT.finditer(text):
        for unit in other_units(found[2]):
            blank = found[1] or (" " if unit[0].isupper() else "")
            yield Slip("other unit", text[: found.start()] + blank + unit + text[found.end() :])


def moved_dates(text: str, before: str | None, after: str | None) -> Iterator[Slip]:
    """A date put before the one before it and after the one after it, a year off, or with day and
    month exchanged."""
    own = date.fromisoformat(text)
    day = timedelta(days=1)
    made: dict[str, str] = {}
    if before is not None and date.fromisoformat(before) <= own:
        made[(date.fromisoformat(before) - day).isoformat()] = "date before its neighbour"
    if after is not None and date.fromisoformat(after) >= own:
        made[(date.fromisoformat(after) + day).isoformat()] = "date after its neighbour"
    for years in (-1, 1):
        made.setdefault(own.replace(year=own.year + years).isoformat(), "date a year off")
    if own.day <= 12:
        new = own.replace(month=own.day, day=own.month).isoformat()
        made.setdefault(new, "day and month exchanged")
    for new, change in made.items():
        if new != text:
            yield Slip(change, new)
