"""Reference functions against the published tables and an independent implementation."""

import math

import pytest
import thermocouple_its90
from hypothesis import assume, example, given
from hypothesis import strategies as st

from hts.science.thermocouples.errors import OutOfRange, UnknownName
from hts.science.thermocouples.reference import (
    TYPES,
    emf,
    emf_range,
    seebeck,
    temperature,
    temperature_range,
)
from tests.rows import each_row

# NIST ITS-90 thermocouple tables, reference junction 0 degC: degC, then mV by type.
COLUMNS = "KNJETRSB"
NIST = [
    (-50, -1.889, -1.269, -2.431, -2.787, -1.819, -0.226, -0.236, None),
    (0, 0.000, 0.000, 0.000, 0.000, 0.000, 0.000, 0.000, 0.000),
    (25, 1.000, 0.659, 1.277, 1.495, 0.992, 0.141, 0.143, -0.002),
    (40, 1.612, 1.065, 2.059, 2.420, 1.612, 0.232, 0.235, 0.000),
    (100, 4.096, 2.774, 5.269, 6.319, 4.279, 0.647, 0.646, 0.033),
    (150, 6.138, 4.302, 8.010, 9.789, 6.704, 1.041, 1.029, 0.092),
    (200, 8.138, 5.913, 10.779, 13.421, 9.288, 1.469, 1.441, 0.178),
    (250, 10.153, 7.597, 13.555, 17.181, 12.013, 1.923, 1.874, 0.291),
    (300, 12.209, 9.341, 16.327, 21.036, 14.862, 2.401, 2.323, 0.431),
    (350, 14.293, 11.136, 19.090, 24.964, 17.819, 2.896, 2.786, 0.596),
    (400, 16.397, 12.974, 21.848, 28.946, 20.872, 3.408, 3.259, 0.787),
    (450, 18.516, 14.846, 24.610, 32.965, None, 3.933, 3.742, 1.002),
    (500, 20.644, 16.748, 27.393, 37.005, None, 4.471, 4.233, 1.242),
    (550, 22.776, 18.672, 30.216, 41.053, None, 5.021, 4.732, 1.505),
    (593, 24.608, 20.341, 32.694, 44.529, None, 5.504, 5.167, 1.750),
    (600, 24.905, 20.613, 33.102, 45.093, None, 5.583, 5.239, 1.792),
    (620, 25.755, 21.393, 34.279, 46.705, None, 5.812, 5.443, 1.913),
    (650, 27.025, 22.566, 36.071, 49.116, None, 6.157, 5.753, 2.101),
    (677, 28.163, 23.624, 37.712, 51.277, None, 6.472, 6.034, 2.276),
    (700, 29.129, 24.527, 39.132, 53.112, None, 6.743, 6.275, 2.431),
    (704, 29.297, 24.684, 39.381, 53.431, None, 6.790, 6.317, 2.458),
    (720, 29.965, 25.312, 40.382, 54.703, None, 6.980, 6.486, 2.569),
    (732, 30.466, 25.783, 41.138, 55.655, None, 7.124, 6.614, 2.653),
    (746, 31.047, 26.333, 42.026, 56.764, None, 7.292, 6.763, 2.753),
    (760, 31.628, 26.883, 42.919, 57.870, None, 7.461, 6.913, 2.854),
    (800, 33.275, 28.455, 45.494, 61.017, None, 7.950, 7.345, 3.154),
    (900, 37.326, 32.371, 51.877, 68.787, None, 9.205, 8.449, 3.957),
    (1000, 41.276, 36.256, 57.953, 76.373, None, 10.506, 9.587, 4.834),
]

# NIST ITS-90 thermocouple tables: single points named in checks of this kind.
NIST_POINTS = [
    ("K", 25, 1.000),
    ("K", 100, 4.096),
    ("K", 300, 12.209),
    ("K", 593, 24.608),
    ("K", 705, 29.338),
    ("K", 760, 31.628),
    ("K", 1372, 54.886),
    ("N", 300, 9.341),
    ("N", 760, 26.883),
    ("N", 1000, 36.256),
    ("J", 760, 42.919),
    ("E", 20, 1.192),
    ("T", 200, 9.288),
    ("R", 1000, 10.506),
    ("B", 1000, 4.834),
]

# Joins of two polynomials, NIST ITS-90: a published function may step there by up to 2e-6 K.
JOINS = (0.0, 630.615, 760.0, 1064.18, 1664.5)

# NIST ITS-90: range of each reference function, degC.
RANGES = {
    "B": (0, 1820),
    "E": (-270, 1000),
    "J": (-210, 1200),
    "K": (-270, 1372),
    "N": (-270, 1300),
    "R": (-50, 1768.1),
    "S": (-50, 1768.1),
    "T": (-270, 400),
}


def lowest_invertible(type):
    # Type B: 0.291 mV, about 250 degC, is the low end of the NIST inverse function.
    return 250.0 if type == "B" else temperature_range(type)[0]


def steps(type, step, low=None):
    start, end = temperature_range(type)
    start = start if low is None else low
    count = int((end - start) / step)
    return [start + step * number for number in range(count + 1)] + [end]


@each_row("row", NIST, ids=lambda row: str(row[0]))
def test_nist_tables(row):
    for type, millivolts in zip(COLUMNS, row[1:], strict=True):
        if millivolts is not None:
            assert emf(type, row[0]) == pytest.approx(millivolts, abs=0.0005001)


@each_row(("type", "celsius", "millivolts"), NIST_POINTS)
def test_nist_points(type, celsius, millivolts):
    assert emf(type, celsius) == pytest.approx(millivolts, abs=0.0005)


