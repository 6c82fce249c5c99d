"""Rows worked out for typical welds: the welds themselves, and what governs each, by hand."""

import random
from fractions import Fraction

import pytest

from hts.base.quantities import LENGTH, Quantity
from hts.limits import Limit, Source
from hts.limits.cells import Domain
from hts.limits.worked import CRITICAL, columns
from tests.rows import each_row

SOURCE = Source("some-book")


def _mm(number):
    return Quantity.of(Fraction(str(number)), "mm", LENGTH)


def only(*rows, domain=None):
    (column,) = columns(rows, domain or Domain())
    return column


def at(column, metal, wall):
    """The value for a weld of this metal and wall in mm, of the first size there is."""
    return next(b for w, b in column.bounds if (w.p_number, w.wall) == (metal, Fraction(wall)))


def preheat(least, **parts):
    return Limit("preheat", SOURCE, minimum=least, **parts)


def test_a_typical_weld_has_the_facts_of_one():
    # 24 in pipe of 610 mm by 16 mm: bore 578 mm; cap 16 + 5; soak band 21 + 2 * 16; heated band
    # 53 + 4 * sqrt(289 * 16) = 53 + 4 * 68 mm. Of 100 mm: soak band 105 + 2 * 50.
    column = only(
        preheat("95 degC", where={"p_number": ("1",)}),
        preheat("150 degC", when="inside_radius > 200 mm"),
        domain=Domain(ends={"thicker_wall": (None, _mm(100))}),
    )
    welds = {(w.wall, w.outside): w.facts for w, _ in column.bounds}
    thin, thick = welds[16, 610], welds[100, 610]
    assert {name: thin[name].to("mm") for name in ("inside_diameter", "inside_radius", "cap_width",
            "soak_band", "heated_band")} == {"inside_diameter": 578, "inside_radius": 289,
            "cap_width": 21, "soak_band": 53, "heated_band": 325}  # fmt: skip
    assert thin["nominal_size"] == 24
    assert round(float(thin["girth"].to("mm"))) == 1916  # 610 mm * pi
    assert thick["soak_band"].to("mm") == 205
    assert {welds[16, 610][f"{name}wall"].to("mm") for name in ("", "run_", "branch_")} == {16}


def test_walls_that_make_no_pipe_are_left_out():
    column = only(preheat("95 degC", when="t > 10 mm and outside_diameter < 200 mm"))
    # 114.3 mm / 4 = 28.575 mm
    assert max(w.wall for w, _ in column.bounds if w.outside < 200) == 16
    edge = only(preheat("95 degC", when="t > 28.575 mm and outside_diameter < 200 mm"))
    assert max(w.wall for w, _ in edge.bounds if w.outside < 200) < _mm(28.575).value


def test_both_sides_of_a_step_are_looked_at():
    column = only(preheat("95 degC", when="t <= 25 mm"), preheat("120 degC", when="t > 25 mm"))
    values = {w.wall: b.value.to("degC") for w, b in column.bounds}
    assert values[Fraction(25)] == 95
    assert sorted(set(values) - {6, 16, 40, 100}) == [
        25 * (1 - Fraction(1, 100000)), 25, 25 * (1 + Fraction(1, 100000))
    ]  # fmt: skip
    assert values[25 * (1 + Fraction(1, 100000))] == 120


@pytest.mark.parametrize(("metal", "degrees"), [("1", 95), ("4", 150), ("5A", None)])
def test_a_row_is_for_its_metals_alone(metal, degrees):
    column = only(
        preheat("95 degC", where={"p_number": ("1", "4")}),
        preheat("150 degC", where={"p_number": ("4",)}),
        preheat("10 degC", where={"p_number": ("1",)}),
    )
    found = at(column, metal, 16)
    assert (found and found.value.to("degC")) == degrees


def test_the_lowest_of_the_greatest_governs():
    rows = [
        Limit("hold temperature", SOURCE, maximum=f"{degrees} degC", where={"p_number": ("1",)})
        for degrees in (680, 650, 670)
    ]
    found = at(only(*rows), "1", 16)
    assert (found.value.to("degC"), found.number) == (650, found.value.value)


