"""Whatever a value is made of, line by line, for digests of what nobody reads whole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from hts.base.quantities import Interval, Quantity
from hts.job.compiler.why import Why


def dumped(value: object, at: str = "") -> Iterator[str]:
    """`runs/0/program/steps/2/least: 120 min`. Reasons, which books change, and entries of the text
    are left out."""
    if isinstance(value, Why):
        return
    if isinstance(value, Quantity):
        yield f"{at}: {value} ({float(value.value):.7g})"
    elif isinstance(value, Interval | Fraction | str | int | None):
        yield f"{at}: {value}"
    elif isinstance(value, float):
        yield f"{at}: {value:.6g}"
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from dumped(inner, f"{at}/{key}")
    elif isinstance(value, tuple | list | frozenset | set):
        names = getattr(value, "_fields", None)
        ordered = sorted(value, key=str) if isinstance(value, frozenset | set) else list(value)
        for number, inner in enumerate(ordered):
            yield from dumped(inner, f"{at}/{names[number] if names else number}")
