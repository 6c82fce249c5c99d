"""What governs one quantity, and what is printed of it: worked by hand."""

import pytest

from hts.base.quantities import LENGTH, RATE, TEMPERATURE, TIME, Quantity
from hts.limits import Limit, Source, demands
from hts.limits.dissimilar import ranked
from hts.limits.engine import Engine
from tests.rows import each_row

BOOK, OTHER, OWN = Source("some-book"), Source("other-book"), Source("P-07")
SIDE = {"both": {}}


def printed(quantity, si, us, source=BOOK, **parts):
    def pair():
        return Limit(quantity, source, system="US", **us, **parts)

    return Limit(quantity, source, system="SI", pair=pair, **si, **parts)


def degrees(text):
    return Quantity.read(text, TEMPERATURE)


def ids(found):
    return [each.limit.id for each in found]


TIMES = [
    Limit("hold time", BOOK, minimum="1 h", id="hour"),
    Limit("hold time", OTHER, minimum="90 min", maximum="4 h", id="own"),
    Limit("hold time", BOOK, minimum="60 min", maximum="3 h", id="again"),
]


def test_the_strictest_comes_first_and_equal_ones_by_name():
    found = demands(TIMES, SIDE)["hold time"]
    assert ids(found.ordered("minimum")) == ["own", "again", "hour"]
    assert ids(found.ordered("maximum")) == ["again", "own"]
    assert found.setter("maximum").limit.id == "again"
    assert found.runner_up("minimum").limit.id == "again"
    assert found.margin("minimum") == Quantity.read("30 min", TIME)
    # 3 h and 4 h: an hour, never minus one.
    assert found.margin("maximum") == Quantity.read("1 h", TIME)
    assert found.exactly is None and not found.empty and found.exclusive() == []


def test_each_least_value_with_each_greatest_one_that_excludes_it():
    rows = [
        Limit("hold time", BOOK, minimum=f"{least} h", maximum=f"{most} h", id=f"{least}-{most}")
        for least, most in ((1, 3), (2, 2), (4, 9))
    ]
    found = demands(rows, SIDE)["hold time"]
    assert [(low.limit.id, high.limit.id) for low, high in found.exclusive()] == [
        ("4-9", "2-2"), ("4-9", "1-3")
    ]  # fmt: skip
    # 2 h at least and at most is one value, and no conflict.
    assert demands(rows[:2], SIDE)["hold time"].exclusive() == []


def test_the_first_that_says_a_word():
    words = [
        Limit("post-weld heat treatment", source, status=status, id=status)
        for source, status in ((OWN, "exempt"), (BOOK, "required"), (OTHER, "exempt"))
    ]
    found = demands(words, SIDE)["post-weld heat treatment"]
    assert found.saying("exempt").limit.source is OWN
    assert found.saying("none") is None
    assert (found.status, found.status_setter().limit.source) == ("required", BOOK)
    assert demands(TIMES, SIDE)["hold time"].status is None


PAIRED = printed(
    "hold temperature",
    {"minimum": "595 degC", "maximum": "650 degC"},
    {"minimum": "1100 degF", "maximum": "1200 degF"},
)


def test_a_bound_as_it_is_printed_for_a_value():
    (demand,) = demands([PAIRED], SIDE)["hold temperature"].demands
    for system, least in (("SI", "595 degC"), ("US", "1100 degF"), ("", "595 degC")):
        assert str(demand.bound_in("minimum", system)) == least
    assert str(demand.bound_for("minimum", degrees("1150 degF"))) == "1100 degF"
    assert str(demand.bound_for("minimum", degrees("620 degC"))) == "595 degC"
    assert str(demand.both("minimum").beside) == "1100 degF"
    beside = demand.both("maximum", degrees("1150 degF"))
    assert (str(beside), str(beside.beside)) == ("1200 degF", "650 degC")
    assert demand.shown("minimum") == "595 degC" and demand.shown("exactly") == ""
    (plain,) = demands(TIMES[:1], SIDE)["hold time"].demands
    assert str(plain.bound_in("minimum", "US")) == str(plain.both("minimum")) == "1 h"


