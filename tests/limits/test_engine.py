"""The engine: intersections, order, options, circles, procedures against books."""

from itertools import permutations

from hypothesis import given
from hypothesis import strategies as st

from hts.base.quantities import LENGTH, RATE, TEMPERATURE, TIME, Quantity
from hts.limits import Limit, Source, demands, looser
from tests.rows import each_row

BOOK = Source("some-book")
OTHER = Source("other-book")
OWN = Source("P-07")
SIDE = {"both": {}}


def time(text):
    return Quantity.read(text, TIME)


def temperature(text):
    return Quantity.read(text, TEMPERATURE)


bounds = st.lists(
    st.tuples(st.integers(500, 800), st.integers(500, 800)).map(sorted), min_size=1, max_size=5
)


@given(bounds, st.randoms())
def test_intersection_is_exact_and_has_no_order(pairs, random):
    limits = [
        Limit("hold temperature", Source(f"book-{n}"), minimum=f"{a} degC", maximum=f"{b} degC")
        for n, (a, b) in enumerate(pairs)
    ]
    found = demands(limits, SIDE)["hold temperature"]
    # The intersection of closed intervals (elementary set theory).
    low, high = max(a for a, _ in pairs), min(b for _, b in pairs)
    assert (found.minimum.value, found.maximum.value) == (low, high)
    assert found.empty is (low > high)
    random.shuffle(limits)
    again = demands(limits, SIDE)["hold temperature"]
    assert again.setter("minimum").limit is found.setter("minimum").limit
    assert again.setter("maximum").limit is found.setter("maximum").limit


def test_a_tenth_of_a_degree_is_not_lost():
    limits = [
        Limit("hold temperature", BOOK, minimum="705 degC"),
        Limit("hold temperature", OTHER, maximum="1301 degF"),
    ]
    # NIST SP 811 B.8: 1301 degF is exactly 705 degC, so the range is one temperature, not none.
    found = demands(limits, SIDE)["hold temperature"]
    assert not found.empty
    limits[0] = Limit("hold temperature", BOOK, minimum="705.01 degC")
    low, high = demands(limits, SIDE)["hold temperature"].conflict()
    assert (low.limit.source, high.limit.source) == (BOOK, OTHER)


def test_runner_up_and_margin():
    limits = [
        Limit("hold time", BOOK, minimum="2 h"),
        Limit("hold time", BOOK, minimum="110 min"),
        Limit("hold time", OTHER, minimum="90 min"),
    ]
    found = demands(limits, SIDE)["hold time"]
    assert found.runner_up("minimum").limit.source is OTHER
    assert found.margin("minimum") == time("30 min")
    assert found.margin("maximum") is None


def test_thickness_is_read_by_each_source_in_its_own_way():
    facts = {
        "both": {
            "thicker_wall": Quantity.read("30 mm", LENGTH),
            "thinner_wall": Quantity.read("20 mm", LENGTH),
        }
    }
    limits = [
        Limit("governing thickness", BOOK, exactly="thicker_wall"),
        Limit("governing thickness", OTHER, exactly="thinner_wall"),
        *(Limit("hold time", source, minimum="1 min/mm * t") for source in (BOOK, OTHER, OWN)),
    ]
    for order in permutations(limits):
        found = demands(order, facts)
        minutes = {d.limit.source.name: d.minimum.to("min") for d in found["hold time"].demands}
        # A procedure without a definition of its own goes by the largest.
        assert minutes == {"some-book": 30, "other-book": 20, "P-07": 30}
        assert found["governing thickness"].exactly == Quantity.read("30 mm", LENGTH)
        assert not found["governing thickness"].empty


def test_a_stated_value_goes_before_a_derived_one():
    limits = [
        Limit("soak band", BOOK, minimum="50 mm"),
        Limit("heated band", BOOK, minimum="soak_band + 100 mm"),
    ]
    assert demands(limits, SIDE)["heated band"].minimum == Quantity.read("150 mm", LENGTH)
    stated = {"both": {"soak_band": Quantity.read("80 mm", LENGTH)}}
    assert demands(limits, stated)["heated band"].minimum == Quantity.read("180 mm", LENGTH)


