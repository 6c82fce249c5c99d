"""Clock positions, arcs and lengths round the pipe."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.quantities import LENGTH, TIME, Quantity
from hts.base.quantities.clock import (
    PI,
    Arc,
    ClockError,
    ClockPosition,
    arc_length,
    circumference,
    position_at,
)
from tests.rows import each_row

minutes = st.integers(0, 719)
positions = minutes.map(ClockPosition.from_minutes)
arcs = st.builds(Arc, positions, positions)
diameters = st.fractions(min_value=10, max_value=5000, max_denominator=10).map(
    lambda number: Quantity.of(number, "mm", LENGTH)
)


def at(text: str) -> ClockPosition:
    return ClockPosition.read(text)


@each_row(
    ("text", "degrees"),
    [
        ("12:00", Fraction(0)),
        ("3:00", Fraction(90)),
        ("6:00", Fraction(180)),
        ("9:00", Fraction(270)),
        ("6:15", Fraction(375, 2)),
        ("12:01", Fraction(1, 2)),
        ("11:59", Fraction(719, 2)),
    ],
)
def test_reading(text: str, degrees: Fraction) -> None:
    assert at(text).degrees == degrees
    assert at(text).minutes == degrees * 2
    assert str(at(text)) == text


@each_row(
    ("text", "suggestion"),
    [
        ("0:00", "12:00"),
        ("06:15", "6:15"),
        ("13:00", "1:00"),
        ("24:00", None),
        ("6:60", None),
        ("6:5", None),
        ("6", None),
        ("6.15", None),
        ("-6:15", None),
        ("6:15 ", None),
        ("", None),
        (":", None),
        ("٦:١٥", None),
    ],
)
def test_refusals(text: str, suggestion: str | None) -> None:
    with pytest.raises(ClockError) as caught:
        at(text)
    assert caught.value.suggestion == suggestion


@given(minutes)
def test_every_minute_reads_back(minute: int) -> None:
    position = ClockPosition.from_minutes(minute)
    assert ClockPosition.read(str(position)) == position
    assert ClockPosition(position.degrees + 360) == position
    assert hash(ClockPosition(position.degrees - 720)) == hash(position)
    assert 0 <= position.degrees < 360


def test_text_is_the_nearest_minute() -> None:
    assert str(ClockPosition(Fraction(3598, 10))) == "12:00"
    assert str(ClockPosition(Fraction(1, 3))) == "12:01"


@given(positions)
def test_seen_from_the_other_side(position: ClockPosition) -> None:
    assert position.mirrored.mirrored == position
    assert at("3:00").mirrored == at("9:00")
    for fixed in ("12:00", "6:00"):
        assert at(fixed).mirrored == at(fixed)


@given(positions, positions)
def test_distance_is_symmetric_and_at_most_half_a_turn(a: ClockPosition, b: ClockPosition) -> None:
    assert a.distance_to(b) == b.distance_to(a) == a.mirrored.distance_to(b.mirrored)
    assert 0 <= a.distance_to(b) <= 180
    assert at("11:30").distance_to(at("12:30")) == 30


@given(arcs, positions)
def test_an_arc_and_its_rest_cover_the_pipe(arc: Arc, position: ClockPosition) -> None:
    rest = Arc(arc.end, arc.start)
    if arc.start == arc.end:
        assert arc.span == 360
        assert arc.contains(position)
        return
    assert arc.span + rest.span == 360
    assert arc.contains(position) or rest.contains(position)
    in_both = arc.contains(position) and rest.contains(position)
    assert in_both == (position in (arc.start, arc.end))
    assert not arc.overlaps(rest)


@given(arcs)
def test_the_middle_is_half_way(arc: Arc) -> None:
    assert arc.contains(arc.middle)
    first, second = Arc(arc.start, arc.middle), Arc(arc.middle, arc.end)
    assert first.span == second.span == arc.span / 2
    assert arc.overlaps(first)
    assert arc.overlaps(second)


@given(arcs, arcs)
def test_overlap_is_what_walking_round_finds(a: Arc, b: Arc) -> None:
    # Quarter degrees lie between any two clock minutes, so none of them is an end.
    steps = (ClockPosition(Fraction(2 * quarter + 1, 4)) for quarter in range(720))
    assert a.overlaps(b) == any(a.contains(step) and b.contains(step) for step in steps)
    assert a.overlaps(b) == b.overlaps(a)


def test_zones_meeting_at_three_and_nine() -> None:
    top, bottom = Arc(at("9:00"), at("3:00")), Arc(at("3:00"), at("9:00"))
    assert top.middle == at("12:00")
    assert bottom.middle == at("6:00")
    assert top.contains(at("12:15"))
    assert not bottom.contains(at("12:15"))
    assert not top.overlaps(bottom)
    assert str(top) == "9:00 to 3:00"


def test_pi_has_fifty_decimals() -> None:
    # Machin 1706: pi/4 = 4 arctan 1/5 - arctan 1/239, summed exactly.
    def arctan_of_one_over(n: int) -> Fraction:
        return sum(
            (Fraction((-1) ** k, (2 * k + 1) * n ** (2 * k + 1)) for k in range(45)), Fraction(0)
        )

    pi = 4 * (4 * arctan_of_one_over(5) - arctan_of_one_over(239))
    assert 0 <= pi - PI < Fraction(1, 10**50)


@given(diameters, positions)
def test_arc_length(diameter: Quantity, position: ClockPosition) -> None:
    length = arc_length(diameter, position)
    expected = float(diameter.value) / 2 * math.radians(float(position.degrees))
    assert float(length) == pytest.approx(expected, rel=1e-12, abs=1e-12)
    assert position_at(diameter, Quantity.of(length, "mm", LENGTH)) == position


def test_round_a_twelve_inch_pipe() -> None:
    # 323.9 mm outside (ASME B36.10M NPS 12, 323.8 or 323.9 in print): pi * 323.9 = 1017.56 mm.
    pipe = Quantity.read("323.9 mm", LENGTH)
    assert round(float(circumference(pipe)), 2) == 1017.56
    assert round(float(arc_length(pipe, at("6:00"))), 2) == 508.78
    assert str(position_at(pipe, Quantity.read("254.4 mm", LENGTH))) == "3:00"


def test_lengths_that_are_none() -> None:
    pipe = Quantity.read("323.9 mm", LENGTH)
    for outside in ("-1 mm", "1018 mm"):
        with pytest.raises(ValueError, match="one turn"):
            position_at(pipe, Quantity.read(outside, LENGTH))
    with pytest.raises(TypeError):
        circumference(Quantity.read("5 s", TIME))


def test_arcs_that_are_the_same() -> None:
    """By their ends, and as keys; an arc is nothing but an arc."""
    one, same, other = (
        Arc(ClockPosition.read(start), ClockPosition.read("3:00"))
        for start in ("9:00", "9:00", "6:00")
    )
    assert one == same and hash(one) == hash(same) and len({one, same, other}) == 2
    assert one != other and one != "9:00 to 3:00" and one != None  # noqa: E711
