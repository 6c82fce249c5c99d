"""A looked-up value together with where it comes from and how far it can be relied on."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Generic, NamedTuple, TypeVar

from hts.base.quantities import Quantity

T = TypeVar("T")


class Property(NamedTuple, Generic[T]):
    """One property of a table entry.

    `also` is the figure the source prints beside `value` in another unit: it is printed, not
    converted, so it can differ a little (60 ksi is printed 415 MPa but is 413.7 MPa). `basis` is
    published, memory, practice or derived; `confidence` is high, medium or low.
    """

    value: T
    source: str
    basis: str
    confidence: str
    note: str | None = None
    also: Quantity | None = None


def cited(source: Mapping[str, str]) -> str:
    """Return one line of text for a source: standard, paragraph and edition as far as given."""
    text = " ".join(source[part] for part in ("standard", "paragraph") if part in source)
    return f"{text} (edition {source['edition']})" if "edition" in source else text
