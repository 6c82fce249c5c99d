"""A procedure beside a book: where it asks for less, over typical welds. Worked by hand."""

import random
from fractions import Fraction

import pytest

from hts.base.quantities import LENGTH, TEMPERATURE, Quantity
from hts.limits import Limit, Source, beside_book, demands, looser
from hts.limits.beside_book import looser_anywhere
from hts.limits.cells import Domain
from hts.limits.looser import is_general_ceiling
from tests.rows import each_row

BOOK, OWN = Source("some-book"), Source("P-07")


def row(quantity, source=OWN, **parts):
    return Limit(quantity, source, **parts)


def found(own, book, domain=None, inches=False):
    """(P-number, wall in mm, quantity, direction) of all that is looser."""
    made = looser_anywhere(own, book, domain or Domain(), inches)
    return [(w.p_number, w.wall, item.quantity, item.direction) for w, item in made]


TIME = row("hold time", BOOK, minimum="2 min/mm * t", id="time")


def test_the_walls_for_which_an_hour_is_too_short():
    # 2 min/mm * t: 32 min at 16 mm, 80 min at 40 mm; a minute at 6 mm is too short as well.
    assert found([row("hold time", minimum="1 h")], [TIME]) == [("", 40, "hold time", "minimum")]
    assert [f[1] for f in found([row("hold time", minimum="12 min")], [TIME])] == [16, 40]


@each_row(
    ("own", "book", "loose"),
    [
        ({}, {}, True),
        ({"option": "thin-wall hold"}, {}, False),
        ({"silent": True}, {}, False),
        ({}, {"option": "thin-wall hold"}, False),
        ({}, {"silent": True}, False),
        ({"replaces": ("some-book/time",)}, {}, False),
        ({"replaces": ("some-book/other",)}, {}, True),
        ({"replaces": ("time",)}, {}, True),
    ],
)
def test_rows_that_are_compared(own, book, loose):
    mine = [row("hold time", minimum="30 min", **own)]
    theirs = [row("hold time", BOOK, minimum="1 h", id="time", **book)]
    # Both are for the same welds: those of one metal each.
    mine.append(row("cooling rate", maximum="100 degC/h", where={"p_number": ("1",)}))
    assert bool(found(mine, theirs, Domain(words={"p_number": ("1",)}))) is loose


@each_row(
    ("more", "general"),
    [
        # One figure for several metals, whatever the joint: no formula, no least, no metal asked.
        ({}, True), ({"when": "t > 20 mm"}, True), ({"when": "p_number = 5A"}, False),
        ({"when": "chromium > 2"}, False), ({"where": {"p_number": ("4",)}}, False),
        ({"where": {"p_number": ("4", "5A")}}, True), ({"minimum": "600 degC"}, False),
        ({"maximum": "lower_critical - 25 K"}, False), ({"maximum": None}, False),
    ],
)  # fmt: skip
def test_a_ceiling_over_what_books_give_for_each_metal(more, general):
    parts = {"maximum": "760 degC", **more}
    assert is_general_ceiling(row("hold temperature", BOOK, **parts)) is general
    assert not is_general_ceiling(row("bake temperature", BOOK, **parts))


def test_a_quantity_of_one_alone_is_not_compared():
    assert found([row("hold time", minimum="1 h")], [row("bake time", BOOK, minimum="2 h")]) == []
    assert found([row("own words", minimum="1 h")], [row("own words", BOOK, minimum="2 h")]) == []


def test_what_the_procedure_is_for():
    own = [row("hold temperature", minimum="600 degC")]
    book = [
        row("hold temperature", BOOK, minimum="620 degC", where={"p_number": ("1",)}),
        row("hold temperature", BOOK, minimum="650 degC", where={"p_number": ("4",)}),
        row("hold temperature", BOOK, minimum="700 degC", where={"weld_kind": ("fillet",)}),
    ]
    assert found(own, book, Domain(words={"p_number": ("4", "5A")})) == [
        ("4", 16, "hold temperature", "minimum")
    ]
    fillet = Domain(words={"p_number": ("5A",), "weld_kind": ("fillet",)})
    assert found(own, book, fillet) == [("5A", 16, "hold temperature", "minimum")]


def printed(quantity, si, us, **parts):
    def pair():
        return Limit(quantity, BOOK, system="US", **us, **parts)

    return Limit(quantity, BOOK, system="SI", pair=pair, **si, **parts)


