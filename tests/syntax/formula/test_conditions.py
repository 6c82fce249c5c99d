"""Conditions: comparisons, words, and what is decided though facts are missing."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.quantities import LENGTH, MASS_FRACTION, Quantity
from hts.syntax.formula import CONDITION, Formula, FormulaError, Text, UnknownFact
from tests.rows import each_row

KINDS = {
    "t": LENGTH,
    "carbon": MASS_FRACTION,
    "p_number": Text(),
    "weld_kind": Text("girth-butt", "branch"),
}
FACTS = {
    "t": Quantity.read("25.4 mm", LENGTH),
    "carbon": Quantity.read("0.25 %", MASS_FRACTION),
    "p_number": "5A",
    "weld_kind": "girth-butt",
}


@each_row(
    ("text", "expected"),
    [
        ("t <= 1 in", True),
        ("t < 1 in", False),
        ("t = 25.4 mm", True),
        ("t != 25.4 mm", False),
        ("t > 25 mm and carbon > 0.30 %", False),
        ("t > 25 mm or carbon > 0.30 %", True),
        ("not t > 25 mm or t > 20 mm", True),
        ("not (t > 25 mm or t > 20 mm)", False),
        ("p_number = 5A", True),
        ("p_number != 5A", False),
        ("p_number in (1, 3, 5A)", True),
        ("p_number in (1, 3, 5B)", False),
        ("p_number = 5", False),
        ('p_number = "5A"', True),
        ("weld_kind = girth-butt", True),
        ("weld_kind in (branch, girth-butt)", True),
        ("t is known and carbon is known", True),
        ("carbon <= 2500 ppm", True),
    ],
)
def test_conditions(text, expected):
    formula = Formula.parse(text, CONDITION)
    assert formula.check(KINDS) is CONDITION
    assert formula.evaluate(FACTS) is expected
    assert formula.holds(FACTS) is expected


def test_and_binds_closer_than_or():
    text = "t > 1 m or t > 1 mm and t > 2 mm"
    assert Formula.parse(text).evaluate(FACTS) is True
    assert Formula.parse("(t > 1 mm or t > 1 mm) and t > 2 m").evaluate(FACTS) is False


# Kleene's strong three-valued logic (Introduction to Metamathematics, 1952, section 64) says when
# a condition is decided though part of it is unknown.
def kleene(tree, values):
    if isinstance(tree, str):
        return values[tree]
    operator, *parts = tree
    found = [kleene(part, values) for part in parts]
    if operator == "not":
        return None if found[0] is None else not found[0]
    decisive = operator == "or"
    if decisive in found:
        return decisive
    return None if None in found else not decisive


def written(tree):
    if isinstance(tree, str):
        return f"{tree} > 10 mm"
    operator, *parts = tree
    if operator == "not":
        return f"not ({written(parts[0])})"
    return f"({written(parts[0])}) {operator} ({written(parts[1])})"


trees = st.recursive(
    st.sampled_from("abcd"),
    lambda inner: (
        st.tuples(st.just("not"), inner) | st.tuples(st.sampled_from(["and", "or"]), inner, inner)
    ),
    max_leaves=6,
)
values = st.fixed_dictionaries(dict.fromkeys("abcd", st.sampled_from([True, False, None])))


@given(trees, values)
def test_missing_facts_follow_three_valued_logic(tree, truths):
    sizes = {True: "20 mm", False: "5 mm"}
    facts = {
        name: Quantity.read(sizes[truth], LENGTH)
        for name, truth in truths.items()
        if truth is not None
    }
    formula = Formula.parse(written(tree), CONDITION)
    expected = kleene(tree, truths)
    if expected is not None:
        assert formula.evaluate(facts) is expected
        return
    with pytest.raises(UnknownFact) as caught:
        formula.evaluate(facts)
    assert set(caught.value.names) <= {name for name, truth in truths.items() if truth is None}
    # Everything named is enough: with it the condition is decided.
    for truth in (True, False):
        given_too = dict.fromkeys(caught.value.names, Quantity.read(sizes[truth], LENGTH))
        assert isinstance(formula.evaluate({**facts, **given_too}), bool)


def test_all_missing_names_come_at_once():
    with pytest.raises(UnknownFact) as caught:
        Formula.parse("sqrt(a * b) + c").evaluate({"c": FACTS["t"]})
    assert caught.value.names == ("a", "b")


def test_known_asks_for_nothing():
    assert Formula.parse("chromium is known and chromium > 3 %").evaluate({}) is False


@each_row(
    ("text", "place", "message"),
    [
        ("p_number < 3", "p_number < 3", "with = or != only"),
        ("weld_kind = brnach", "brnach", "never brnach"),
        ("t = branch", "t = branch", "branch is a word"),
        ("t in (1, 2)", "1", "t is a length"),
        ("t and p_number = 1", "t", "where a condition is needed"),
        ("(t > 1 mm) + 2", "(t > 1 mm)", "where a number is needed"),
        ("carbon > 0.3", "carbon > 0.3", "0.3 is a number"),
        ("t <= 60 min", "t <= 60 min", "t is a length, 60 min is a time"),
        ("5A = p_number", "5A", "is not a fact"),
    ],
)
def test_what_does_not_fit(text, place, message):
    formula = Formula.parse(text)
    with pytest.raises(FormulaError, match=message) as caught:
        formula.check(KINDS)
    assert text[caught.value.start : caught.value.end] == place


def test_counts_are_numbers():
    assert Formula.parse("nominal_size in (2, 3)").evaluate({"nominal_size": 2}) is True
    assert Formula.parse("nominal_size >= 2 1/2").evaluate({"nominal_size": Fraction(5, 2)}) is True
