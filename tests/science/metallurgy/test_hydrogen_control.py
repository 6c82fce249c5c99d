"""The hydrogen-control method of AWS D1.1 (from memory but for one entry)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.arguments import NotCovered
from hts.science.metallurgy.hydrogen_control import (
    LEVELS,
    group_of_index,
    group_of_pcm,
    minimum_preheat,
    susceptibility_index,
)
from tests.rows import each_row


def test_confirmed_entry():
    # AWS D1.1 annex, second-hand: Pcm below 0.28, H2, high restraint, 2 in: group D, 300 degF.
    group = group_of_pcm(0.279, "H2")
    assert group == "D"
    assert minimum_preheat("high", 2.0, group) == 300


@each_row(
    ("restraint", "inch", "group", "fahrenheit"),
    [
        # AWS D1.1 annex, from memory: the ends of the thickness rows.
        ("low", 0.374, "D", 65),
        ("low", 0.375, "D", 140),
        ("low", 0.75, "D", 140),
        ("low", 0.751, "D", 175),
        ("medium", 1.5, "B", 65),
        ("medium", 1.501, "B", 175),
        ("medium", 3.0, "A", 65),
        ("medium", 3.001, "A", 200),
        ("high", 5.0, "G", 320),
    ],
)
def test_rows(restraint, inch, group, fahrenheit):
    assert minimum_preheat(restraint, inch, group) == fahrenheit


@each_row(
    ("index", "group"),
    # AWS D1.1 annex, from memory: A 3.0, B 3.1-3.5, C 3.6-4.0 ... G 5.6-7.0.
    [(2.0, "A"), (3.0, "A"), (3.05, "B"), (3.5, "B"), (4.0, "C"), (4.5, "D"), (5.0, "E"),
     (5.5, "F"), (5.6, "G"), (7.0, "G")],
)  # fmt: skip
def test_groups(index, group):
    assert group_of_index(index) == group


def test_index():
    # 12 x 0.25 + log10 10
    assert susceptibility_index(0.25, LEVELS["H2"]) == pytest.approx(4.0)


@given(st.floats(0.10, 0.379), st.sampled_from(sorted(LEVELS)))
def test_index_and_table_differ_by_one_group_at_most(pcm, level):
    by_index = group_of_index(susceptibility_index(pcm, LEVELS[level]))
    assert ord(by_index) - ord(group_of_pcm(pcm, level)) <= 1


@given(
    st.sampled_from(["low", "medium", "high"]),
    st.floats(0.1, 6),
    st.floats(0, 2),
    st.sampled_from("ABCDEF"),
)
def test_preheat_never_falls_with_severity(restraint, inch, more, group):
    here = minimum_preheat(restraint, inch, group)
    assert minimum_preheat(restraint, inch + more, group) >= here
    assert minimum_preheat(restraint, inch, chr(ord(group) + 1)) >= here
    if restraint != "high":
        tighter = {"low": "medium", "medium": "high"}[restraint]
        assert minimum_preheat(tighter, inch, group) >= here


def test_refusals():
    with pytest.raises(NotCovered):
        group_of_index(7.1)
    with pytest.raises(NotCovered):
        group_of_pcm(0.38, "H1")
    with pytest.raises(ValueError, match="unknown group"):
        minimum_preheat("low", 1, "H")
    with pytest.raises(ValueError, match="unknown restraint"):
        minimum_preheat("severe", 1, "A")


# AWS D1.1 annex, from memory: the whole table once more, by group instead of by row.
BY_GROUP = {
    "low": {
        "A": [65, 65, 65, 65, 65], "B": [65, 65, 65, 65, 65], "C": [65, 65, 65, 100, 100],
        "D": [65, 140, 175, 200, 200], "E": [140, 210, 230, 250, 250],
        "F": [280, 280, 280, 280, 280], "G": [300, 300, 300, 300, 300],
    },
    "medium": {
        "A": [65, 65, 65, 65, 200], "B": [65, 65, 65, 175, 250], "C": [65, 65, 165, 230, 280],
        "D": [65, 175, 230, 265, 300], "E": [160, 240, 280, 300, 320],
        "F": [280, 290, 300, 300, 320], "G": [320, 320, 320, 320, 320],
    },
    "high": {
        "A": [65, 65, 65, 240, 240], "B": [65, 65, 185, 265, 265], "C": [65, 150, 240, 300, 300],
        "D": [100, 220, 280, 300, 300], "E": [230, 280, 300, 320, 320],
        "F": [300, 320, 320, 320, 320], "G": [320, 320, 320, 320, 320],
    },
}  # fmt: skip


@pytest.mark.parametrize("restraint", BY_GROUP)
def test_whole_table(restraint):
    for group, column in BY_GROUP[restraint].items():
        found = [minimum_preheat(restraint, inch, group) for inch in (0.25, 0.5, 1, 2, 4)]
        assert found == column


@pytest.mark.parametrize(
    ("level", "groups"),
    # AWS D1.1 annex, from memory: Pcm below .18, .23, .28, .33, .38.
    [("H1", "ABCDE"), ("H2", "BCDEF"), ("H3", "CDEFG")],
)
def test_groups_of_pcm(level, groups):
    below = (0.179, 0.229, 0.279, 0.329, 0.379)
    at = (0.0, 0.18, 0.23, 0.28, 0.33)
    assert "".join(group_of_pcm(pcm, level) for pcm in below) == groups
    assert "".join(group_of_pcm(pcm, level) for pcm in at) == groups


def test_groups_between():
    # AWS D1.1 annex, from memory: C from 3.6, D from 4.1, E from 4.6, F from 5.1.
    assert "".join(group_of_index(index) for index in (3.1, 3.6, 4.1, 4.6, 5.1)) == "BCDEF"
    assert LEVELS == {"H1": 5, "H2": 10, "H3": 30}