@each_row(
    ("direction", "value", "beside"),
    [
        # The strictest figure of the other system among those the value meets: 595 degC is printed
        # beside 1100 degF, 605 degC beside 1125 degF; 650 degC beside 1200 degF.
        ("minimum", "594 degC", None),
        ("minimum", "595 degC", "1100 degF"),
        ("minimum", "604 degC", "1100 degF"),
        ("minimum", "605 degC", "1125 degF"),
        ("minimum", "1100 degF", "595 degC"),
        ("minimum", "1125 degF", "605 degC"),
        ("maximum", "650 degC", "1200 degF"),
        ("maximum", "651 degC", None),
        ("maximum", "1200 degF", "650 degC"),
    ],
)
def test_the_figure_printed_beside_a_value(direction, value, beside):
    rows = [
        PAIRED,
        printed("hold temperature", {"minimum": "605 degC"}, {"minimum": "1125 degF"}, OTHER),
        Limit("hold temperature", OWN, minimum="600 degC", maximum="700 degC"),
    ]
    found = demands(rows, SIDE)["hold temperature"].printed(degrees(value), direction)
    assert (None if found.beside is None else str(found.beside)) == beside


@pytest.mark.parametrize(
    ("at", "beside"),
    [(None, "400 degF/h"), ("299 degC", "400 degF/h"), ("300 degC", "200 degF/h")],
)
def test_the_figure_printed_beside_a_rate_is_one_in_force(at, beside):
    rows = [
        printed("heating rate", {"maximum": "220 degC/h"}, {"maximum": "400 degF/h"}),
        printed("heating rate", {"maximum": "110 degC/h", "above": "300 degC"},
                {"maximum": "200 degF/h", "above": "600 degF"}),
    ]  # fmt: skip
    found = demands(rows, {"both": {"hold_minimum": degrees("600 degC")}})["heating rate"]
    value = Quantity.read("100 degC/h", RATE)
    temperature = None if at is None else degrees(at)
    assert str(found.printed(value, "maximum", temperature).beside) == beside


STEPS = [
    Limit("cooling rate", BOOK, maximum="200 degC/h", minimum="20 degC/h", id="all"),
    Limit("cooling rate", BOOK, maximum="100 degC/h", above="425 degC", id="hot"),
    Limit("cooling rate", BOOK, minimum="150 degC/h", above="600 degC", id="hottest"),
]


@each_row(
    ("at", "most", "least"),
    [
        (None, "all", "all"),
        ("424 degC", "all", "all"),
        ("425 degC", "hot", "all"),
        ("600 degC", "hot", "hottest"),
    ],
)
def test_the_rate_in_force(at, most, least):
    found = demands(STEPS, SIDE)["cooling rate"]
    temperature = None if at is None else degrees(at)
    assert found.rate_at(temperature).limit.id == most
    assert found.rate_at(temperature, "minimum").limit.id == least
    assert ids(found.conflict()) == ["hottest", "hot"]
    assert found.thresholds() == [None, degrees("425 degC"), degrees("600 degC")]


def test_a_step_alone_is_not_in_force_below_it():
    found = demands(STEPS[1:2], SIDE)["cooling rate"]
    assert found.thresholds() == [degrees("425 degC")]
    assert found.rate_at(None) is None and found.rate_at(degrees("424 degC")) is None


@each_row(
    ("numbers", "more", "apart"),
    [
        ({"A": "1", "B": "5A"}, {"B"}, "yes"),
        ({"A": "4", "B": "5B"}, {"B"}, "yes"),
        ({"A": "15E", "B": "5B"}, {"A"}, "yes"),
        ({"A": "1", "B": "3"}, {"A", "B"}, "yes"),
        ({"A": "5A", "B": "5C"}, {"A", "B"}, "yes"),
        ({"A": "9A", "B": "4"}, {"B"}, "yes"),
        ({"A": "1", "B": "9B"}, {"A", "B"}, "yes"),
        ({"A": "4", "B": "4"}, {"A", "B"}, "no"),
        # Not ranked: both count.
        ({"A": "1", "B": "11A"}, {"A", "B"}, "yes"),
        ({"A": "6"}, {"A"}, "no"),
    ],
)
def test_the_more_highly_alloyed_side(numbers, more, apart):
    # Carbon, C-1/2Mo and nickel steels, 1 1/4 Cr, 2 1/4 to 9 Cr, 9Cr-1Mo-V: common practice.
    facts = ranked({side: {"p_number": number} for side, number in numbers.items()})
    assert {side for side in facts if facts[side]["more_alloyed"] == "yes"} == more
    assert {each["dissimilar"] for each in facts.values()} == {apart}


def test_a_side_without_its_number_leaves_the_rank_open():
    open_ = ranked({"A": {"p_number": "1"}, "B": {}})
    assert open_ == {"A": {"p_number": "1"}, "B": {}}
    assert ranked({"A": {}, "B": {}}) == {side: {"more_alloyed": "yes"} for side in ("A", "B")}
    stated = ranked({"A": {"p_number": "1", "more_alloyed": "yes"}, "B": {"p_number": "4"}})
    assert {side: facts["more_alloyed"] for side, facts in stated.items()} == {
        "A": "yes", "B": "yes"
    }  # fmt: skip


