"""Rounded values never cross the limit they stand for, whatever the limit is."""

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from hts.base.quantities import LENGTH, RATE, TEMPERATURE, TIME, Interval, Quantity
from hts.checking.rules.examples import BUTT
from hts.job.compiler import compile_spec
from hts.job.compiler.clock import whole_minutes
from hts.job.compiler.hold import middle
from hts.job.compiler.units import Units
from hts.job.outputs.show import DOWN, UP, Shown, clock_time, minutes, number
from tests.texts import spec_of

BOTH = Units(("SI", "US"))
fractions = st.fractions(min_value=F(1, 100), max_value=2000, max_denominator=997)
units = {TEMPERATURE: ("degC", "degF"), RATE: ("degC/h", "degF/h"), LENGTH: ("mm", "in")}


@given(fractions, st.sampled_from(list(units)), st.sampled_from((0, 1)), st.sampled_from((0, 1)))
def test_least_is_never_shown_smaller_nor_greatest_larger(
    value: F, dimension: object, written: int, shown: int
) -> None:
    symbols = units[dimension]  # type: ignore[index]
    quantity = Quantity.of(value, symbols[written], dimension)  # type: ignore[arg-type]
    exact = quantity.to(symbols[shown])
    assert F(number(quantity, symbols[shown], UP)) >= exact
    assert F(number(quantity, symbols[shown], DOWN)) <= exact


@given(
    fractions,
    st.fractions(min_value=F(1, 2), max_value=200, max_denominator=97),
    fractions,
    st.sampled_from(("SI", "US")),
)
def test_setpoint_as_shown_lies_in_the_range_as_shown(
    low: F, width: F, share: F, system: str
) -> None:
    window = Interval(
        Quantity.of(low, "degC", TEMPERATURE), Quantity.of(low + width, "degC", TEMPERATURE)
    )
    target = Quantity.of(low + width * (share / 2000), "degC", TEMPERATURE)
    shown = Shown(BOTH)
    setpoint = shown.setpoint_cells(target, window)
    lows = shown.cells(window.low, TEMPERATURE, UP)
    highs = shown.cells(window.high, TEMPERATURE, DOWN)
    for at, bottom, top in zip(setpoint, lows, highs, strict=True):
        assert F(bottom) <= F(at) <= F(top)
    assert window.contains(middle(window, Units((system,))))


@given(fractions, fractions)
def test_durations_are_rounded_up_but_not_past_the_longest(seconds: F, more: F) -> None:
    rounded = whole_minutes(seconds)
    assert rounded >= seconds and rounded % 60 == 0
    assert seconds <= whole_minutes(seconds, seconds + more) <= seconds + more


@given(fractions)
def test_times_are_shown_to_their_side(seconds: F) -> None:
    assert F(minutes(seconds, UP)) * 60 >= seconds
    assert F(minutes(seconds, DOWN)) * 60 <= seconds
    hours, rest = clock_time(seconds, UP).split(":")
    assert (int(hours) * 60 + int(rest)) * 60 >= seconds


@given(
    st.integers(min_value=100, max_value=60_000),
    st.integers(min_value=0, max_value=95),
    st.sampled_from(("SI", "US")),
)
def test_programmed_rate_keeps_the_margin(hundredths: int, margin: int, system: str) -> None:
    limit = F(hundredths, 100)
    text = (
        BUTT.replace(
            "heat  to 715 degC   at most 200 degC/h",
            f"heat  to 715 degC   at most {float(limit)} degC/h",
        )
        .replace("rate margin         10 %", f"rate margin  {margin} %")
        .replace("SI and US", system)
    )
    # A schedule by the day, for a rate can be so slow that one by minutes has no end.
    job = compile_spec(spec_of(text, "x.hts"), Quantity.of(1, "d", TIME))
    step = job.joints[0].runs[-1].program.steps[1]
    assert step.rate is not None and step.limit is not None
    assert step.limit.value == limit
    assert 0 < step.rate.value <= limit * (1 - F(margin, 100))
    # The rate as shown is the rate as programmed, so what is keyed in keeps the margin, too.
    symbol = {"SI": "degC/h", "US": "degF/h"}[system]
    assert F(number(step.rate, symbol, DOWN)) == step.rate.to(symbol)
