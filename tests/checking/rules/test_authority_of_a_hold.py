"""A hold nobody answers for is an error, whatever else is or is not known about the metal."""

from __future__ import annotations

import pytest

from hts.base.findings import Finding
from hts.checking.checker.run import check_spec
from hts.checking.govern.case import Case
from hts.checking.rules.examples import changed
from hts.language.model import Spec
from hts.limits import UnknownEdition, book, books
from tests.rows import each_row
from tests.texts import spec_of

_BOOKS = "governed by  asme-b31.3 edition 2018, local-heating"
_PREHEAT = ("  at least          150 degC", "  at least          205 degC")


def _spec(*changes: tuple[str, str], base: str = "butt") -> Spec:
    return spec_of(changed(base, changes))


def _found(*changes: tuple[str, str], base: str = "butt") -> list[Finding]:
    return check_spec(_spec(*changes, base=base))


def _named(id: str) -> str:
    try:
        book(id)
    except UnknownEdition as error:
        return f"{id} edition {error.editions[-1]}"
    return id


@each_row("id", books())
@each_row("group", ["1", "5A", "15E", "10H", "45"])
def test_a_metal_is_not_heated_under_a_book_that_does_not_know_it(group: str, id: str) -> None:
    """Either the book limits the hold and its time, or that is an error."""
    spec = _spec(
        (_BOOKS, f"governed by  {_named(id)}"),
        ('  grade        "A335 P22"', f"  p-number     {group}\n  lower critical 800 degC"),
    )
    errors = {f.kind.name for f in check_spec(spec) if f.severity == "error"}
    (joint,) = Case(spec).joints()
    limits = Case(spec).limits(joint, joint.cycles[0])
    held, time = limits.of("hold temperature"), limits.of("hold time")
    # The top may be left to the lower critical temperature, which is stated here.
    limited = held and time and held.minimum and time.minimum
    assert bool(limited) or errors & {"hold-without-limits", "undecided-limit"}, errors


@pytest.mark.parametrize(
    "material", ['  grade        "A335 P222"', '  grade        "A335 P22x"', "  en group     5.2"]
)
def test_a_metal_of_unknown_group_is_an_error_where_it_is_treated(material: str) -> None:
    found = _found(('  grade        "A335 P22"', material))
    assert "error" in [finding.severity for finding in found], found


def test_the_books_that_would_give_it_are_named() -> None:
    (finding,) = (
        f
        for f in _found((_BOOKS, "governed by  local-heating"), _PREHEAT)
        if f.kind.name == "hold-without-limits"
    )
    assert "asme-b31.3 edition 2018" in finding.help
    assert "P-number 5A" in finding.message


def test_the_hottest_and_the_coldest_hold_are_the_facts() -> None:
    """Not the last one: two holds, the hotter one first."""
    spec = _spec(
        (
            "  hold  700 .. 730 degC for 2 h\n",
            "  hold  700 .. 730 degC for 2 h\n  cool  to 690 degC at most 100 degC/h\n"
            "  hold  680 .. 700 degC for 1 h\n",
        )
    )
    (joint,) = Case(spec).joints()
    facts = Case(spec).limits(joint, joint.cycles[0]).facts["upstream"]
    assert str(facts["hold_maximum"]) == "730 degC"
    assert str(facts["hold_minimum"]) == "680 degC"
