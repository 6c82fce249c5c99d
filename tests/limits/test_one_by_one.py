"""Rows held against each other, beside every case tried one by one: arithmetic, no source."""

import random
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hts.base.quantities import LENGTH, RATE, Quantity
from hts.limits import Limit, Source
from hts.limits.alternatives import covered, idle, left_out, never_hold, overlaps
from hts.limits.cells import Domain, Grid, facts, holds
from hts.limits.clashes import clashes
from hts.syntax.formula import CONDITION, Formula
from tests.limits.test_alternatives import mm
from tests.limits.test_cells import CONDITIONS
from tests.limits.test_regions import DOMAINS, SOME
from tests.rows import each_row

#: Two of them alike, one in other units, and one that is 100 degC/h at 25 mm.
VALUES = st.sampled_from(["90 degC/h", "100 degC/h", "180 degF/h", "100 degC/h * 25 mm / t"])
STEPS = st.sampled_from([None, None, None, "315 degC"])
ROWS = st.lists(st.tuples(CONDITIONS | st.none(), VALUES, STEPS), min_size=2, max_size=4)
WAYS = st.sampled_from(["minimum", "maximum"])


def alike(seed):
    """Four rows about the same two facts, so that many are alternatives."""
    pick = random.Random(seed).choice
    return [
        (
            f"t {pick(['<', '<=', '>', '>=', '!='])} {pick(['10 mm', '1 in', '60 mm'])} and "
            f"p_number {pick(['= 1', 'in (1, 4)', 'in (4, 5A)', '!= 4'])}",
            pick(["90 degC/h", "100 degC/h", "180 degF/h", "100 degC/h * 25 mm / t"]),
            pick([None, None, None, "315 degC"]),
        )
        for _ in range(4)
    ]


def made(drawn, way):
    return [
        Limit("heating rate", Source("P-07"), when=when, above=step, id=str(n), **{way: value})
        for n, (when, value, step) in enumerate(drawn)
    ]


def amount(row, way, cell):
    """What a row asks for in a cell, None where its formula has no `t` there."""
    formula = getattr(row, way)
    if formula.names and "t" not in cell:
        return None
    found = formula.evaluate(facts(cell))
    assert found.dimension is RATE
    return found.value


def step(row):
    return row.above.text if row.above is not None else None


def ends(first, last):
    """From where to where two samples reach; other rows may have cut their axis finer."""
    if first.low is None and first.high is None:
        return first.value, last.value
    return first.low, last.high, first.is_point, last.is_point


def pairwise(row, other, way, domain):
    """An overlap as (fact, first, last, stricter), or None."""
    grid = Grid([row.when, other.when], domain)
    for fact in grid.axes:
        for cells in grid.along(fact):
            held = [(holds(row.when, cell), holds(other.when, cell)) for cell in cells]
            if not {(True, False), (False, True), (True, True)} <= set(held):
                continue
            both = [cell for cell, pair in zip(cells, held, strict=True) if pair == (True, True)]
            asked = [(amount(row, way, cell), amount(other, way, cell)) for cell in both]
            if any(None in pair for pair in asked) or all(a == b for a, b in asked):
                continue
            first = any((a < b) if way == "maximum" else (a > b) for a, b in asked)
            strict = row.id if first else other.id
            return fact, *ends(both[0][fact], both[-1][fact]), strict
    return None


@given(drawn=ROWS, way=WAYS, domain=DOMAINS)
@settings(max_examples=40, deadline=None)
def test_overlaps(drawn, way, domain):
    compare_overlaps(made(drawn, way), way, domain)


@given(drawn=ROWS, way=WAYS, domain=DOMAINS)
@settings(max_examples=40, deadline=None)
def test_rows_that_never_count_and_rows_that_hold_nowhere(drawn, way, domain):
    compare_idle(made(drawn, way), way, domain)


@pytest.mark.parametrize("way", ["minimum", "maximum"])
@pytest.mark.parametrize("domain", SOME)
def test_alternatives(way, domain):
    for seed in range(60):
        rows = made(alike(seed), way)
        compare_overlaps(rows, way, domain)
        compare_idle(rows, way, domain)


