"""Numbers a formula has no meaning for are refused, and both ends of a range belong to it."""

import math

import pytest

from hts.base.arguments import NotCovered, not_negative, positive, within
from tests.rows import each_row

BELOW, AT, ABOVE = math.nextafter(5, 0), 5.0, math.nextafter(5, 9)


@each_row("value", [-1.0, 0.0, math.inf, math.nan])
def test_what_must_be_above_zero(value: float) -> None:
    positive(wall=1e-300, width=2.0)
    with pytest.raises(ValueError, match=f"^wall width must be above zero, not {value!r}$"):
        positive(wall=1.0, wall_width=value)


@each_row("value", [-1.0, -1e-300, math.inf, math.nan])
def test_what_must_not_be_negative(value: float) -> None:
    not_negative(wall=0.0, width=2.0)
    with pytest.raises(ValueError, match=f"^hold must not be negative, not {value!r}$"):
        not_negative(wall=0.0, hold=value)


@each_row(
    ("low", "high", "value", "bounds"),
    [
        (5.0, None, BELOW, "from 5 mm"),
        (None, 5.0, ABOVE, "to 5 mm"),
        (5.0, 8.0, BELOW, "from 5 mm to 8 mm"),
        (2.0, 5.0, ABOVE, "from 2 mm to 5 mm"),
        (2.0, 5.0, math.nan, "from 2 mm to 5 mm"),
        (2.0, None, math.nan, "from 2 mm"),
    ],
)
def test_a_range_ends_where_it_says(
    low: float | None, high: float | None, value: float, bounds: str
) -> None:
    within("the wall", AT, low, high, "mm")
    with pytest.raises(NotCovered) as caught:
        within("the wall", value, low, high, "mm")
    error = caught.value
    assert str(error) == f"the wall is {value:g} mm: given {bounds} only"
    assert (error.subject, error.low, error.high, error.unit) == ("the wall", low, high, "mm")
    assert error.value is value


def test_what_has_no_ends_holds_everything() -> None:
    within("the wall", math.inf, None, None, "mm")
