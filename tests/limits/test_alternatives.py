"""Rows of one procedure held against each other: arithmetic of their conditions, no source."""

import pytest

from hts.base.quantities import LENGTH, Quantity
from hts.job.explain.books import called, every
from hts.limits import Limit, Source, book
from hts.limits.alternatives import idle, left_out, never_hold, overlaps
from hts.limits.cells import Domain, range_text
from hts.limits.clashes import clash
from hts.limits.gaps import gaps
from hts.syntax.formula import CONDITION, Formula
from tests.rows import each_row

SOURCE = Source("P-07")


def mm(number):
    return Quantity.of(number, "mm", LENGTH)


def rows(quantity, direction, *texts, above=None):
    """Rows written as `value when condition`."""
    made = []
    for number, text in enumerate(texts):
        bound, _, when = text.partition(" when ")
        made.append(
            Limit(
                quantity,
                SOURCE,
                **{direction: bound},
                when=when or None,
                above=above,
                id=str(number),
            )
        )
    return made


def gap_texts(*texts, domain=None):
    found = gaps(rows("heating rate", "maximum", *texts), "maximum", domain or Domain())
    return [range_text(gap.fact, gap.first, gap.last) for gap in found]


def overlap_texts(*texts, quantity="heating rate", direction="maximum", domain=None):
    found = overlaps(rows(quantity, direction, *texts), direction, domain or Domain())
    return [(range_text(o.fact, o.first, o.last), int(o.strict.id)) for o in found]


@each_row(
    ("texts", "expected"),
    [
        (["110 degC/h when t <= 60 mm", "55 degC/h when t > 65 mm"], ["60 mm < t <= 65 mm"]),
        (["110 degC/h when t < 60 mm", "55 degC/h when t > 60 mm"], ["t = 60 mm"]),
        (["110 degC/h when t <= 60 mm", "55 degC/h when t > 60 mm"], []),
        # The same place in other units: 2 in are 50.8 mm.
        (["110 degC/h when t <= 2 in", "55 degC/h when t > 50.8 mm"], []),
        (["110 degC/h when t <= 50 mm", "55 degC/h when t > 2 in"], ["50 mm < t <= 2 in"]),
        # Nothing below the first or above the last row: left to whatever else governs.
        (["110 degC/h when t > 10 mm", "55 degC/h when t > 60 mm"], []),
        # A base without a condition covers all.
        (["200 degC/h", "110 degC/h when t <= 60 mm", "55 degC/h when t > 65 mm"], []),
        # A third row about something else covers the place between.
        (
            [
                "110 degC/h when t <= 60 mm",
                "55 degC/h when t > 65 mm",
                "80 degC/h when thicker_wall > 1 mm or thicker_wall <= 1 mm",
            ],
            [],
        ),
        # Rows about other facts are no alternatives.
        (["110 degC/h when t <= 60 mm", "55 degC/h when wall > 65 mm"], []),
        (
            [
                "110 degC/h when t <= 60 mm and p_number = 1",
                "55 degC/h when t > 65 mm and p_number = 4",
            ],
            [],
        ),
        (
            [
                "110 degC/h when t <= 60 mm and p_number in (1, 4)",
                "55 degC/h when t > 65 mm and p_number = 4",
            ],
            ["60 mm < t <= 65 mm"],
        ),
        (["110 degC/h when not t > 60 mm", "55 degC/h when t > 65 mm"], ["60 mm < t <= 65 mm"]),
        (
            ["110 degC/h when t <= 20 mm or t > 90 mm", "55 degC/h when t > 30 mm and t <= 90 mm"],
            ["20 mm < t <= 30 mm"],
        ),
        (
            [
                "110 degC/h when carbon is known and carbon <= 0.25 %",
                "55 degC/h when carbon > 0.3 %",
            ],
            ["0.25 % < carbon <= 0.3 %"],
        ),
    ],
)
def test_gaps(texts, expected):
    assert gap_texts(*texts) == expected