def compare_overlaps(rows, way, domain):
    expected = []
    for number, row in enumerate(rows):
        for earlier in rows[:number]:
            named = [set(each.when.names) if each.when else set() for each in (row, earlier)]
            if not named[0] or named[0] != named[1] or step(row) != step(earlier):
                continue
            found = pairwise(earlier, row, way, domain)
            if found is not None:
                expected.append((earlier.id, row.id, *found))
    found = [
        (
            min(o.strict.id, o.loose.id), max(o.strict.id, o.loose.id), o.fact,
            *ends(o.first, o.last), o.strict.id,
        )
        for o in overlaps(rows, way, domain)
    ]  # fmt: skip
    assert found == expected
    assert all(o.direction == way for o in overlaps(rows, way, domain))


def compare_idle(rows, way, domain):
    fixed = [row for row in rows if not getattr(row, way).names]
    cells = list(Grid([row.when for row in fixed], domain))
    sign = 1 if way == "minimum" else -1
    expected = []
    for number, row in enumerate(fixed):
        for place, other in enumerate(fixed):
            more = sign * (amount(other, way, {}) - amount(row, way, {}))
            if place == number or step(row) != step(other) or more < 0:
                continue
            if more == 0 and place > number:
                continue
            if all(holds(other.when, cell) for cell in cells if holds(row.when, cell)):
                expected.append((row.id, other.id))
                break
    assert [(i.row.id, i.stronger.id) for i in idle(rows, way, domain)] == expected
    everywhere = list(Grid([row.when for row in rows], domain))
    nowhere = [r.id for r in rows if not any(holds(r.when, cell) for cell in everywhere)]
    assert [row.id for row in never_hold(rows, domain)] == nowhere


@given(drawn=ROWS, domain=DOMAINS)
@settings(max_examples=60, deadline=None)
def test_rows_that_hold_only_where_another_does(drawn, domain):
    rows = made(drawn, "maximum")
    cells = list(Grid([row.when for row in rows], domain))
    expected = [
        (row.id, other.id)
        for row, other in product(rows, rows)
        if row is not other
        and step(row) is step(other) is None
        and all(holds(other.when, cell) for cell in cells if holds(row.when, cell))
    ]

    def wider(row, other):
        return step(row) is step(other) is None

    found = covered(rows, wider, domain)
    assert [(each.row.id, each.stronger.id) for each in found] == expected


@given(lows=ROWS, highs=ROWS, domain=DOMAINS)
@settings(max_examples=60, deadline=None)
def test_clashes_of_fixed_values(lows, highs, domain):
    low = [row for row in made(lows, "minimum") if not row.minimum.names]
    high = [row for row in made(highs, "maximum") if not row.maximum.names]
    expected = []
    for one, other in product(low, high):
        least, greatest = amount(one, "minimum", {}), amount(other, "maximum", {})
        grid = Grid([one.when, other.when], domain)
        if least > greatest and any(
            holds(one.when, cell) and holds(other.when, cell) for cell in grid
        ):
            expected.append((one.id, other.id, least, greatest, ""))
    told = []
    found = [
        (c.low.id, c.high.id, c.least.value, c.greatest.value, c.fact)
        for c in clashes(low, high, domain, told.append)
    ]
    assert (found, told) == (expected, [])


@given(st.lists(st.sampled_from(["horizontal", "vertical", "inclined"]), min_size=2, max_size=4))
def test_the_one_word_left_out(words):
    drawn = [(f"axis = {word}", "90 degC/h", None) for word in words]
    missing = sorted({"horizontal", "vertical", "inclined"} - set(words))
    found = [each.word for each in left_out(made(drawn, "maximum"), Domain())]
    assert found == (missing if len(missing) == 1 else [])


