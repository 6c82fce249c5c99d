"""What governs each of many welds, beside each row asked for each weld by the plain evaluator."""

from fractions import Fraction

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hts.base.quantities import LENGTH, Quantity
from hts.limits import Limit, Source
from hts.limits.cells import Domain
from hts.limits.demand import size
from hts.limits.strictest import Strictest
from hts.limits.worked import columns, welds_of
from hts.syntax.formula import FormulaError, UnknownFact

#: Fixed ones, formulas alike in figure and not in writing, and some that have no figure everywhere;
#: the last two differ by less than a float tells.
VALUES = [
    "1 h", "60 min", "90 min", "2.4 min/mm * t", "144 s/mm * t", "t * 2.4 min/mm",
    "5 min/mm * throat",
    "1 h * 16 mm / (t - 40 mm)", "max(1 h, 2.4 min/mm * wall)", "round_up(2.4 min/mm * t, 30 min)",
    "sqrt(t * cap_width) * 3 min/mm", "1 h + 1 min/mm * outside_diameter / 10",
    "10000000000000000 s / 3 + 0 s/mm * t", "10000000000000001 s / 3 + 0 s/mm * t",
]  # fmt: skip
CONDITIONS = [
    None, "t > 16 mm", "t <= 40 mm", "p_number = 4", "carbon > 0.2 %", "not carbon is known",
    "p_number in (1, 5A) and (t > 25 mm or outside_diameter < 200 mm)", "t + cap_width > 50 mm",
    "cap_width + 16 mm < 2 * t or 1 mm / (t - 40 mm) > 0",
    "carbon > 0.2 % or max(t, wall) >= 25 mm",
]  # fmt: skip
ROWS = st.lists(
    st.tuples(
        st.sampled_from(VALUES),
        st.sampled_from(CONDITIONS),
        st.sampled_from([{}, {}, {"p_number": ("1", "4")}, {"p_number": ("5A",)}]),
    ),
    min_size=1,
    max_size=8,
)


def made(drawn, way):
    return [
        Limit("hold time", Source("P-07"), when=when, where=where, id=str(n), **{way: value})
        for n, (value, when, where) in enumerate(drawn)
    ]


def asked(row, way, facts):
    """The figure of a row for a weld, None where it has none or does not hold."""
    try:
        if any(facts.get(name) not in words for name, words in row.where.items()):
            return None
        if row.when is not None and not row.when.holds(facts):
            return None
        return getattr(row, way).evaluate(facts)
    except (UnknownFact, FormulaError):
        return None


def governing(rows, way, facts):
    """Of the rows with a figure the first of the strictest, a fixed one before a formula."""
    found = None
    for row in sorted(rows, key=lambda row: bool(getattr(row, way).names)):
        amount = asked(row, way, facts)
        if amount is None:
            continue
        more = None if found is None else size(amount) - size(found[1])
        if more is None or (more > 0 if way == "minimum" else more < 0):
            found = row, amount
    return found


@pytest.mark.parametrize("way", ["minimum", "maximum"])
@given(drawn=ROWS)
@example(drawn=[(VALUES[-2], None, {}), (VALUES[-1], None, {}), (VALUES[-2], None, {})])
@example(drawn=[(each, "t > 16 mm", {}) for each in VALUES])
@settings(max_examples=40, deadline=None)
def test_the_strictest_row_that_holds_governs(way, drawn):
    rows = made(drawn, way)
    welds = [weld.facts for weld in welds_of(rows, Domain())]
    found = list(Strictest(rows, way, welds))
    expected = [governing(rows, way, facts) for facts in welds]
    assert [f and (f[0].id, f[1], str(f[1])) for f in found] == [
        e and (e[0].id, e[1], str(e[1])) for e in expected
    ]


def test_figures_no_float_holds_are_told_apart():
    huge = [f"{n} s/mm * t * (({10**39})^4)^4" for n in (1, 2)]
    facts = [{"t": Quantity.of(Fraction(16), "mm", LENGTH)}]
    for way, id in (("minimum", "1"), ("maximum", "0")):
        rows = made([(each, None, {}) for each in huge], way)
        ((row, _),) = Strictest(rows, way, facts)
        assert row.id == id


def test_no_rows_and_no_welds():
    assert list(Strictest([], "minimum", [{}])) == [None]
    rows = made([("1 h", None, {}), ("1 min/mm * t", None, {})], "minimum")
    assert list(Strictest(rows, "minimum", [])) == []
    assert list(columns([], Domain())) == []
