"""Rule books worked out for typical welds: those that ship are plausible, a slip in one is told."""

from __future__ import annotations

from pathlib import Path

import pytest

import hts
from hts.base.text import Source, Span
from hts.checking.rules.procedures.condition_turned_round import of_book, turned_round
from hts.checking.rules.procedures.implausible_limit import strange
from hts.checking.rules.procedures.milder_for_more import turns
from hts.limits import UnknownEdition, book, books
from hts.limits.cells import Domain
from hts.limits.worked import columns
from tests.rows import each_row

SPECS = Path(__file__).parents[3] / "specs"
BOOK = (SPECS / "books" / "island-law.yaml").read_text(encoding="utf-8")
JOB = (SPECS / "condensate-own-law.hts").read_text(encoding="utf-8")
ANYWHERE: Span = Source("", "book").span(0, 0)


def _editions(id: str) -> tuple[str | None, ...]:
    try:
        book(id)
    except UnknownEdition as error:
        return error.editions
    return (None,)


@each_row("id", books())
def test_published_standards_are_plausible(id: str) -> None:
    """Their figures are entered by hand from the standards (tests/limits); what the rules call
    implausible in them would be told of every own book that renders such a standard."""
    for edition in _editions(id):
        for column in columns(book(id, edition).limits, Domain()):
            assert not list(strange(column)), (edition, column.quantity)
            assert not list(turns(column)), (edition, column.quantity)


def test_published_standards_ask_it_of_the_thick_and_let_the_thin_go() -> None:
    """The signs of their conditions, entered by hand from the standards, all point one way."""
    looked = 0
    for id in books():
        for edition in _editions(id):
            lines = list(of_book(book(id, edition), lambda row: ANYWHERE))
            looked += len(lines)
            assert list(turned_round(lines)) == [], (id, edition)
    assert looked > 80


def test_standards_give_many_values() -> None:
    """The grid reaches the rows: metals, walls and sizes that they tell apart have values."""
    found = list(columns(book("asme-b31.3", "2018").limits, Domain()))
    values = {(c.quantity, c.direction): sum(b is not None for _, b in c.bounds) for c in found}
    assert values["hold temperature", "minimum"] >= 5
    assert values["hold time", "minimum"] >= 20
    assert values["preheat", "minimum"] >= 10


_TIME = "at_least: 1 h/in * round_up(t, 1 in)"


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("min(220 degC/h, 5600", "min(2200 degC/h, 56000", "implausible-limit"),
        (
            "SI: [590 degC, 650 degC], US: [1100 degF",
            "SI: [490 degC, 650 degC], US: [915 degF",
            "implausible-limit",
        ),
        (_TIME, "at_least: 12 h/in * round_up(t, 1 in)", "implausible-limit"),
        ("above: 315 degC", "above: 615 degC", "implausible-limit"),
        # A ceiling that the formula never comes below
        ("5600 degC/h * 1 mm", "5600 degC/h * 1 in", "part-without-effect"),
        ("t > 20 mm or", "t < 20 mm or", "condition-turned-round"),
        ("specified_carbon > 0.25 %", "specified_carbon < 0.25 %", "condition-turned-round"),
        ("t <= 25 mm and", "t >= 25 mm and", "condition-turned-round"),
        ("preheat >= 120 degC", "preheat <= 120 degC", "condition-turned-round"),
        ("t > 20 mm or", "t > 20 in or", "condition-out-of-reach"),
        ('{p_number: ["1"], weld_kind', '{p_number: ["8"], weld_kind', "replaces-row-of-others"),
        ('&both ["2019", "2024"]', '&both ["2019"]', "replaces-row-of-others"),
        ("preheat >= 120 degC", "preheat >= 1200 degC", "condition-out-of-reach"),
        ("t > 20 mm or", "t > 20 mm and", "condition-out-of-reach"),
        # A wall from which on the hold gets shorter
        (_TIME, "at_least: 1 h/in * max(1 in, 4 in - t)", "milder-for-more"),
        (_TIME, "at_most: 1 h/in * round_up(t, 1 in)", "limit-wrong-way-round"),
        ("at_most: max(55", "at_least: max(55", "limit-wrong-way-round"),
    ],
)
def test_slip_in_an_own_book_is_told(tmp_path: Path, old: str, new: str, told: str) -> None:
    assert old in BOOK
    (tmp_path / "books").mkdir()
    (tmp_path / "books" / "island-law.yaml").write_text(BOOK.replace(old, new), encoding="utf-8")
    (tmp_path / "job.hts").write_text(JOB, encoding="utf-8")
    found = [f for f in hts.check(hts.load(str(tmp_path / "job.hts"))) if f.kind.name == told]
    assert len(found) == 1
    assert found[0].at.span.source.name.endswith("island-law.yaml")


def test_an_own_book_that_is_not_in_force_is_told(tmp_path: Path) -> None:
    (tmp_path / "books").mkdir()
    (tmp_path / "books" / "island-law.yaml").write_text(BOOK, encoding="utf-8")
    text = JOB.replace("island-law edition 2024, ", "").replace(
        "precedence   island-law, ", "precedence   "
    )
    (tmp_path / "job.hts").write_text(text, encoding="utf-8")
    found = [
        f.at.span.text
        for f in hts.check(hts.load(str(tmp_path / "job.hts")))
        if f.kind.code == "D119"
    ]
    assert found == ['"books/island-law.yaml"']
