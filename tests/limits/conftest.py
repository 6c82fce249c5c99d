"""What governs a joint whose facts a test writes as text."""

import pytest

from hts.base.quantities import Dimension, Quantity
from hts.limits import FACTS, book, demands


def read(name, value):
    """A fact as its kind is read: an amount with its unit, or a word."""
    kind = FACTS[name].kind
    if isinstance(kind, Dimension) and isinstance(value, str):
        return Quantity.read(value, kind)
    return value


def in_system(fact, system):
    """The fact as someone who works in one system of units writes it."""
    if isinstance(fact, Quantity) and fact.unit.system not in ("both", system):
        return fact.in_unit(fact.unit.partner)
    return fact


@pytest.fixture
def govern():
    def made(name, edition=None, system="SI", options=(), **facts):
        facts.setdefault("weld_kind", "girth-butt")
        if "wall" in facts:
            facts.setdefault("thicker_wall", facts["wall"])
            facts.setdefault("thinner_wall", facts["wall"])
        known = {fact: in_system(read(fact, value), system) for fact, value in facts.items()}
        return demands(book(name, edition, system).limits, {"both": known}, options)

    return made


@pytest.fixture
def lacking(govern):
    """Names of the facts that keep rows of a quantity from being decided."""

    def made(quantity, *book_and_edition, **facts):
        governing = govern(*book_and_edition, **facts)[quantity]
        return {name for item in governing.unanswered for name in item.names}

    return made
