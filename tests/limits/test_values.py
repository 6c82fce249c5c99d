"""Values of the books at the edges of their rows, in both systems of units: `values.txt`.

Each line: book, edition, system (L, T: with the option of a lower-temperature or a thin-wall hold),
facts, quantity, what of it, and the value; "rows" are all rows that hold, so that one that holds
beside the stricter one of the next step is seen. Compared line by line with the tables the books
name, as far as those could be seen; a figure of basis memory is recalled here as it is there.
"""

from fractions import Fraction
from pathlib import Path

import pytest

from hts.base.quantities import Quantity
from hts.limits import book, demands
from hts.limits.books import from_data
from tests.limits.conftest import in_system, read

VALUES = (Path(__file__).parent / "values.txt").read_text(encoding="utf-8").splitlines()
OPTIONS = {"L": "lower-temperature hold", "T": "thin-wall hold"}


def answer(line, changed=None):
    """What the book says for the facts of a line, as its last column has it; ``changed``: other
    data than the book has."""
    head, stated, quantity, part, *_ = (column.strip() for column in line.split("|"))
    id, edition, system, *options = head.split()
    facts = {"weld_kind": "girth-butt"}
    for fact in stated.split(";"):
        name, _, value = fact.strip().partition(" ")
        facts[name] = value
    for name in ("thicker_wall", "thinner_wall"):
        facts.setdefault(name, facts["wall"])
    known = {name: in_system(read(name, value), system) for name, value in facts.items()}
    asked = None if edition == "-" else edition
    made = book(id, asked, system) if changed is None else _made(changed, asked, system)
    taken = [OPTIONS[option] for option in options]
    governing = demands(made.limits, {"both": known}, taken).get(quantity)
    if governing is None:
        return "nothing"
    return told(governing, part, system)


#: The book last asked that has other data, as it is in each edition and system.
_LAST = [None, {}]


def _made(changed, *asked):
    if _LAST[0] is not changed:
        _LAST[:] = changed, {}
    if asked not in _LAST[1]:
        _LAST[1][asked] = from_data(changed, *asked)
    return _LAST[1][asked]


def told(governing, part, system):
    if part == "rows":
        return ", ".join(sorted({d.limit.id for d in governing.demands})) or "nothing"
    if part == "status":
        return governing.status or "nothing"
    if part in ("above", "within"):
        found = sorted({str(in_system(getattr(d, part), system)) for d in governing.demands})
        return ", ".join(found) or "nothing"
    value = governing.minimum if part == "least" else governing.maximum
    if value is None:
        return "nothing"
    if isinstance(value, Fraction):
        return str(value)
    assert isinstance(value, Quantity)
    return str(value)


# Each book by itself: `figures` asks for the lines of one.
@pytest.mark.parametrize("id", dict.fromkeys(line.split()[0] for line in VALUES))
def test_the_book_says_so(id):
    lines = [line for line in VALUES if line.split()[0] == id]
    told_of = {line: answer(line) for line in lines}
    stated = {line: line.rpartition("|")[2].strip() for line in lines}
    assert [line for line in lines if told_of[line] != stated[line]] == []