#: Minimum, maximum, walls from and to in mm, the values where they are furthest apart, from which
#: wall on they clash and whether upwards.
BEGINS = [
    # 2.5 min/mm reaches 2 h at 48 mm; 187.5 min at 75 mm.
    ("2.5 min/mm * t", "2 h", 10, 75, (187.5, 120), 48, True),
    # 30 min at 2.5 min/mm is 12 mm; 12.5 min at 5 mm.
    ("30 min", "2.5 min/mm * t", 5, 75, (30, 12.5), 12, False),
    # Everywhere: there is no wall where it begins.
    ("3 h", "1 min/mm * t", 5, 75, (180, 5), None, True),
    # 1 min/mm * 60 mm = 1 h: the end of the domain is the place where they still meet.
    ("1 min/mm * t", "1 h", 10, 60, None, None, True),
    # 1 min/mm * t > 120 min - 1 min/mm * t from 60 mm on; 75 min against 45 min at 75 mm.
    ("1 min/mm * t", "120 min - 1 min/mm * t", 10, 75, (75, 45), 60, True),
    # From close to nothing: 1 min at 0.5 mm, where no wall of the domain meets it.
    ("2 min/mm * t", "1 min", None, 20, (40, 1), 0.5, True),
]


@each_row(("least", "greatest", "low", "high", "worst", "at", "rising"), BEGINS)
def test_where_a_clash_begins(least, greatest, low, high, worst, at, rising):
    ends = {"t": tuple(None if end is None else mm(end) for end in (low, high))}
    rows = (
        [Limit("hold time", Source("P-07"), minimum=least)],
        [Limit("hold time", Source("P-07"), maximum=greatest)],
    )
    found = list(clashes(*rows, Domain(ends=ends), lambda rows: pytest.fail("left open")))
    if worst is None:
        assert found == []
        return
    (clash,) = found
    assert (clash.least.to("min"), clash.greatest.to("min")) == worst
    assert clash.fact == "t"
    assert clash.begins is None if at is None else clash.begins.to("mm") == pytest.approx(at, 1e-4)
    assert clash.rising is rising


def test_a_clash_begins_where_the_rows_hold():
    rows = (
        [Limit("hold time", Source("P-07"), minimum="2.5 min/mm * t", when="t > 50 mm")],
        [Limit("hold time", Source("P-07"), maximum="2 h", when="p_number = 4")],
    )
    ends = {"t": (mm(10), mm(75))}
    (clash,) = clashes(*rows, Domain(ends=ends), lambda rows: None)
    assert clash.begins is None and clash.fact == "t"
    assert clash.case == {"t": Quantity.of(75, "mm", LENGTH), "p_number": "4"}


def test_no_more_than_three_overlaps_of_one_row():
    drawn = [(f"t <= {50 + n} mm", f"{100 + n} degC/h", None) for n in range(5)]
    drawn.append(("t > 20 mm", "90 degC/h", None))
    found = overlaps(made(drawn, "maximum"), "maximum", Domain())
    assert [(o.loose.id, o.strict.id) for o in found] == [("0", "5"), ("1", "5"), ("2", "5")]


def test_pairs_looked_at_closely_are_counted_and_those_left_are_told():
    # 21 rows with values that vary make 210 pairs; 20 of them make 190.
    for count, left in ((20, 0), (21, 1)):
        # The same rate, each time written otherwise.
        drawn = [
            (f"t != {n} mm", f"100 degC/h * {n} * 25 mm / ({n} * t)", None)
            for n in range(5, 5 + count)
        ]
        told = []
        overlaps(made(drawn, "maximum"), "maximum", Domain(), told.append)
        assert len(told) == left
    for count, left in ((14, 0), (15, 1)):
        low = made([(None, f"{200 + n} degC/h", None) for n in range(count)], "minimum")
        high = made([(None, f"{100 + n} degC/h", None) for n in range(count)], "maximum")
        told = []
        assert len(list(clashes(low, high, Domain(), told.append))) == min(count * count, 200)
        assert len(told) == left


def test_one_row_for_a_condition_that_compares_two_facts_is_left_open():
    rows = made(
        [("t > thicker_wall", "90 degC/h", None), ("t > 5 mm", "80 degC/h", None)], "maximum"
    )
    told = []
    assert never_hold(rows, Domain(), told.append) == []
    assert [i.row.id for i in idle(rows, "maximum", Domain(), told.append)] == []
    assert Formula.parse("t > 5 mm", CONDITION).holds({"t": mm(6)})
    assert told == []