def test_what_a_fact_given_by_a_limit_lacks_is_named():
    rows = [
        Limit("governing thickness", BOOK, exactly="thicker_wall"),
        Limit("hold time", BOOK, minimum="1 min/mm * t"),
    ]
    (open_,) = demands(rows, SIDE)["hold time"].unanswered
    assert (open_.names, open_.reason, open_.side) == (("thicker_wall",), "", None)
    # A definition of its own source alone counts for a source that has one.
    rows[0] = Limit("governing thickness", OTHER, exactly="thicker_wall")
    wall = {"both": {"thicker_wall": Quantity.read("30 mm", LENGTH)}}
    assert demands(rows, wall)["hold time"].minimum == Quantity.read("30 min", TIME)
    rows.append(Limit("governing thickness", BOOK, exactly="run_wall"))
    (open_,) = demands(rows, wall)["hold time"].unanswered
    assert open_.names == ("run_wall",)


def test_what_replaces_a_row_in_one_direction_leaves_the_other():
    rows = [
        Limit("hold temperature", OWN, minimum="600 degC", maximum="650 degC", id="range"),
        Limit("hold temperature", OTHER, minimum="620 degC", replaces=("P-07/*hold temperature",)),
        Limit("hold temperature", BOOK, maximum="640 degC", silent=True, id="quiet"),
    ]
    found = demands(rows, SIDE)["hold temperature"]
    assert [(d.limit.source.name, sorted(d.bounds)) for d in found.demands] == [
        ("P-07", ["maximum"]), ("other-book", ["minimum"])
    ]  # fmt: skip
    assert [d.limit.id for d in found.displaced] == ["range", "quiet"]
    # Alone, what is silent counts; beside rows of its own source as well.
    assert demands(rows[2:], SIDE)["hold temperature"].maximum == degrees("640 degC")
    own = Limit("hold temperature", BOOK, maximum="660 degC")
    assert demands([rows[2], own], SIDE)["hold temperature"].maximum == degrees("640 degC")
    least = Limit("hold temperature", OTHER, minimum="500 degC")
    assert demands([rows[2], least], SIDE)["hold temperature"].maximum == degrees("640 degC")


def test_sides_that_lack_the_same_are_told_as_one():
    limit = Limit("hold time", BOOK, minimum="1 min/mm * wall")
    length = Quantity.read("10 mm", LENGTH)
    sides = {"A": {"p_number": "1"}, "B": {"p_number": "4"}}
    (both,) = demands([limit], sides)["hold time"].unanswered
    assert both.side is None
    (one,) = demands([limit], {"A": sides["A"], "B": {"wall": length}})["hold time"].unanswered
    assert one.side == "A"
    alone = {"A": {"wall": length, "p_number": "1"}, "B": {"wall": length, "p_number": "4"}}
    assert [d.side for d in demands([limit], alone)["hold time"].demands] == [None]
    thicker = {"A": {"wall": length}, "B": {"wall": Quantity.read("20 mm", LENGTH)}}
    assert [d.side for d in demands([limit], thicker)["hold time"].demands] == ["A", "B"]


def test_a_pair_is_read_in_the_system_of_the_facts_it_is_about():
    # Printed 25 mm beside 1 in: a wall of 1 in (25.4 mm) is no more than 1 in; of 25.4 mm it is.
    row = printed("preheat", {"minimum": "95 degC", "when": "thicker_wall > 25 mm"},
                  {"minimum": "200 degF", "when": "thicker_wall > 1 in"},
                  where={"p_number": ("1",)})  # fmt: skip
    for wall, least in (("25 mm", None), ("25.4 mm", "95 degC"), ("1 in", None),
                        ("1.01 in", "200 degF")):  # fmt: skip
        facts = {"p_number": "1", "thicker_wall": Quantity.read(wall, LENGTH)}
        found = demands([row], {"both": facts})["preheat"].minimum
        assert (None if found is None else str(found)) == least
        other = demands([row], {"both": {**facts, "p_number": "4"}})["preheat"]
        assert not other.demands and not other.unanswered


def test_answers_know_what_they_have():
    found = Engine(TIMES).demands(SIDE)
    assert "hold time" in found and "preheat" not in found
    assert list(found) == ["hold time"] and len(found) == 1
    with pytest.raises(KeyError):
        found["preheat"]
