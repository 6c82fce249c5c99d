"""Words of conditions: closed where a list of them is, and every one of the list can be written."""

from __future__ import annotations

import pytest

from hts.base.quantities import LENGTH, Quantity
from hts.limits.facts import FACT_KINDS, FACTS
from hts.science.tables.grades import GradeName, grade, names
from hts.syntax.formula import CONDITION, Formula, FormulaError, Text
from tests.rows import each_row

CLOSED = {name: f.kind.words for name, f in FACTS.items() if isinstance(f.kind, Text)}
#: Facts whose words no list can close.
OPEN = ("grade",)


def _holds(text: str, **facts: object) -> bool:
    formula = Formula.parse(text, CONDITION)
    formula.check(FACT_KINDS, "when")
    return formula.holds(facts)  # type: ignore[arg-type]


@each_row("fact", CLOSED)
def test_every_word_of_a_list_can_be_written_and_a_slip_is_refused(fact: str) -> None:
    words = CLOSED[fact]
    assert bool(words) is (fact not in OPEN)
    for word in words:
        others = [other for other in words if other != word]
        assert _holds(f"{fact} = {word}", **{fact: word})
        assert _holds(f"{fact} in ({word})", **{fact: word})
        assert not _holds(f"{fact} = {word}", **{fact: others[0]})
        with pytest.raises(FormulaError, match=f"{fact} is never"):
            _holds(f'{fact} = "{word}x"', **{fact: word})


@each_row("name", names())
def test_every_grade_matches_every_accepted_spelling(name: str) -> None:
    found = grade(name)
    for spelling in {name, *found.aliases, name.lower(), name.replace(" ", "-")}:
        assert _holds(f'grade = "{spelling}"', grade=GradeName(name)), spelling
        # Bare, where it begins like a name: hyphens and digits are no subtraction.
        if " " not in spelling and not spelling[:1].isdigit() and any(map(str.isupper, spelling)):
            assert _holds(f"grade = {spelling}", grade=GradeName(name)), spelling
    assert not _holds('grade = "A335 P21"', grade=GradeName(name))


@each_row(
    ("text", "fact", "word"),
    [
        ("s_group = S-1", "s_group", "S-1"),
        ("s_group = S-3A", "s_group", "S-3A"),
        ("grade = 13CrMo4-5", "grade", GradeName("13CrMo4-5")),
        ("grade in (10CrMo9-10, X10CrMoVNb9-1)", "grade", GradeName("X10CrMoVNb9-1")),
    ],
)
def test_hyphenated_names_are_names(text: str, fact: str, word: str) -> None:
    assert _holds(text, **{fact: word})


def test_a_hyphen_between_facts_and_numbers_still_subtracts() -> None:
    wall = Quantity.read("20 mm", LENGTH)
    assert _holds("wall-5 mm < 16 mm", wall=wall)
    assert _holds("wall - t < 1 mm", wall=wall, t=wall)


@pytest.mark.parametrize("written", ["2-1/4 in", "1-1/2 in", "12-1/2 in"])
def test_a_trade_fraction_is_refused_with_the_right_form(written: str) -> None:
    with pytest.raises(FormulaError, match="subtraction") as caught:
        _holds(f"wall > {written}")
    assert written.replace("-", " ") in caught.value.help
