"""Reasons, and books side by side, word for word, of texts that say nearly everything."""

from __future__ import annotations

import json
from copy import copy
from fractions import Fraction
from pathlib import Path

from hts.base.quantities import LENGTH, Quantity
from hts.checking.checker import Case
from hts.checking.govern.sources import authority_of
from hts.job.explain import books, rules, side_by_side_forms, why
from hts.job.explain.editions import differences
from hts.job.explain.editions import told as differing
from hts.job.explain.side_by_side import compared
from hts.limits import Book, book
from hts.limits.limit import Limit
from tests import told
from tests.rich import texts

KEPT = Path(__file__).with_name("told")
#: Two editions of one book, a book of other units, and practice.
BOOKS = (("asme-b31.3", "2012"), ("asme-b31.3", "2018"), ("local-heating", None))


def _reasons(name: str) -> str:
    case = Case(texts.spec(name))
    return why.text(why.answers(case)) + why.demands_text(why.demands(case))


def test_every_reason() -> None:
    told.each_once(KEPT / "reasons.txt", {name: _reasons(name) for name in texts.NAMES})


def test_the_same_as_data() -> None:
    """A line of each kind."""
    answers = [why.as_json(each) for each in why.answers(Case(texts.spec(texts.FIRST)))]
    lines = list(told.leaves(answers))
    kinds = {line.partition(":")[0]: line for line in reversed(lines)}
    kept = [*reversed(kinds.values()), told.digest(lines)]
    told.same(KEPT / "data.txt", texts.FIRST, "\n".join(kept))


def test_books_side_by_side() -> None:
    shown = {}
    for name in ("pipe-a", "pipe-d", "furnace-spool", "branch"):
        case = Case(texts.spec(name))
        joint = next(iter(case.joints()))
        for what, authorities in (
            ("its own", case.authorities),
            ("others", [authority_of(book(*each)) for each in BOOKS]),
        ):
            tables = compared(joint, list(case.treatments(joint)), authorities)
            data = [side_by_side_forms.as_json(table) for table in tables]
            forms = told.digest([*map(side_by_side_forms.markdown, tables), json.dumps(data)])
            told_of = [side_by_side_forms.text(table) for table in tables]
            shown[f"{name}, {what}"] = "\n".join([*told_of, f"other forms {forms}"])
    told.each_once(KEPT / "side-by-side.txt", shown)


def test_two_editions() -> None:
    first, second = (book("asme-b31.3", edition) for edition in ("2012", "2018"))
    lines = []
    for each in differences(first, second):
        sides = f"{differing(each.first)} | {differing(each.second)}"
        lines.append(f"{each.quantity}: {each.id}: {sides} ({each.known})")
    told.same(KEPT / "editions.txt", "asme-b31.3", "\n".join(lines))


def test_a_row_that_asks_the_same_but_is_known_better() -> None:
    sides = []
    for basis, confidence in (("published", "high"), ("memory", "low")):
        side = copy(book("local-heating"))
        row = copy(side.limits[0])
        row.source = row.source._replace(basis=basis, confidence=confidence)
        side.limits = (row, *side.limits[1:])
        sides.append(side)
    (found,) = differences(*sides)
    assert found.known and found.quantity == "soak band"
    assert found.first is not None and found.first["basis"] == "published"
    assert found.second is not None and found.second["basis"] == "memory"
    assert differences(sides[0], sides[0]) == []


def _of(*limits: Limit) -> Book:
    made = copy(book("local-heating"))
    made.limits = limits
    return made


def test_rows_are_set_beside_rows_that_bound_the_same() -> None:
    """Without a name in common: those for the same words, then for some of the same P-numbers."""
    source = book("local-heating").limits[0].source
    five = {"p_number": ("5A", "5B")}
    old = (
        Limit("hold time", source, id="t", minimum="1 h", where=five),
        Limit("hold time", source, id="m", maximum="6 h", where=five),
    )
    new = (
        Limit("hold time", source, id="n", maximum="8 h", where=five),
        Limit("hold time", source, id="u", minimum="2 h", where={"p_number": ("5B",)}),
    )
    assert [
        (each.first and each.first["id"], each.second and each.second["id"])
        for each in differences(_of(*old), _of(*new))
    ] == [("t", "u"), ("m", "n")]
    # A least is no greatest, and the one of other metal another row.
    other = Limit("hold time", source, id="x", minimum="2 h", where={"p_number": ("4",)})
    assert [
        (each.first and each.first["id"], each.second and each.second["id"])
        for each in differences(_of(old[0]), _of(new[0], other))
    ] == [("t", None), (None, "n"), (None, "x")]


def test_values_of_a_reason() -> None:
    # 100 / 25.4 = 3.93700…
    width = Quantity.of(100, "mm", LENGTH)
    assert why.shown(width, "minimum") == "100 mm (3.938 in)"
    assert why.shown(width, "maximum") == "100 mm (3.937 in)"
    assert why.shown(Fraction(3)) == "3"
    assert why.shown(Fraction(3, 2)) == "3/2"
    assert why.shown(Fraction(1, 3)) == "1/3"


def test_a_book_and_a_rule() -> None:
    made = book("local-heating")
    told.same(KEPT / "books.txt", "local-heating", books.line(made) + "\n" + books.text(made))
    told.same(KEPT / "books.txt", "as data", told.digest(told.leaves(books.as_json(made))))
    for wanted in ("zone-gap", "hold-too-short", "hold-away-from-heat"):
        found = rules.find(wanted)
        assert found is not None
        said = f"{rules.line(*found)}\n{rules.text(*found)}"
        data = told.digest(told.leaves(rules.as_json(*found)))
        told.same(KEPT / "rules.txt", wanted, "\n".join([said, f"as data {data}"]))
