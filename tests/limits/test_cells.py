"""The grid of cases against conditions tried at any value at all: arithmetic, no source."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.quantities import LENGTH, Quantity
from hts.limits.cells import Domain, Grid, Undecidable, facts, holds, range_text
from hts.syntax.formula import CONDITION, Formula
from tests.rows import each_row


def condition(text):
    return Formula.parse(text, CONDITION)


COMPARED = st.builds(
    "{} {} {}".format,
    st.sampled_from(["t", "thicker_wall"]),
    st.sampled_from(["<", "<=", ">", ">=", "=", "!="]),
    st.sampled_from(["10 mm", "1 in", "25.4 mm", "2 * 20 mm", "60 mm"]),
)
WORDS = st.sampled_from(["p_number = 1", "p_number in (4, 5A)", "p_number != 4", "axis = vertical"])
CONDITIONS = st.recursive(
    COMPARED | WORDS,
    lambda inner: (
        st.builds("({} and {})".format, inner, inner)
        | st.builds("({} or {})".format, inner, inner)
        | st.builds("not ({})".format, inner)
    ),
    max_leaves=4,
)


@given(
    text=CONDITIONS,
    t=st.fractions(min_value=1, max_value=90),
    wall=st.fractions(min_value=1, max_value=90),
    p=st.sampled_from(["1", "3", "4", "5A"]),
    axis=st.sampled_from(["horizontal", "vertical", "inclined"]),
)
def test_a_cell_decides_for_all_its_values(text, t, wall, p, axis):
    made = condition(text)
    values = {"t": t, "thicker_wall": wall}
    known = {name: Quantity.of(v, "mm", LENGTH) for name, v in values.items()}
    known |= {"p_number": p, "axis": axis}
    matching = []
    for cell in Grid([made], Domain(words={"p_number": ("1", "3", "4", "5A")})):
        inside = True
        for name, sample in cell.items():
            if name in values:
                low = sample.low.value if sample.low is not None else None
                high = sample.high.value if sample.high is not None else None
                if sample.is_point:
                    inside &= values[name] == low
                else:
                    inside &= low is None or low < values[name]
                    inside &= high is None or values[name] < high
            else:
                inside &= sample.value == known[name]
        if inside:
            matching.append(cell)
    assert len(matching) == 1
    assert made.holds(facts(matching[0])) is made.holds(known)


def test_only_what_the_procedure_is_for():
    within = Domain(words={"p_number": ("1", "4")}, condition=condition("thicker_wall <= 75 mm"))
    grid = Grid([condition("thicker_wall > 50 mm and p_number = 4")], within)
    assert {cell["p_number"].value for cell in grid} == {"1", "4"}
    assert max(cell["thicker_wall"].value.value for cell in grid) == 75


def test_a_word_that_no_condition_names_is_looked_at():
    grid = Grid([condition("service = amine")], Domain())
    assert [holds(condition("service = amine"), cell) for cell in grid] == [True, False]


@each_row(
    "text",
    ["t > thicker_wall", "thicker_wall < t", "2 * t > 20 mm", "sqrt(t * wall) > 20 mm",
     "t - wall = 0 mm", "not carbon is known", "not (t > 10 mm and carbon is known)"],
)  # fmt: skip
def test_more_than_a_fixed_value_is_left_open(text):
    with pytest.raises(Undecidable):
        Grid([condition(text)], Domain())


def test_too_many_cells_are_left_open():
    many = [condition(f"t > {n} mm and wall > {n} mm and throat > {n} mm") for n in range(1, 20)]
    with pytest.raises(Undecidable):
        Grid(many, Domain())


def test_ranges_read_as_conditions_do():
    samples = Grid([condition("t > 60 mm or t > 65 mm")], Domain()).axes["t"]
    said = [range_text("t", sample, sample) for sample in samples]
    assert said == ["t < 60 mm", "t = 60 mm", "60 mm < t < 65 mm", "t = 65 mm", "t > 65 mm"]
    assert range_text("t", samples[2], samples[3]) == "60 mm < t <= 65 mm"


def test_a_count_is_a_plain_number():
    samples = Grid([condition("nominal_size > 6")], Domain()).axes["nominal_size"]
    assert [sample.value for sample in samples] == [Fraction(3), Fraction(6), Fraction(7)]


def millimetres(least, greatest):
    ends = (None if end is None else Quantity.of(end, "mm", LENGTH) for end in (least, greatest))
    return Domain(ends={"t": tuple(ends)})


@each_row(
    ("domain", "said"),
    [
        (Domain(), "t < 0 mm; t = 0 mm; 0 mm < t < 65 mm; t = 65 mm; t > 65 mm"),
        # What a condition names beyond the ends tells nothing apart; an end stands for itself.
        (millimetres(0, 65), "t = 0 mm; 0 mm < t < 65 mm; t = 65 mm"),
        (millimetres(5, None), "t = 5 mm; 5 mm < t < 65 mm; t = 65 mm; t > 65 mm"),
        (millimetres(None, 60), "t < 0 mm; t = 0 mm; 0 mm < t < 60 mm; t = 60 mm"),
        (millimetres(5, 60), "t = 5 mm; 5 mm < t < 60 mm; t = 60 mm"),
    ],
)
def test_pieces_within_the_ends(domain, said):
    samples = Grid([condition("t > 0 mm or t >= 65 mm")], domain).axes["t"]
    assert "; ".join(range_text("t", each, each) for each in samples) == said
    for each in samples:
        value = each.value.value
        if not each.is_point:
            assert each.low is None or each.low.value < value
            assert each.high is None or value < each.high.value


def test_what_a_formula_works_out_is_tried_more_often_and_never_beyond_what_is_known():
    worked = [Formula.parse("2 * t", LENGTH)]
    tried = Grid([condition("t > 10 mm")], millimetres(None, 20), worked).axes["t"]
    # Four between the two, evenly.
    assert [each.value.value for each in tried] == [10, 12, 14, 16, 18, 20]
    assert Grid([], Domain(), worked).axes["t"] == ()
    (alone,) = Grid([condition("t is known")], Domain()).axes["t"]
    assert not alone.is_point and (alone.low, alone.high) == (None, None)
