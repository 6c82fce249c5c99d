"""The uncertainty of one reading, by hand from the rules of JCGM 100:2008."""

from math import sqrt

import pytest

from hts.science.uncertainty.reading import reading


def test_wire_recorder_and_the_step_shown() -> None:
    """A limit of error is a rectangle of that half-width, a step one of its whole width
    (JCGM 100:2008, 4.3.7 and F.2.2.1): 2.82 K, 1.5 K and 1 K."""
    without, shown = reading(2.82, 1.5), reading(2.82, 1.5, 1.0)
    assert without.standard == pytest.approx(sqrt((2.82**2 + 1.5**2) / 3))
    assert shown.standard == pytest.approx(sqrt((2.82**2 + 1.5**2) / 3 + 1 / 12))