def test_a_circle_leaves_both_open_and_ends():
    limits = [
        Limit("soak band", BOOK, minimum="heated_band - 10 mm"),
        Limit("heated band", BOOK, minimum="soak_band + 10 mm"),
    ]
    found = demands(limits, SIDE)
    assert found["soak band"].minimum is None
    for quantity in ("soak band", "heated band"):
        (item,) = found[quantity].unanswered
        assert "depends on itself" in item.reason


def test_unanswered_names_everything_at_once():
    limit = Limit(
        "hold time",
        BOOK,
        minimum="1 min/mm * wall",
        where={"p_number": ("1",)},
        when="carbon > 0 %",
    )
    (item,) = demands([limit], {"a": {}, "b": {}})["hold time"].unanswered
    assert item.names == ("p_number", "carbon")
    assert item.side is None
    # A word that does not fit decides it, whatever else is missing.
    assert not demands([limit], {"a": {"p_number": "3"}})["hold time"].unanswered


def test_a_limit_without_a_value_is_unanswered():
    limit = Limit("hold time", OWN, minimum="1 h * (1 mm / (wall - wall))")
    facts = {"both": {"wall": Quantity.read("10 mm", LENGTH)}}
    (item,) = demands([limit], facts)["hold time"].unanswered
    assert "zero" in item.reason


def test_options_are_taken_only_where_asked_for_and_allowed():
    limits = [
        Limit("hold time", BOOK, minimum="1 h", id="plain"),
        Limit("hold time", BOOK, minimum="4 h", id="long", option="longer", replaces=("plain",)),
    ]
    assert demands(limits, SIDE)["hold time"].minimum == time("1 h")
    taken = demands(limits, SIDE, ["longer"])["hold time"]
    assert taken.minimum == time("4 h")
    assert [d.limit.id for d in taken.displaced] == ["plain"]
    forbidden = Limit("option", OWN, option="longer", status="forbidden")
    assert demands([*limits, forbidden], SIDE, ["longer"])["hold time"].minimum == time("1 h")


def test_a_procedure_can_stand_in_for_a_named_row():
    limits = [
        Limit("zones", BOOK, minimum="4", id="zones-large"),
        Limit("zones", OWN, minimum="3", replaces=("some-book/zones-large",)),
    ]
    assert demands(limits, SIDE)["zones"].minimum == 3


def test_a_procedure_stands_in_for_a_row_on_its_own_side_alone():
    # Of two sides only the one of P-No. 4 has a line of the procedure.
    limits = [
        Limit("preheat", BOOK, minimum="150 degC", id="row", where={"p_number": ("1", "4")}),
        Limit("preheat", OWN, minimum="120 degC", replaces=("some-book/row",),
              where={"p_number": ("4",)}),
    ]  # fmt: skip
    found = demands(limits, {"A": {"p_number": "1"}, "B": {"p_number": "4"}})["preheat"]
    assert found.minimum == temperature("150 degC")
    assert {(d.side, d.limit.source.name) for d in found.demands} == {
        ("A", "some-book"), ("B", "P-07")
    }  # fmt: skip
    assert [d.side for d in found.displaced] == ["B"]
    alone = demands(limits, {"B": {"p_number": "4"}})["preheat"]
    assert alone.minimum == temperature("120 degC")