def test_what_the_rows_are_for_bounds_the_walls():
    thick = Domain(ends={"thicker_wall": (_mm(20), _mm(50))})
    column = only(preheat("95 degC", when="t > 30 mm"), domain=thick)
    assert {w.wall for w, _ in column.bounds} == {
        20, 40, 50, *(30 * (1 + Fraction(near, 100000)) for near in (-1, 0, 1))
    }  # fmt: skip


def test_critical_temperatures_are_those_of_the_grades():
    # Ac1 of A106-B, P1, P11, P22, P5 and P91 from memory of ASME B31.1 Table 129.3.1.
    assert CRITICAL == {"1": 725, "3": 735, "4": 775, "5A": 805, "5B": 820, "15E": 800}


@pytest.mark.parametrize("way", ["minimum", "maximum"])
def test_the_strictest_row_is_that_of_all_rows_tried(way):
    for seed in range(25):
        pick = random.Random(seed).choice
        rows = [
            Limit(
                "hold time",
                SOURCE,
                id=str(number),
                where=pick([{}, {"p_number": ("1", "4")}, {"p_number": ("5A",)}]),
                when=pick([None, "t > 16 mm", "t <= 40 mm", "p_number = 4", "carbon > 0.2 %"]),
                **{way: pick(["1 h", "90 min", "2 h", "3 min/mm * t", "5 min/mm * throat"])},
            )
            for number in range(4)
        ]
        for column in columns(rows, Domain()):
            for weld, bound in column.bounds:
                asked = []
                for row in rows:
                    metals = row.where.get("p_number", (weld.p_number,))
                    formula = getattr(row, way)
                    if weld.p_number not in metals or "throat" in formula.names:
                        continue
                    if row.when is not None and (
                        "carbon" in row.when.names or not row.when.holds(weld.facts)
                    ):
                        continue
                    asked.append(formula.evaluate(weld.facts).value)
                strict = max if way == "minimum" else min
                assert (bound and bound.number) == (strict(asked) if asked else None)
                if bound is not None:
                    assert bound.holds_for(weld)


def test_rows_are_parted_by_what_they_limit_and_where():
    rows = [
        Limit("heating rate", SOURCE, maximum="100 degC/h", when="t > 20 mm"),
        Limit("heating rate", SOURCE, maximum="90 degC/h", minimum="5 degC/h", when="t > 30 mm"),
        Limit("heating rate", SOURCE, maximum="80 degC/h", above="400 degC", when="t > 20 mm"),
        Limit("heating spread", SOURCE, maximum="80 K", within="5 m", when="t > 20 mm"),
        Limit("hold time", SOURCE, minimum="1 h", option="thin-wall hold", when="t > 20 mm"),
        Limit("hold time", SOURCE, minimum="1 h", silent=True, when="t > 20 mm"),
        Limit("own words", SOURCE, minimum="1 h", when="t > 20 mm"),
        # Nothing of a typical weld tells these rows apart.
        Limit("bake time", SOURCE, minimum="1 h", when="service = steam"),
    ]
    found = [(c.quantity, c.direction, len(c.rows)) for c in columns(rows, Domain())]
    assert found == [
        ("heating rate", "maximum", 2),
        ("heating rate", "minimum", 1),
        ("heating rate", "maximum", 1),
        ("heating spread", "maximum", 1),
    ]