def test_no_gap_outside_what_the_procedure_is_for():
    texts = ["110 degC/h when thicker_wall <= 60 mm", "55 degC/h when thicker_wall > 65 mm"]
    thin = Domain(condition=Formula.parse("thicker_wall <= 60 mm", CONDITION))
    assert gap_texts(*texts, domain=thin) == []
    assert gap_texts(*texts) == ["60 mm < thicker_wall <= 65 mm"]


def test_what_cannot_be_decided_is_left_open():
    assert gap_texts("110 degC/h when t + wall <= 60 mm", "55 degC/h when t > 65 mm") == []
    assert overlap_texts("110 degC/h when t <= wall", "55 degC/h when t >= wall") == []


@each_row(
    ("texts", "expected"),
    [
        (["110 degC/h when t <= 60 mm", "55 degC/h when t >= 60 mm"], [("t = 60 mm", 1)]),
        (["55 degC/h when t <= 60 mm", "110 degC/h when t > 50 mm"], [("50 mm < t <= 60 mm", 0)]),
        (["110 degC/h when t <= 60 mm", "110 degC/h when t >= 60 mm"], []),
        (["110 degC/h when t <= 60 mm", "55 degC/h when t > 60 mm"], []),
        # One is for a part of the other's cases.
        (["110 degC/h when t > 25 mm", "55 degC/h when t > 50 mm"], []),
        (["110 degC/h", "55 degC/h when t > 50 mm"], []),
        # Both give the same where they meet.
        (["min(220 degC/h, 5500 mm*degC/h / t) when t <= 25 mm", "220 degC/h when t >= 25 mm"], []),
    ],
)
def test_overlaps(texts, expected):
    if "mm*degC" in texts[0]:
        texts = ["220 degC/h * 25 mm / t when t <= 25 mm", "220 degC/h when t >= 25 mm"]
    assert overlap_texts(*texts) == expected


def test_a_longer_hold_is_the_stricter():
    texts = ["1 h when t <= 25 mm", "2 h when t >= 25 mm"]
    assert overlap_texts(*texts, quantity="hold time", direction="minimum") == [("t = 25 mm", 1)]


def test_rates_above_other_temperatures_are_no_alternatives():
    first = rows("heating rate", "maximum", "110 degC/h when t <= 60 mm", above="315 degC")
    second = rows("heating rate", "maximum", "55 degC/h when t >= 60 mm", above="425 degC")
    assert overlaps(first + second, "maximum", Domain()) == []


@each_row(
    ("texts", "words", "expected"),
    [
        (["95 degC when axis = horizontal", "120 degC when axis = vertical"], {}, ["inclined"]),
        (["95 degC when axis = horizontal"], {}, []),
        (["95 degC when p_number = 4", "120 degC when p_number = 5A"], {}, []),
        (
            ["95 degC when p_number in (1, 4)", "120 degC when p_number = 5A"],
            {"p_number": ("1", "4", "5A", "15E")},
            ["15E"],
        ),
        (
            ["95 degC when p_number = 4", "120 degC when p_number = 5A"],
            {"p_number": ("1", "4", "5A")},
            [],
        ),
        (
            ["95 degC when p_number in (1, 4)", "120 degC when p_number = 5A", "80 degC"],
            {"p_number": ("1", "4", "5A", "15E")},
            [],
        ),
    ],
)
def test_a_case_left_out(texts, words, expected):
    found = left_out(rows("hold temperature", "minimum", *texts), Domain(words=words))
    assert [each.word for each in found] == expected
    # Whether every P-number needs a preheat the owner decides; every way a pipe lies counts.
    found = left_out(rows("preheat", "minimum", *texts), Domain(words=words))
    assert [each.word for each in found] == ([] if words else expected)


@each_row(
    ("texts", "expected"),
    [
        (["2 h", "1 h when t <= 20 mm"], ["1"]),
        (["2 h", "3 h when t > 20 mm"], []),
        (["1 h", "2 h"], ["0"]),
        (["1 h", "60 min"], ["1"]),
        (["2 h when t > 10 mm", "1 h when t > 5 mm"], []),
        (["1 h", "2.5 min/mm * t"], []),
    ],
)
def test_rows_that_never_count(texts, expected):
    found = idle(rows("hold time", "minimum", *texts), "minimum", Domain())
    assert [each.row.id for each in found] == expected


