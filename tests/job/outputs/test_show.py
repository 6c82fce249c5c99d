"""Every kind of figure as it goes onto paper, in both systems: 25.4 mm to the inch, 1.8 degF to the
kelvin (exact by definition), decimals as a tape, a micrometer or a controller has them (common
practice, no source)."""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.base.quantities import LENGTH, TEMPERATURE, TIME, Interval, Quantity
from hts.job.compiler.changes import ChangeLine, Changes
from hts.job.compiler.units import Units
from hts.job.outputs import program_table
from hts.job.outputs.identity import since
from hts.job.outputs.show import DOWN, NEAREST, UP, Shown, clock_time, duration, minutes
from tests.rows import each_row

BOTH = Shown(Units(("SI", "US")))
IN_US = Shown(Units(("US",)))


def length(text: str) -> Quantity:
    return Quantity.read(text, LENGTH)


@each_row(
    ("text", "toward", "shown"),
    [
        ("125 mm", NEAREST, "125 mm (4 15/16 in)"),
        ("125 mm", UP, "125 mm (4 15/16 in)"),  # 4.9213 in is 78.74 sixteenths
        ("125 mm", DOWN, "125 mm (4 7/8 in)"),
        # From 3 m on in metres and feet; a length written in metres from 1 m on.
        ("2999 mm", NEAREST, "2999 mm (118 1/16 in)"),
        ("3000 mm", NEAREST, "3 m (9.8 ft)"),
        ("3001 mm", UP, "3.01 m (9.9 ft)"),
        ("3009 mm", DOWN, "3 m (9.8 ft)"),
        ("1 m", NEAREST, "1 m (3.3 ft)"),
        ("0.999 m", NEAREST, "999 mm (39 5/16 in)"),
    ],
)
def test_a_length(text: str, toward: str, shown: str) -> None:
    assert BOTH.text(length(text), toward) == shown


@each_row(
    ("text", "toward", "shown"),
    [
        # Below 1/4 in, which is 6.35 mm, in thousandths, from there on in sixteenths.
        ("6.3 mm", UP, "0.249 in"),
        ("6.3 mm", DOWN, "0.248 in"),
        ("6.35 mm", NEAREST, "1/4 in"),
        ("6.4 mm", UP, "5/16 in"),
        ("6.4 mm", DOWN, "1/4 in"),
    ],
)
def test_a_short_length_in_inches(text: str, toward: str, shown: str) -> None:
    assert IN_US.text(length(text), toward) == shown


@pytest.mark.parametrize(
    ("text", "wall", "diameter", "tape"),
    [
        # 39.62 mm is 1.5598 in; 1.560 in and 610 mm of NPS 24 are printed in ASME B36.10M.
        ("39.62 mm", "39.6 mm (1.56 in)", "39.6 mm (1.56 in)", "40 mm (1 9/16 in)"),
        ("610 mm", "610 mm (24.016 in)", "610 mm (24 in)", "610 mm (24 in)"),
        ("9.53 mm", "9.5 mm (0.375 in)", "9.5 mm (0.375 in)", "10 mm (3/8 in)"),
    ],
)
def test_a_length_that_is_measured(text: str, wall: str, diameter: str, tape: str) -> None:
    value = length(text)
    assert (BOTH.wall(value), BOTH.diameter(value), BOTH.tape_text(value)) == (wall, diameter, tape)
    assert BOTH.tape(value) == tape.replace(" mm", "").replace(" in", "")


@each_row("tenths", range(10))
def test_what_is_set_stays_in_the_range_of_the_hold_as_it_is_told(tenths: int) -> None:
    """Whole degrees of the other unit, but never one beyond an end of the range."""
    low = Quantity(690 + Fraction(tenths, 10), Quantity.read("1 degC", TEMPERATURE).unit)
    high = Quantity(low.value + 5, low.unit)
    window = Interval(low, high)
    for step in range(51):
        value = Quantity(low.value + Fraction(step, 10), low.unit)
        told = Fraction(IN_US.setpoint(value, window))
        exact = [Fraction(9, 5) * one.to("degC") + 32 for one in (low, value, high)]
        assert exact[0] <= told <= exact[2]
        assert abs(told - exact[1]) < 1
        assert told.denominator == 1


@pytest.mark.parametrize(("count", "words"), [(1, "1 thing. Rows"), (2, "2 things. Rows")])
def test_how_many_things_changed(count: int, words: str) -> None:
    line = ChangeLine(*("x" for _ in ChangeLine._fields))
    assert words in since(Changes("B", "C", frozenset(), (line,) * count))


@each_row(
    ("seconds", "toward", "clock", "in_minutes", "long"),
    [
        (0, NEAREST, "0:00", "0", ""), (15240, NEAREST, "4:14", "254", "4 h 14 min"),
        (3599, UP, "1:00", "60", "59 min 59 s"), (3599, DOWN, "0:59", "59.9", "59 min 59 s"),
        (3600, DOWN, "1:00", "60", "1 h"), (93900, NEAREST, "26:05", "1565", "26 h 5 min"),
        (90, UP, "0:02", "1.5", "1 min 30 s"), (90, DOWN, "0:01", "1.5", "1 min 30 s"),
    ],
)  # fmt: skip
def test_times(seconds: int, toward: str, clock: str, in_minutes: str, long: str) -> None:
    time = Fraction(seconds)
    assert (clock_time(time, toward), minutes(time, toward)) == (clock, in_minutes)
    assert not long or duration(time) == long
    assert (clock_time(None), minutes(None)) == ("open", "open")
    if seconds == 3599:
        assert (duration(time, UP, "min"), duration(time, DOWN, "min")) == ("1 h", "59 min")


@each_row(
    ("action", "seconds", "told"),
    [
        ("hold", 21600, "6 h"),
        ("hold", None, ""),
        ("heat", 21600, ""),
        ("hold", 5430, "1 h 30 min 30 s"),
    ],
)
def test_the_longest_a_hold_may_last(action: str, seconds: int | None, told: str) -> None:
    longest = None if seconds is None else Quantity.of(seconds, "s", TIME)
    step: Any = Stub(action=action, longest=longest)
    assert program_table._most(step) == told