def test_a_step_and_a_distance_are_printed_in_the_system_the_joint_is_written_in():
    # A book prints 300 degC beside 600 degF, which is 315.6 degC: each joint gets its own. A band
    # is a length and goes by the wall, where the joint has its temperatures in the other system.
    def printed(quantity, si, us):
        pair = Limit(quantity, BOOK, system="US", **us)
        return Limit(quantity, BOOK, system="SI", pair=lambda: pair, **si)

    rate = printed("heating rate", {"maximum": "220 degC/h", "above": "300 degC"},
                   {"maximum": "400 degF/h", "above": "600 degF"})  # fmt: skip
    band = printed("soak band", {"minimum": "50 mm"}, {"minimum": "2 in"})
    for wall, critical, above, least in (
        ("20 mm", "725 degC", "300 degC", "50 mm"),
        ("1 in", "1340 degF", "600 degF", "2 in"),
        ("1 in", "725 degC", "300 degC", "2 in"),
        ("20 mm", "1340 degF", "600 degF", "50 mm"),
    ):
        facts = {
            "thicker_wall": Quantity.read(wall, LENGTH),
            "hold_minimum": temperature(critical),
        }
        found = demands([rate, band], {"both": facts})
        assert found["heating rate"].demands[0].above == temperature(above)
        assert found["soak band"].minimum == Quantity.read(least, LENGTH)


def test_the_strictest_word_governs():
    limits = [
        Limit("post-weld heat treatment", BOOK, status="exempt"),
        Limit("post-weld heat treatment", OTHER, status="required"),
        Limit("post-weld heat treatment", OWN, status="none"),
    ]
    assert demands(limits, SIDE)["post-weld heat treatment"].status == "required"


def rate(text):
    return Quantity.read(text, RATE)


STEPS = [
    Limit("heating rate", BOOK, maximum="200 degC/h", above="315 degC"),
    Limit("heating rate", OTHER, maximum="110 degC/h", above="425 degC"),
    Limit("heating rate", OTHER, maximum="300 degC/h"),
]


@each_row(
    ("at", "allowed"),
    [
        ("20 degC", "300 degC/h"),
        ("314 degC", "300 degC/h"),
        ("315 degC", "200 degC/h"),
        ("424 degC", "200 degC/h"),
        ("425 degC", "110 degC/h"),
        ("700 degC", "110 degC/h"),
    ],
)
def test_rates_are_a_step_function(at, allowed):
    found = demands(STEPS, SIDE)["heating rate"]
    assert found.rate_at(temperature(at)).maximum == rate(allowed)
    assert found.rate_at(None).maximum == rate("300 degC/h")
    assert found.thresholds() == [None, temperature("315 degC"), temperature("425 degC")]


def test_a_least_rate_conflicts_only_where_both_hold():
    low = Limit("cooling rate", BOOK, minimum="165 degC/h", above="315 degC")
    assert demands([low, Limit("cooling rate", OWN, maximum="100 degC/h", above="650 degC")], SIDE)[
        "cooling rate"
    ].empty
    assert not demands([low, Limit("cooling rate", OWN, maximum="200 degC/h")], SIDE)[
        "cooling rate"
    ].empty


@each_row(
    ("own", "book", "expected"),
    [
        ({"minimum": "1 h"}, {"minimum": "2 h"}, ["minimum"]),
        ({"minimum": "2 h"}, {"minimum": "1 h"}, []),
        ({"maximum": "3 h"}, {"minimum": "1 h"}, []),
        ({"maximum": "3 h"}, {"maximum": "2 h"}, ["maximum"]),
    ],
)
def test_looser(own, book, expected):
    ours = demands([Limit("hold time", OWN, **own)], SIDE)
    theirs = demands([Limit("hold time", BOOK, **book)], SIDE)
    assert [item.direction for item in looser(ours, theirs)] == expected


def test_looser_rate_that_starts_late():
    ours = demands([Limit("heating rate", OWN, maximum="100 degC/h", above="425 degC")], SIDE)
    theirs = demands([Limit("heating rate", BOOK, maximum="200 degC/h", above="315 degC")], SIDE)
    (item,) = looser(ours, theirs)
    assert item.procedure is None
    assert item.above == temperature("315 degC")


def test_looser_word():
    ours = demands([Limit("post-weld heat treatment", OWN, status="none")], SIDE)
    theirs = demands([Limit("post-weld heat treatment", BOOK, status="required")], SIDE)
    assert [item.direction for item in looser(ours, theirs)] == ["status"]
    assert looser(theirs, ours) == []
