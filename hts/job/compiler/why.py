"""The reason of a value: formula, numbers put in, where it is from, how well that is known."""

from __future__ import annotations

import os
from typing import NamedTuple

from hts.base.provenance import Origin
from hts.base.text import Span
from hts.language.vocabulary.declare import Entry
from hts.limits import Demand
from hts.limits.quantities import Direction

STATED = "this specification"
TOOL = "hts"


class Why(NamedTuple):
    """`basis` is stated, published, derived, memory or practice; `confidence` high to low.

    `source` is this specification, a book, a procedure, a standard or this program; `citation`
    the paragraph or the line.
    """

    formula: str = ""
    numbers: str = ""
    source: str = STATED
    edition: str = ""
    citation: str = ""
    basis: str = "stated"
    confidence: str = "high"
    note: str = ""

    @property
    def cited(self) -> str:
        """Source with edition and citation, as one line; a procedure has a revision."""
        parts = (self.source, issue(self.edition, self.basis), self.citation)
        return ", ".join(part for part in parts if part)


def issue(edition: str, basis: str) -> str:
    """`edition 2018`, `revision B` of a procedure; what tells why there is none stays as it is."""
    if basis == "stated":
        return f"revision {edition}" if edition else ""
    return f"edition {edition}" if any(c.isdigit() for c in edition) else edition


def line_of(span: Span) -> str:
    """The line of a place; the file is named without its folder, so that papers do not depend
    on where it lies."""
    name = os.path.basename(span.source.name)
    return f"{name} line {span.source.position(span.start)[0]}"


def stated(entry: Entry, field: str, numbers: str = "") -> Why:
    """A value the text gives in a field of an entry."""
    return Why(numbers=" ".join(numbers.split()), citation=line_of(entry.place(field)))


def demanded(demand: Demand, direction: Direction) -> Why:
    """A bound that a book or a procedure sets."""
    source = demand.limit.source
    formula = getattr(demand.limit, direction)
    return Why(
        formula.text if formula is not None else "",
        demand.shown(direction),
        source.name,
        source.edition,
        source.citation,
        source.basis,
        source.confidence,
        source.note,
    )


def derived(formula: str, numbers: str, source: str = TOOL, note: str = "") -> Why:
    """A value this program works out from others."""
    return Why(formula, numbers, source, basis="derived", note=note)


def practice(numbers: str, note: str) -> Why:
    """A default of this program that no standard gives."""
    return Why("", numbers, TOOL, "", "common practice, no source", "practice", "medium", note)


def tabled(origin: Origin, formula: str = "", numbers: str = "") -> Why:
    """A figure of a standard's table."""
    return Why(
        formula,
        numbers,
        origin.standard,
        origin.edition,
        origin.paragraph,
        origin.basis,
        origin.confidence,
    )
