"""A book prints one figure in both systems of units, and no range turned round."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, NamedTuple

from hts.base.quantities import TEMPERATURE, Dimension, Quantity, QuantityError
from hts.limits.quantities import LIMITED

_KEYS = ("at_least", "at_most", "is", "between")
#: How far the two figures of a print may be apart: K, and as a share of the larger; prints round
#: each to a figure that is easily kept. Basis: practice, the widest pairs of the shipped books.
_KELVIN, _SHARE = 20, Fraction(1, 6)


class Fault(NamedTuple):
    """`steps` lead to it in the row; `message` says what is wrong."""

    steps: tuple[str | int, ...]
    message: str


def faults(row: Any) -> Iterator[Fault]:
    """Figures of one row that differ from what stands beside them for the other system, and ranges
    whose least is above their most. Formulas are left alone."""
    kind = LIMITED[row["quantity"]].kind if row.get("quantity") in LIMITED else None
    if not isinstance(kind, Dimension):
        return
    for key in _KEYS:
        if key not in row:
            continue
        value = row[key]
        prints = value if isinstance(value, dict) else {"": value}
        read = {name: [_read(end, kind) for end in _ends(each)] for name, each in prints.items()}
        turned = [name for name, ends in read.items() if key == "between" and _is_turned(ends)]
        for name in turned:
            low, high = read[name][0], read[name][-1]
            yield Fault((key, name) if name else (key,), f"{low} is above {high}: turned round")
        if turned or len(read) < 2:
            continue
        for place, (one, other) in enumerate(zip(read["SI"], read["US"], strict=True)):
            if one is not None and other is not None and _are_apart(one, other):
                last = (place,) if isinstance(prints["US"], list) else ()
                yield Fault((key, "US", *last), f"{other.both()} beside {one.both()}")


def _is_turned(ends: list[Quantity | None]) -> bool:
    low, high = ends[0], ends[-1]
    return low is not None and high is not None and low > high


def _ends(value: Any) -> list[Any]:
    return value if isinstance(value, list) else [value]


def _read(text: Any, kind: Dimension) -> Quantity | None:
    try:
        return Quantity.read(str(text), kind)
    except QuantityError:
        return None


def _are_apart(one: Quantity, other: Quantity) -> bool:
    apart = abs(one.value - other.value)
    if one.dimension is TEMPERATURE:
        return apart > _KELVIN
    return apart > _SHARE * max(abs(one.value), abs(other.value))
