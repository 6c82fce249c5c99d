"""Figures in words: rounded for the pipe, and never rounded onto a limit they are not at."""

from __future__ import annotations

from hts.base.quantities import LENGTH, TEMPERATURE, TIME, Interval, Quantity
from hts.job.compiler.units import Units
from hts.record.judging.words import Words, apart, time
from tests.rows import each_row

SI, US = Words(Units(("SI",))), Words(Units(("US",)))


@each_row(
    ("seconds", "limit", "expected"),
    [
        (0.0, None, "0 s"),
        (0.4, None, "0 s"),
        (0.5, None, "1 s"),
        (59.4, None, "59 s"),
        (59.47, None, "59 s"),
        (59.5, None, "1 min"),
        (60.0, None, "1 min"),
        (61.0, None, "1 min 1 s"),
        (3599.5, None, "1 h"),
        (3601.0, None, "1 h 0 min 1 s"),  # never `1 h 1 s`, which is read as minutes
        (3660.0, None, "1 h 1 min"),
        (3661.0, None, "1 h 1 min 1 s"),
        (7 * 3600 + 59 * 60 + 59, None, "7 h 59 min 59 s"),
        (25 * 3600, None, "25 h"),
        (600.0, 600.0, "10 min"),
        (600.0009, 600.0, "10 min"),  # less than SAME_TIME off: at the limit
        (600.0011, 600.0, "600.001 s"),
        (599.6, 600.0, "599.600 s"),
        (600.4, 600.0, "600.400 s"),
        (599.4, 600.0, "9 min 59 s"),  # tells itself from the limit
        (600.4, 601.0, "10 min"),
        (600.6, 600.4, "10 min 1 s"),
        (600.3, 599.6, "600.300 s"),
        (600.3, 600.47, "600.300 s"),
        (600.3, 599.4, "10 min"),
    ],
)
def test_time(seconds: float, limit: float | None, expected: str) -> None:
    assert time(seconds, limit) == expected


@each_row(
    ("value", "limit", "places", "expected"),
    [
        (720.04, None, 1, "720.0"),
        (720.0, 720.0, 1, "720.0"),
        (720.04, 720.0, 1, "720.04"),
        (720.004, 720.0, 1, "720.004"),
        (719.9996, 720.0, 1, "719.9996"),
        (720.1, 720.0, 1, "720.1"),
        (120.3, 120.0, 0, "120.3"),
        (120.6, 120.0, 0, "121"),
        (720.0000009, 720.0, 1, "720.0"),  # less than SAME off
        (720.00000105, 720.0, 1, "720.000001"),
        (720.000002, 720.0, 1, "720.000002"),
        (-0.04, None, 1, "0"),
        (0.04, None, 1, "0"),
        (-0.06, None, 1, "-0.1"),
    ],
)
def test_apart(value: float, limit: float | None, places: int, expected: str) -> None:
    assert apart(value, limit, places) == expected


def test_readings_in_both_systems() -> None:
    # degF = degC x 9/5 + 32; a difference or a rate is 9/5 of its value in K.
    assert (SI.temperature(700.0), US.temperature(700.0)) == ("700.0 degC", "1292.0 degF")
    assert SI.temperature(700.04, 700.0) == "700.04 degC"
    assert US.temperature(700.02, 700.0) == "1292.04 degF"  # 0.02 x 9/5 = 0.036
    assert (SI.difference(10.0), US.difference(10.0)) == ("10.0 K", "18.0 degF")
    assert SI.difference(10.04, 10.0) == "10.04 K"
    assert US.difference(10.02, 10.0) == "18.04 degF"
    assert (SI.rate(120.0), US.rate(120.0)) == ("120 degC/h", "216 degF/h")
    assert (SI.rate(120.4), SI.rate(120.4, 120.0)) == ("120 degC/h", "120.4 degC/h")
    assert US.rate(120.2, 120.0) == "216.4 degF/h"
    assert (SI.edge(300.0), SI.edge(300.5)) == ("300 degC", "300.5 degC")
    assert (US.edge(100.0), US.edge(300.25)) == ("212 degF", "572.5 degF")


def test_limits_in_both_systems() -> None:
    limit = Quantity.read("720 degC", TEMPERATURE)
    assert (SI.limit(limit), US.limit(limit)) == ("720 degC", "1328 degF")
    assert SI.limit(Quantity.read("90 min", TIME)) == "1 h 30 min"
    assert SI.limit(Quantity.read("2 in", LENGTH)) == "2 in"  # a length as it is written
    window = Interval(Quantity.read("690 degC", TEMPERATURE), limit)
    assert (SI.range(window), US.range(window)) == ("690 .. 720 degC", "1274 .. 1328 degF")
