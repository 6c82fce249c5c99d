"""Sets of values against every case tried one by one: arithmetic, no source."""

from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hts.limits import Limit, Source
from hts.limits.alternatives import covered, overlaps
from hts.limits.cells import Domain, Grid, holds
from hts.limits.clashes import clashes
from hts.limits.facts import FACTS
from hts.limits.gaps import gaps
from hts.limits.regions import Regions, TooMuch, runs
from hts.syntax.formula import CONDITION, Formula, Text
from tests.limits.test_cells import CONDITIONS

SOME = [
    Domain(),
    Domain(words={"p_number": ("1", "4", "5A")}),
    Domain(condition=Formula.parse("thicker_wall <= 30 mm", CONDITION)),
    Domain(condition=Formula.parse("t != 25.4 mm or axis = vertical", CONDITION)),
]
DOMAINS = st.sampled_from(SOME)


def rows(texts, direction="maximum"):
    return [
        Limit(
            "heating rate", Source("P-07"), when=text, id=str(number),
            **{direction: f"{100 + number} degC/h"},
        )
        for number, text in enumerate(texts)
    ]  # fmt: skip


@given(texts=st.lists(CONDITIONS, min_size=1, max_size=3), domain=DOMAINS)
@settings(max_examples=60)
def test_boxes_hold_just_where_the_condition_does(texts, domain):
    made = [Formula.parse(text, CONDITION) for text in texts]
    regions = Regions(made, domain)
    axes = list(regions.axes)
    whole = domain.condition
    inside = whole if whole is not None and set(whole.names) & set(axes) else None
    for numbers in product(*(range(len(samples)) for samples in regions.axes.values())):
        cell = {name: regions.axes[name][n] for name, n in zip(axes, numbers, strict=True)}
        for condition, boxes in zip(made, regions.boxes, strict=True):
            held = any(
                all(bits >> n & 1 for bits, n in zip(box, numbers, strict=True)) for box in boxes
            )
            assert held == (holds(condition, cell) and holds(inside, cell))


def one_by_one(made, domain):
    """Gaps, every line of cells looked at by itself."""
    grid = Grid([row.when for row in made], domain)
    found = set()
    for fact in grid.axes:
        if isinstance(FACTS[fact].kind, Text):
            continue
        for cells in grid.along(fact):
            covering = [[row for row in made if holds(row.when, cell)] for cell in cells]
            filled = [n for n, held in enumerate(covering) if held]
            for low, high in pairwise(filled):
                if high == low + 1:
                    continue
                for below, above in product(covering[low], covering[high]):
                    names = set(below.when.names)
                    if below is not above and fact in names and names == set(above.when.names):
                        found.add((below.id, above.id, fact))
                        break
    return found


@given(texts=st.lists(CONDITIONS, min_size=2, max_size=4), domain=DOMAINS)
@settings(max_examples=80, deadline=None)
def test_gaps_are_those_found_line_by_line(texts, domain):
    made = rows(texts)
    found = {(gap.below.id, gap.above.id, gap.fact) for gap in gaps(made, "maximum", domain)}
    assert found == one_by_one(made, domain)


@given(texts=st.lists(CONDITIONS, min_size=2, max_size=2), domain=DOMAINS)
@settings(max_examples=80, deadline=None)
def test_one_region_within_another(texts, domain):
    made = rows(texts)
    grid = Grid([row.when for row in made], domain)
    first, second = made
    found = covered(made, lambda row, other: row is first and other is second, domain)
    cells = [cell for cell in grid if holds(first.when, cell)]
    assert bool(found) == all(holds(second.when, cell) for cell in cells)


def test_many_rows_are_compared_and_too_many_cases_are_told():
    told = []
    split = [
        f"t > {n} mm and t <= {n + 1} mm and p_number = 4 and thicker_wall > {n % 7} mm"
        for n in range(300)
        if n != 150
    ]
    made = rows(split)
    assert overlaps(made, "maximum", Domain(), told.append) == []
    found = gaps(made, "maximum", Domain(), told.append)
    assert ("149", "150", "t") in {(gap.below.id, gap.above.id, gap.fact) for gap in found}
    assert not told
    twice = " and ".join(f"(t != {n} mm or wall != {n} mm)" for n in range(1, 9))
    for looked in (gaps, overlaps):
        looked(rows([twice, "t > 5 mm"]), "maximum", Domain(), told.append)
    minimum, maximum = rows([twice], "minimum"), rows(["t > 5 mm"])
    assert list(clashes(minimum, maximum, Domain(), told.append)) == []
    assert [[row.when.text for row in each] for each in told] == [[twice]] * 3


def test_a_domain_of_too_many_boxes_is_no_silent_yes():
    twice = " and ".join(f"(t != {n} mm or wall != {n} mm)" for n in range(1, 9))
    with pytest.raises(TooMuch):
        Regions(
            [Formula.parse("t > 5 mm", CONDITION)],
            Domain(condition=Formula.parse(twice, CONDITION)),
        )


@given(st.integers(min_value=0, max_value=10**6))
def test_runs_of_bits(bits):
    assert sum(1 << n for low, high in runs(bits) for n in range(low, high + 1)) == bits