def test_rows_that_hold_nowhere():
    (row,) = rows("hold time", "minimum", "2 h when thicker_wall > 80 mm")
    within = Domain(condition=Formula.parse("thicker_wall <= 75 mm", CONDITION))
    assert never_hold([row], within) == [row]
    assert never_hold([row], Domain()) == []


def clashed(least, greatest, quantity="hold time", **ends):
    (low,) = rows(quantity, "minimum", least)
    (high,) = rows(quantity, "maximum", greatest)
    return clash(low, high, Domain(ends=ends))


def test_values_that_exclude_each_other():
    found = clashed("720 degC", "700 degC", "hold temperature")
    assert (found.least.to("degC"), found.greatest.to("degC")) == (720, 700)
    assert clashed("700 degC", "720 degC", "hold temperature") is None
    assert (
        clashed("720 degC when t > 50 mm", "700 degC when t <= 50 mm", "hold temperature") is None
    )


def test_the_thickness_from_which_no_time_will_do():
    # 2 h at 2.5 min/mm is 48 mm.
    found = clashed("2.5 min/mm * t", "2 h", t=(None, mm(75)))
    assert found is not None and found.fact == "t" and found.rising
    assert abs(found.begins.to("mm") - 48) < 1
    assert clashed("2.5 min/mm * t", "2 h", t=(None, mm(48))) is None
    # From thin walls up: 30 min at 2.5 min/mm is 12 mm.
    found = clashed("30 min", "2.5 min/mm * t", t=(mm(5), mm(75)))
    assert found is not None and not found.rising
    assert abs(found.begins.to("mm") - 12) < 1


def test_a_fact_without_a_known_end_is_left_open():
    assert clashed("2.5 min/mm * t", "2 h") is None
    assert clashed("2.5 min/mm * t", "2 h", t=(mm(5), None)) is None


def book_rows(made, direction):
    """The rows of a book by what they limit, with the words they are for as a condition."""
    groups = {}
    for limit in made.limits:
        bound = getattr(limit, direction)
        if bound is None:
            continue
        said = [
            "{} in ({})".format(name, ", ".join(f'"{word}"' for word in words))
            for name, words in limit.where.items()
        ]
        said += [f"({limit.when.text})"] if limit.when is not None else []
        row = Limit(
            limit.quantity,
            limit.source,
            **{direction: bound.text},
            when=" and ".join(said) or None,
            above=limit.above.text if limit.above is not None else None,
            option=limit.option,
            id=limit.id,
        )
        groups.setdefault((limit.quantity, limit.option), []).append(row)
    return list(groups.values())


@each_row("made", every(), ids=called)
@each_row("direction", ["minimum", "maximum"])
def test_rows_of_standards_raise_no_alarm(made, direction):
    """Tables that have been in use for decades: what is found in them would be a false alarm."""
    for group in book_rows(made, direction):
        assert overlaps(group, direction, Domain()) == []
        assert gaps(group, direction, Domain()) == []


@pytest.mark.parametrize(
    ("name", "edition", "row", "expected"),
    [
        # AWS D1.1:2015 Table 3.3, EN 13445-4: the thicknesses of the middle rows.
        ("aws-d1.1", "2015", "preheat-a-20-38", "20 mm < thicker_wall <= 38 mm"),
        ("aws-d1.1", "2015", "preheat-b-38-65", "38 mm < thicker_wall <= 65 mm"),
        ("en-13445-4", "2021", "time-to-90", "35 mm < t <= 90 mm"),
    ],
)
def test_a_row_taken_out_of_a_table_leaves_a_gap(name, edition, row, expected):
    found = []
    for group in book_rows(book(name, edition), "minimum"):
        rest = [limit for limit in group if limit.id != row]
        if len(rest) < len(group):
            found += gaps(rest, "minimum", Domain())
    assert [range_text(gap.fact, gap.first, gap.last) for gap in found] == [expected]
