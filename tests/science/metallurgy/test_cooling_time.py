"""t8/5 by EN 1011-2:2001 Annex D, worked in exact fractions from the formulas as they are printed,
and what its Table C.1 lets go without preheat, at both sides of each step."""

from __future__ import annotations

from fractions import Fraction

import pytest

from hts.base.arguments import NotCovered
from hts.science.metallurgy.cooling_time import (
    cooling_time,
    shape_factors,
    three_dimensional,
    transition_thickness,
    two_dimensional,
)  # fmt: skip
from hts.science.metallurgy.preheat_thickness import method_a

CASES = [(p, q, d) for p in (-20, 20, 150, 450) for q in ("0.5", "1", "2.4") for d in (6, 20, 60)]


def printed(
    preheat: int, q: Fraction, d: int, f2: Fraction, f3: Fraction
) -> tuple[Fraction, Fraction]:
    """t8/5 in seconds, in two and in three dimensions."""
    tp = Fraction(preheat)
    near, far = 1 / (500 - tp), 1 / (800 - tp)
    flat = (4300 - Fraction("4.3") * tp) * 10**5 * q**2 / d**2 * (near**2 - far**2) * f2
    return flat, (6700 - 5 * tp) * q * (near - far) * f3


@pytest.mark.parametrize("factors", [("1", "1"), ("0.9", "0.9"), ("0.56", "0.67")])
def test_both_formulas_and_the_longer_counts(factors: tuple[str, str]) -> None:
    f2, f3 = map(Fraction, factors)
    for preheat, input, d in CASES:
        q = Fraction(input)
        flat, deep = printed(preheat, q, d, f2, f3)
        assert two_dimensional(preheat, float(q), d, float(f2)) == pytest.approx(float(flat))
        assert three_dimensional(preheat, float(q), float(f3)) == pytest.approx(float(deep))
        found = cooling_time(preheat, float(q), d, float(f2), float(f3))
        assert found.seconds == pytest.approx(float(max(flat, deep)))
        assert found.flow == ("2-D" if flat > deep else "3-D")
        # Where both agree: d^2 = flat at 1 mm / deep.
        edge = transition_thickness(preheat, float(q), float(f2), float(f3))
        assert edge**2 == pytest.approx(float(flat * d**2 / deep))


def test_shape_factors_of_the_shortest_and_the_longest() -> None:
    asked = [(False, False), (False, True), (True, False), (True, True)]
    assert [shape_factors(fillet=f, longest=most) for f, most in asked] == [
        (0.9, 0.9), (1.0, 1.0), (0.56, 0.67), (0.67, 0.67),
    ]  # fmt: skip


def test_where_the_formulas_have_no_meaning() -> None:
    three_dimensional(499, 1)
    three_dimensional(-100, 1)
    for preheat in (499.1, -100.1):
        with pytest.raises(NotCovered, match=r"^preheat temperature is"):
            three_dimensional(preheat, 1)
    for wrong in ((20, 0.0, 10), (20, 1.0, 0)):
        with pytest.raises(ValueError, match="above zero"):
            two_dimensional(*wrong)
    with pytest.raises(ValueError, match="factor must be above zero"):
        three_dimensional(20, 1, 0)


# CE; heat input, kJ/mm; the greatest combined thickness, mm, for hydrogen scales A to E.
TABLE = """
0.43 1 | 40 50 60 100 100
0.43 2 | 80 90 100 100 100
0.49 1 | 25 30 35 50 60
0.49 2 | 50 55 65 100 100
"""
#: Diffusible hydrogen, ml/100 g, at either end of each scale.
HYDROGEN = {"A": (15.1, 30), "B": (10.1, 15), "C": (5.1, 10), "D": (3.1, 5), "E": (0, 3)}


def test_what_goes_without_preheat() -> None:
    for line in TABLE.strip().splitlines():
        head, _, thicknesses = line.partition("|")
        ce, heat_input = map(float, head.split())
        for scale, thickness in zip("ABCDE", map(int, thicknesses.split()), strict=True):
            for hydrogen in HYDROGEN[scale]:
                assert method_a(ce, thickness, hydrogen, heat_input) == 20.0, (line, scale)
                assert method_a(ce, thickness + 0.1, hydrogen, heat_input) is None, (line, scale)
    assert method_a(0.30, 40, 20, 1.0) == 20.0
    assert method_a(0.29, 40, 20, 1.0) is None
    assert method_a(0.491, 10, 1, 2.0) is None
    assert method_a(0.43, 10, 1, 0.99) is None
    # The next higher CE and the next lower heat input count.
    assert method_a(0.431, 26, 20, 1.0) is None
    assert method_a(0.43, 41, 20, 1.99) is None
    with pytest.raises(ValueError, match="combined thickness must be above zero"):
        method_a(0.4, 0, 1, 1)