@pytest.mark.parametrize("type", TYPES)
def test_whole_range_agrees_with_independent_implementation(type):
    # thermocouple-its90 1.0.2, itself within rounding of all NIST table points.
    oracle = thermocouple_its90.get(type)
    for celsius in steps(type, 0.7):
        assert emf(type, celsius) == pytest.approx(oracle.emf(celsius), abs=1e-9)
        slope = 1000 * oracle.seebeck(celsius)  # uV/K
        assert seebeck(type, celsius) == pytest.approx(slope, abs=1e-5)


@each_row("type", TYPES)
def test_inverse_agrees_with_independent_implementation(type):
    # thermocouple-its90 1.0.2; below -250 degC its own rounding reaches 1e-6 K.
    oracle = thermocouple_its90.get(type)
    for celsius in steps(type, 3.7, max(lowest_invertible(type), -250.0)):
        millivolts = oracle.emf(celsius, reference=25)
        assert temperature(type, millivolts, 25) == pytest.approx(celsius, abs=1e-6)


@st.composite
def invertible_points(draw):
    type = draw(st.sampled_from(TYPES))
    low, high = lowest_invertible(type), temperature_range(type)[1]
    return (
        type,
        draw(st.floats(low, high)),
        draw(st.floats(max(0.0, temperature_range(type)[0]), 60)),
    )


@given(invertible_points())
@example(("T", -269.9, 0.0))
@example(("J", 760.0, 25.0))
@example(("R", 1768.1, 0.0))
def test_round_trip(point):
    type, celsius, reference = point
    assume(all(celsius == join or abs(celsius - join) > 1e-5 for join in JOINS))
    found = temperature(type, emf(type, celsius, reference), reference)
    # Emf differences of some 10 mV are rounded at 1e-15 mV; type N near -270 degC, with
    # 0.37 uV/K the least sensitive, turns that into 1e-11 K.
    assert found == pytest.approx(celsius, abs=1e-9)


@given(st.sampled_from(TYPES), st.floats(50, 390), st.floats(0.001, 10))
def test_emf_rises_with_temperature(type, celsius, step):
    assert emf(type, celsius + step) > emf(type, celsius)


def test_reference_junction():
    assert emf("K", 620, 25) == pytest.approx(emf("K", 620) - emf("K", 25), abs=1e-12)
    assert emf("K", 25, 25) == 0
    for type in TYPES:
        assert emf(type, 0) == 0


def test_table_value_of_type_k_reads_back():
    # thermocouple-its90 1.0.2: 24.905 mV is 599.99 degC.
    assert temperature("K", 24.905) == pytest.approx(599.99, abs=0.01)


@each_row(
    ("type", "celsius", "microvolts"),
    [
        # thermocouple-its90 1.0.2.
        ("K", 20, 40.33),
        ("K", 100, 41.37),
        ("K", 200, 39.97),
        ("K", 300, 41.45),
        ("K", 500, 42.63),
        ("K", 620, 42.42),
        ("K", 700, 41.90),
        ("K", 760, 41.38),
        ("K", 1000, 38.98),
        ("N", 20, 26.60),
        ("N", 300, 35.42),
        ("N", 600, 38.96),
        ("N", 760, 39.29),
        ("N", 1000, 38.61),
        ("J", 300, 55.35),
        ("J", 700, 62.15),
        ("R", 760, 12.12),
        ("S", 760, 10.73),
    ],
)
def test_seebeck(type, celsius, microvolts):
    assert seebeck(type, celsius) == pytest.approx(microvolts, abs=0.01)


@each_row("type", TYPES)
def test_ranges(type):
    low, high = RANGES[type]
    assert temperature_range(type) == (low, high)
    for outside in (low - 0.001, high + 0.001):
        with pytest.raises(OutOfRange):
            emf(type, outside)
        with pytest.raises(OutOfRange):
            seebeck(type, outside)
    for outside in (emf_range(type)[0] - 0.001, emf_range(type)[1] + 0.001):
        with pytest.raises(OutOfRange):
            temperature(type, outside)


def test_out_of_range_says_what_and_where():
    # NIST ITS-90: type K ends at 1372 degC.
    with pytest.raises(OutOfRange, match="type K: 1373 degC is above 1372 degC") as caught:
        emf("K", 1373)
    error = caught.value
    assert (error.type, error.value, error.low, error.high) == ("K", 1373, -270, 1372)
    assert error.unit == "degC"


def test_type_b_is_not_inverted_where_two_temperatures_give_one_emf():
    # NIST ITS-90: the type B inverse begins at 0.291 mV; E is least, -2.585 uV, at 21.02 degC
    # and crosses zero again at about 42 degC.
    assert emf("B", 21.02) == pytest.approx(-0.002585, abs=1e-6)
    assert emf("B", 42) == pytest.approx(0, abs=1e-4)
    assert seebeck("B", 20) < 0 < seebeck("B", 22)
    # Half of the last printed digit, 0.0005 mV, is worth 0.2 K there.
    assert temperature("B", 0.291) == pytest.approx(250, abs=0.2)
    with pytest.raises(OutOfRange, match=r"below 0\.291 mV; type B cannot be inverted"):
        temperature("B", 0.290)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_not_finite(value):
    with pytest.raises(OutOfRange):
        emf("K", value)
    with pytest.raises(OutOfRange):
        temperature("K", value)


def test_unknown_type():
    with pytest.raises(UnknownName, match="unknown thermocouple type 'k'; known: B, E"):
        emf("k", 20)
