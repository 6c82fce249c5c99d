"""Small parts of what governs, each by values put together by hand."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from typing import Any

import pytest

from hts.base.quantities import LENGTH, Interval, Quantity
from hts.checking.govern.case import Case
from hts.checking.govern.instances import _hottest
from hts.checking.govern.meets import _inside
from hts.checking.govern.preheat import combined, facts_of_preheat
from hts.checking.rules.examples import BASES, changed
from hts.science.metallurgy.cooling_time import HIGHEST_PREHEAT
from tests.rows import each_row
from tests.texts import spec_of


def _mm(value: int) -> Quantity:
    return Quantity.of(Fraction(value), "mm", LENGTH)


#: Whole millimetres, of ranges both ends, or one.
_ENDS = (1, 2, 3)
RANGES = [
    *((low, high) for low, high in product(_ENDS, _ENDS) if low <= high),
    *((low, None) for low in _ENDS),
    *((None, high) for high in _ENDS),
]
VALUES = [*RANGES, 1, 2, 3]


def _made(value: Any) -> Any:
    if isinstance(value, tuple):
        low, high = (None if end is None else _mm(end) for end in value)
        return Interval(low, high)
    return _mm(value)


def _held(value: Any) -> set[int]:
    """The values of -9 to 9 in a range."""
    low, high = value if isinstance(value, tuple) else (value, value)
    return {n for n in range(-9, 10) if (low is None or n >= low) and (high is None or n <= high)}


@each_row("outer", VALUES)
def test_a_range_lies_in_another_where_all_of_it_does(outer: Any) -> None:
    for inner in VALUES:
        if isinstance(outer, tuple):
            expected = _held(inner) <= _held(outer)
        else:
            # A value is met by itself alone, not by a range that holds nothing else.
            expected = inner == outer
        assert _inside(_made(inner), _made(outer)) is expected, (inner, outer)


@each_row(
    ("base", "walls", "total"),
    [
        # EN 1011-2:2001, figure C.1: both sides of a butt, of a branch the run twice.
        ("butt", (20, 20), 40),
        ("butt", (20, 12), 32),
        ("butt", (20,), 40),
        ("branch", (20, 12), 52),
        ("branch", (12, 20), 44),
        ("branch", (12,), 24),
    ],
)
def test_ways_the_heat_flows_off(base: str, walls: tuple[int, ...], total: int) -> None:
    (joint,) = spec_of(BASES[base]).joints.values()
    assert [side.name for side in joint.sides][:1] == (
        ["run"] if base == "branch" else ["upstream"]
    )
    assert combined(joint, tuple(map(_mm, walls))) == _mm(total)


def test_the_hottest_of_several_holds() -> None:
    (joint,) = spec_of(BASES["bake"]).joints.values()
    tops = [str(each) for each in _ranges(joint)]
    assert len(tops) > 1
    assert str(_hottest(joint)) == max(tops, key=lambda top: int(top.split()[0]))
    text = changed("butt", (("hold  700 .. 730 degC for 2 h", "hold  by rule for 2 h"),))
    assert _hottest(next(iter(spec_of(text).joints.values()))) is None


def _ranges(joint: Any) -> list[Quantity]:
    return [
        segment.range.high
        for treatment in (*joint.bakes, *joint.cycles)
        for segment in treatment.entry.segments
        if isinstance(getattr(segment, "range", None), Interval)
    ]


@pytest.mark.parametrize(
    ("manganese", "is_told"),
    # Method A holds to 1.7 % of manganese (EN 1011-2:2001, annex C, from memory).
    [(("1.00", "1.00"), True), (("1.00", "2.00"), False), (("2.00", "2.00"), False)],
)
def test_of_an_analysis_out_of_range_nothing_is_told(
    manganese: tuple[str, str], is_told: bool
) -> None:
    first, second = (f"C 0.15 %, Mn {each} %, Si 0.25 %, Mo 0.05 %" for each in manganese)
    assert ("preheat_by_ce" in _of_two_metals(first, second)) is is_told


def _of_two_metals(first: str, second: str, preheat: str = "150 degC") -> dict[str, Any]:
    text = changed(
        "butt",
        (
            ("between    pipe and pipe", "between    pipe and other"),
            ("C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %, Mo 0.98 %", first),
            ('process "GTAW and SMAW"', 'process "GTAW and SMAW" filler rod heat input 1.5 kJ/mm'),
            ("  at least          150 degC", f"  at least          {preheat}"),
        ),
    )
    text += f'\nmaterial other {{\n  grade "A335 P22"\n  composition {second}\n}}\n'
    text += '\nfiller rod {\n  classification "E7018"\n  diffusible hydrogen 4 ml/100g\n}\n'
    spec = spec_of(text)
    assert spec.findings == []
    (joint,) = Case(spec).joints()
    return facts_of_preheat(joint)


def test_of_two_metals_the_richer_decides() -> None:
    lean, rich = ("C 0.15 %, Mn 1.00 %, Mo 0.05 %", "C 0.20 %, Mn 1.50 %, Mo 0.05 %")
    # EN 1011-2:2001, C.8 by hand: CET 0.20 + (1.50 + 0.05)/10 = 0.355; 697 * 0.355 = 247.44,
    # 160 tanh(25.4/35) = 99.27, 62 * 4^0.35 = 100.72, (53 * 0.355 - 32) * 1.5 = -19.78; - 328.
    for first, second in ((rich, lean), (lean, rich), (rich, rich)):
        found = _of_two_metals(first, second)
        assert found["preheat_by_cet"].to("degC") == 100
        # Method A goes no further than what is welded without preheat.
        assert "preheat_by_ce" not in found
    both = _of_two_metals(lean, lean)
    assert both["preheat_by_cet"] < found["preheat_by_cet"]
    assert both["preheat_by_ce"].to("degC") == 20


@each_row("analysis", ["C 0.20 %, Mo 0.05 %", "Mn 1.20 %, Mo 0.05 %"])
def test_without_carbon_and_manganese_nothing_is_told(analysis: str) -> None:
    whole = "C 0.20 %, Mn 1.20 %, Mo 0.05 %"
    for first, second in ((analysis, whole), (whole, analysis)):
        assert {"preheat_by_cet", "preheat_by_ce"}.isdisjoint(_of_two_metals(first, second))


def test_how_long_a_weld_cools_is_told_up_to_the_highest_preheat() -> None:
    whole = "C 0.20 %, Mn 1.20 %, Mo 0.05 %"
    for celsius, is_told in ((HIGHEST_PREHEAT, True), (HIGHEST_PREHEAT + 1, False)):
        found = _of_two_metals(whole, whole, f"{celsius:g} degC")
        assert ("cooling_time" in found) is is_told
