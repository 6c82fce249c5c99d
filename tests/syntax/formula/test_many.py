"""Formulas for many cases at once, beside the plain evaluator, which is the meaning: arithmetic."""

from fractions import Fraction

from hypothesis import example, given, settings
from hypothesis import strategies as st

from hts.base.quantities import LENGTH, TEMPERATURE, TIME, Quantity
from hts.syntax.formula import CONDITION, Cases, Formula, FormulaError, UnknownFact, Words


def mm(number):
    return Quantity.of(Fraction(str(number)), "mm", LENGTH)


#: Facts some of which are missing, alike in other units, zero, negative, or words where a number
#: is asked for: what no sound row says has to come out the same, too.
CASES = st.lists(
    st.fixed_dictionaries(
        {},
        optional={
            "t": st.sampled_from(
                [mm(0), mm(25), mm("25.4"), Quantity.of(1, "in", LENGTH), mm(-3), mm(60), "steel"]
            ),
            "wall": st.sampled_from([mm(10), mm(25), mm("1/3"), Fraction(7)]),
            "p_number": st.sampled_from(["1", "4", "5A", Words(("1", "4")), Fraction(4)]),
            "welds": st.sampled_from([0, 1, 3, Fraction(5, 2)]),
            "hold": st.sampled_from([Quantity.of(2, "h", TIME), Quantity.of(90, "min", TIME)]),
            "lower_critical": st.sampled_from(
                [Quantity.of(725, "degC", TEMPERATURE), Quantity.of(1337, "degF", TEMPERATURE)]
            ),
        },
    ),
    max_size=8,
)
NAMES = st.sampled_from(["t", "wall", "welds", "hold", "lower_critical", "p_number"])
WRITTEN = st.sampled_from(
    ["25 mm", "1 in", "0 mm", "3", "0", "-2", "1/3", "90 min", "725 degC", "20 K", "30 degC"]
)


def _calls(inner):
    several = st.lists(inner, min_size=2, max_size=3).map(", ".join)
    return st.one_of(
        st.builds("{} {} {}".format, inner, st.sampled_from("+-*/"), inner),
        st.builds("({})".format, inner),
        st.builds("-({})".format, inner),
        st.builds("({})^{}".format, inner, st.sampled_from("1234")),
        st.builds("{}({})".format, st.sampled_from(["sqrt", "abs"]), inner),
        st.builds("{}({})".format, st.sampled_from(["max", "min"]), several),
        st.builds(
            "{}({}, {})".format,
            st.sampled_from(["round_up", "round_down", "round_to"]), inner, inner,
        ),
    )  # fmt: skip


NUMBERS = st.recursive(NAMES | WRITTEN, _calls, max_leaves=6)
RELATIONS = st.sampled_from(["<", "<=", ">", ">=", "=", "!="])
COMPARED = st.one_of(
    st.builds("{} {} {}".format, NUMBERS, RELATIONS, NUMBERS),
    st.builds("{} {} {}".format, NAMES, st.sampled_from(["=", "!="]), st.sampled_from("145A")),
    st.builds("{} in ({})".format, NAMES, st.sampled_from(["1, 4", "5A", "1, 3", "steel, 1"])),
    st.builds("{} is known".format, NAMES),
)
CONDITIONS = st.recursive(
    COMPARED,
    lambda inner: st.one_of(
        st.builds("{} {} {}".format, inner, st.sampled_from(["and", "or"]), inner),
        st.builds("not ({})".format, inner),
        st.builds("({})".format, inner),
    ),
    max_leaves=5,
)


def parsed(text, wants=None):
    try:
        return Formula.parse(text, wants)
    except FormulaError:
        return None


def plainly(asked, facts):
    try:
        return asked(facts)
    except (UnknownFact, FormulaError):
        return None


@given(text=CONDITIONS, cases=CASES)
@example(text="not (t / wall > 1 and p_number = 1)", cases=[{"p_number": "4"}, {"t": mm(1)}])
@example(text="3 mm / (t - 25 mm) > 1 or wall > 1 mm", cases=[{"t": mm(25), "wall": mm(10)}])
@example(text="wall > 1 mm or 3 mm / (t - 25 mm) > 1", cases=[{"t": mm(25), "wall": mm(10)}])
@example(text="not welds", cases=[{"welds": 1}])
@settings(max_examples=300, deadline=None)
def test_conditions(text, cases):
    condition = parsed(text, CONDITION)
    if condition is None:
        return
    held = Cases(cases).holds(condition)
    expected = [plainly(condition.holds, facts) is True for facts in cases]
    assert [bool(held >> n & 1) for n in range(len(cases))] == expected
    assert held >> len(cases) == 0


@given(text=NUMBERS, cases=CASES)
@example(text="t / (wall - 10 mm)", cases=[{"t": mm(1), "wall": mm(10)}])
@example(text="t / -wall", cases=[{"t": mm(1), "wall": mm(10)}, {"t": mm(1)}])
@example(text="round_to(-welds / 2, 1)", cases=[{"welds": 1}, {"welds": 3}])
@example(text="round_up(welds, -1)", cases=[{"welds": 1}])
@example(text="(((welds / 7 + 1/3)^4)^4)^4", cases=[{"welds": 3}])
@example(text=f"(((({'9' * 40} * welds)^4)^4)^4)^4", cases=[{"welds": 1}])
@example(text=f"((({'9' * 40} * welds / {'9' * 40})^4)^4)^4", cases=[{"welds": 1}])
@settings(max_examples=300, deadline=None)
def test_numbers(text, cases):
    formula = parsed(text)
    if formula is None:
        return
    ratios, group_of = Cases(cases).numbers(formula)
    for facts, group in zip(cases, group_of, strict=True):
        above, below = ratios[group]
        assert below >= 0
        assert (Fraction(above, below) if below else None) == plainly(formula.number, facts)


@given(words=st.sampled_from([("1",), ("4", "5A"), ()]), cases=CASES)
def test_words(words, cases):
    held = Cases(cases).named("p_number", words)
    assert [bool(held >> n & 1) for n in range(len(cases))] == [
        facts.get("p_number") in words for facts in cases
    ]