@each_row(
    ("direction", "own", "loose"),
    [
        # 1300 degF is 704.4 degC, less than the 705 degC printed beside it: one of the two is kept.
        ("minimum", "1300 degF", False),
        ("minimum", "705 degC", False),
        ("minimum", "704 degC", True),
        ("minimum", "1299 degF", True),
        # 1400 degF is 760 degC.
        ("maximum", "760 degC", False),
        ("maximum", "1401 degF", True),
        ("maximum", "761 degC", True),
    ],
)
def test_one_of_the_two_figures_of_a_page_is_enough(direction, own, loose):
    si, us = {"minimum": ("705 degC", "1300 degF"), "maximum": ("760 degC", "1400 degF")}[direction]
    book = printed("hold temperature", {direction: si}, {direction: us}, where={"p_number": ("4",)})
    for inches in (False, True):
        mine = [row("hold temperature", where={"p_number": ("4",)}, **{direction: own})]
        assert bool(found(mine, [book], inches=inches)) is loose


@pytest.mark.parametrize(("own", "loose"), [("1 h/in * t", False), ("0.98 h/in * t", True)])
def test_a_time_by_the_inch_keeps_what_is_printed_beside_a_time_by_the_millimetre(own, loose):
    # 1 h/in is 2.36 min/mm; ASME B31.3-2016 Table 331.1.1 prints 2.4 beside it (from memory). A
    # time has no system of units of its own.
    book = printed("hold time", {"minimum": "2.4 min/mm * t"}, {"minimum": "1 h/in * t"})
    for inches in (False, True):
        assert bool(found([row("hold time", minimum=own)], [book], inches=inches)) is loose


@each_row(
    ("own", "loose"),
    [("315 degC", False), ("600 degF", False), ("316 degC", True), ("601 degF", True)],
)
def test_a_rate_may_begin_where_the_page_prints_it_in_either_system(own, loose):
    # 600 degF is 315.6 degC.
    rate = {"maximum": "300 degC/h"}
    book = printed("cooling rate", {**rate, "above": "315 degC"}, {**rate, "above": "600 degF"})
    mine = [row("cooling rate", maximum="100 degC/h", above=own)]
    for inches in (False, True):
        assert bool(found(mine, [book], inches=inches)) is loose
    assert bool(looser(demands(mine, {"both": {}}), demands([book], {"both": {}}))) is loose


def test_walls_are_tried_in_inches_where_the_procedure_has_them():
    # Printed 3 mm beside 1/4 in: 6 mm is more than the one and less than the other.
    book = printed(
        "post-weld heat treatment", {"when": "t > 3 mm"}, {"when": "t > 1/4 in"}, status="required"
    )
    own = [row("post-weld heat treatment", status="none")]
    thin = Domain(ends={"thicker_wall": (None, Quantity.of(6, "mm", LENGTH))})
    status = ("post-weld heat treatment", "status")
    walls = [f[1] for f in found(own, [book], thin) if f[2:] == status]
    assert 6 in walls
    # 1/4 in is 6.35 mm: no wall up to 6 mm is thicker.
    assert found(own, [book], thin, inches=True) == []


STEP = {"above": "315 degC"}


@each_row(
    ("own", "book", "expected"),
    [
        # At the same figure nothing is looser.
        ([{"maximum": "100 degC/h"}], [{"maximum": "100 degC/h"}], []),
        ([{"minimum": "50 degC/h"}], [{"minimum": "50 degC/h"}], []),
        ([{"minimum": "50 degC/h"}], [{"minimum": "51 degC/h"}], [(None, "50 degC/h")]),
        # A rate of the procedure that holds throughout is looser from where the book's begins.
        ([{"maximum": "200 degC/h"}], [{"maximum": "100 degC/h", **STEP}], [(315, "200 degC/h")]),
        # Throughout in both: told once, although 425 degC is a step of another row.
        (
            [{"maximum": "200 degC/h"}, {"maximum": "90 degC/h", "above": "425 degC"}],
            [{"maximum": "100 degC/h"}],
            [(None, "200 degC/h")],
        ),
        # Two rows of the procedure, each above that of the book.
        (
            [{"maximum": "200 degC/h"}, {"maximum": "150 degC/h", "above": "425 degC"}],
            [{"maximum": "100 degC/h"}],
            [(None, "200 degC/h"), (425, "150 degC/h")],
        ),
        # Two rows of the book below the one of the procedure.
        (
            [{"maximum": "200 degC/h"}],
            [{"maximum": "150 degC/h"}, {"maximum": "100 degC/h", "above": "425 degC"}],
            [(None, "200 degC/h"), (425, "200 degC/h")],
        ),
        # Not limited yet where the book's begins.
        (
            [{"maximum": "90 degC/h", "above": "425 degC"}],
            [{"maximum": "100 degC/h"}],
            [(None, None)],
        ),
        # What the procedure leaves open altogether is not looser.
        ([{"minimum": "50 degC/h"}], [{"maximum": "100 degC/h"}], []),
    ],
)
def test_rates_step_by_step(own, book, expected):
    both = {"both": {}}
    ours = demands([row("heating rate", **parts) for parts in own], both)
    theirs = demands([row("heating rate", BOOK, **parts) for parts in book], both)
    told = [
        (
            None if item.above is None else item.above.to("degC"),
            None if item.procedure is None else str(item.procedure.bounds[item.direction]),
        )
        for item in looser(ours, theirs)
    ]
    assert told == expected