@each_row(
    ("rows", "domain", "metals", "outside", "walls"),
    [
        # What no row names is not varied: one size of pipe, one wall, no metal.
        ([("1 h", None, {"p_number": ("1",)})], Domain(), "1 3 4 5A 5B 15E", {323.9}, {16}),
        ([("1 h", "outside_diameter > 1 m", {})], Domain(), "", {114.3, 610}, {16}),
        # 114.3 / 4 = 28.6 mm, 610 / 4 = 152.5 mm; common walls up to 60 mm where no end is known.
        ([("1 min/mm * inside_radius", None, {})], Domain(), "", {114.3, 610}, {6, 16, 40}),
        ([("1 min/mm * cap_width", None, {})], Domain(), "", {114.3, 610}, {6, 16, 40}),
        ([("1 h/K * (lower_critical - 700 degC)", None, {})], Domain(), "1 3 4 5A 5B 15E",
         {323.9}, {16}),
        ([("1 h", None, {"p_number": ("1",)})], Domain(words={"p_number": ("4", "8")}), "4",
         {323.9}, {16}),
        ([("1 h", None, {"p_number": ("1",)})], Domain(words={"p_number": ("8",)}), "",
         {323.9}, {16}),
        ([("1 h", "t > 5 mm", {})],
         Domain(ends={"thicker_wall": (_mm(16), _mm(40)), "outside_diameter": (_mm(114.3), None)}),
         "", {323.9}, {16, 40}),
        ([("1 min/mm * girth", None, {})], Domain(ends={"outside_diameter": (None, _mm(114.3))}),
         "", {114.3}, {16}),
        ([("1 min/mm * girth", None, {})], Domain(ends={"outside_diameter": (_mm(610), None)}),
         "", {610}, {16}),
        ([("1 min/mm * girth", None, {})], Domain(ends={"outside_diameter": (_mm(700), None)}),
         "", {323.9}, {16}),
    ],
)  # fmt: skip
def test_the_welds_that_tell_rows_apart(rows, domain, metals, outside, walls):
    column = only(
        *(Limit("hold time", SOURCE, minimum=m, when=when, where=w) for m, when, w in rows),
        domain=domain,
    )
    welds = [weld for weld, _ in column.bounds]
    assert " ".join(dict.fromkeys(weld.p_number for weld in welds)) == metals
    assert {float(weld.outside) for weld in welds} == outside
    assert {float(weld.wall) for weld in welds if weld.wall.denominator == 1} == walls
    assert all(4 * weld.wall < weld.outside for weld in welds)
    lines = list(column.lines())
    assert sum(map(len, lines)) == len(welds)
    assert all([w.wall for w, _ in line] == sorted(w.wall for w, _ in line) for line in lines)


def test_all_facts_of_a_typical_weld():
    # 323.9 mm by 16 mm of P-No. 4: bore 291.9 mm; cap 21 mm; soak band 53 mm; root of
    # 145.95 * 16 is 48.3, so 4 * 48 mm more for the heated band; Ac1 775 degC as above.
    column = only(preheat("95 degC", where={"p_number": ("4",)}), preheat("90 degC",
                  when="t > 1 mm"))  # fmt: skip
    weld = next(w for w, _ in column.bounds if (w.p_number, w.wall) == ("4", 16))
    shown = {name: fact if isinstance(fact, str | Fraction) else float(fact.value)
             for name, fact in weld.facts.items()}  # fmt: skip
    assert shown.pop("girth") == pytest.approx(1017.6, abs=0.1)
    assert shown.pop("qualified_hold") == 5 * 3600
    walls = dict.fromkeys(
        ("t", "wall", "thicker_wall", "thinner_wall", "weld_thickness", "run_wall", "branch_wall"),
        16,
    )
    assert shown == {
        **walls, "outside_diameter": 323.9, "inside_diameter": 291.9, "inside_radius": 145.95,
        "nominal_size": 12, "weld_kind": "girth-butt", "more_alloyed": "yes", "cap_width": 21,
        "soak_band": 53, "heated_band": 245, "p_number": "4", "lower_critical": 775,
        "filler_lower_critical": 775,
    }  # fmt: skip


def test_a_row_that_asks_whether_a_measure_is_known_counts():
    # Every typical weld has a wall: the row is as good as one without a condition.
    for condition in (
        "wall is known",
        "p_number = 1 and t is known",
        "wall is known and not carbon is known",
    ):
        rows = [preheat("95 degC"), preheat("150 degC", when=condition)]
        column = only(*rows, domain=Domain(words={"p_number": ("1",)}))
        assert {bound and bound.row for _, bound in column.bounds} == {rows[1]}