WORDS = ("prohibited without approval", "required", "exempt", "none")


@each_row("own", WORDS)
@each_row("book", WORDS)
def test_of_words_the_later_in_the_list_is_looser(own, book):
    ours = demands([row("post-weld heat treatment", status=own)], {"both": {}})
    theirs = demands([row("post-weld heat treatment", BOOK, status=book)], {"both": {}})
    told = [(item.direction, item.procedure.limit.status) for item in looser(ours, theirs)]
    assert told == ([("status", own)] if WORDS.index(own) > WORDS.index(book) else [])


def test_a_figure_of_the_page_in_the_system_of_the_procedure():
    # 620 degC is 1148 degF; the book prints 1150 beside it.
    book = printed("hold temperature", {"minimum": "620 degC"}, {"minimum": "1150 degF"})
    theirs = demands([book], {"both": {}})
    for own, loose in (("1148 degF", True), ("1150 degF", False), ("620 degC", False)):
        ours = demands([row("hold temperature", minimum=own)], {"both": {}})
        assert bool(looser(ours, theirs)) is loose
    assert Quantity.read("1148 degF", TEMPERATURE).value == Fraction(620)


STEPS = [None, "315 degC", "400 degC"]
CONDITIONS = [None, "t > 16 mm", "p_number in (1, 5A) and t <= 40 mm", "soak_band > 60 mm",
              "gradient_band > 300 mm", "carbon > 0.2 %"]  # fmt: skip
FIGURES = {
    "heating rate": ["100 degC/h", "180 degF/h", "100 degC/h * 25 mm / t", "90 degC/h"],
    "hold time": ["1 h", "60 min", "2 min/mm * t", "120 s/mm * t", "1 h * gradient_band / 300 mm"],
    "gradient band": ["300 mm", "heated_band + 100 mm", "cap_width * 6"],
}


@pytest.mark.parametrize("seed", range(30))
def test_many_rows_are_compared_as_few_are(seed, monkeypatch):
    """Of many rows only those that can govern are put to each weld; of few all are."""
    pick = random.Random(seed).choice

    def made(number, source):
        quantity = pick(list(FIGURES))
        ways = ["maximum"] if quantity == "heating rate" else ["minimum"]
        if quantity == "heating rate" and pick([False] * 5 + [True]):
            ways.append("minimum")
        return row(
            quantity, source, id=f"{pick('abc')}{number}", when=pick(CONDITIONS),
            above=pick(STEPS) if quantity == "heating rate" else None,
            where=pick([{}, {}, {"p_number": ("1", "4")}]),
            replaces=pick([()] * 30 + [("P-07/*hold time",), ("some-book/a1",)]),
            **{way: pick(FIGURES[quantity]) for way in ways},
        )  # fmt: skip

    own = [made(number, OWN) for number in range(12)]
    book = [made(number, BOOK) for number in range(6)]

    def told(few):
        monkeypatch.setattr(beside_book, "_FEW", few)
        return [
            (weld.p_number, weld.wall, weld.outside, item.quantity, item.direction, item.above,
             item.book.limit.id,
             item.procedure and (item.procedure.limit.id, item.procedure.bounds))
            for weld, item in looser_anywhere(own, book, Domain(), inches=bool(seed % 2))
        ]  # fmt: skip

    assert told(0) == told(1000)
