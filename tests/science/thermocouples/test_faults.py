"""Wiring faults: worked figures, and the circuit summed by an independent implementation."""

import pytest
import thermocouple_its90
from hypothesis import given
from hypothesis import strategies as st

from hts.science.thermocouples.errors import OutOfRange
from hts.science.thermocouples.faults import (
    copper_extension,
    extension_reversal_emf,
    extension_reversed,
    reversed_once,
    wrong_extension,
    wrong_input,
)
from hts.science.thermocouples.reference import emf
from tests.rows import each_row

junctions = st.floats(100, 1200)
rooms = st.floats(0, 70)


def oracle(type):
    return thermocouple_its90.get(type)


def test_extension_reversed_published_example():
    # Published worked example: type E near 500 degC, head 40, instrument 20: -2456 uV, "-30 degC".
    assert 1000 * extension_reversal_emf("E", 40, 20) == pytest.approx(-2456, abs=0.5)
    assert extension_reversed("E", 500, 40, 20) - 500 == pytest.approx(-30.4, abs=0.1)


@pytest.mark.parametrize(
    ("junction", "head", "instrument", "reading"),
    # Derived from NIST ITS-90.
    [(620, 60, 25, 552.5), (150, 40, 20, 110.0)],
)
def test_extension_reversed(junction, head, instrument, reading):
    found = extension_reversed("K", junction, head, instrument)
    assert found == pytest.approx(reading, abs=0.05)


def test_copper_extension():
    # thermocouple-its90 1.0.2.
    assert copper_extension("K", 620, 40, 20) == pytest.approx(600.84, abs=0.02)


@each_row(
    ("wire", "input", "junction", "reading", "within"),
    [
        # thermocouple-its90 1.0.2, terminals at 25 degC.
        ("N", "K", 620, 525.57, 0.02),
        ("N", "K", 760, 654.7, 0.06),
        ("K", "N", 620, 722.6, 0.06),
        ("J", "K", 620, 817.8, 0.06),
        ("J", "K", 300, 391.8, 0.06),
    ],
)
def test_wrong_input(wire, input, junction, reading, within):
    assert wrong_input(wire, input, junction, 25) == pytest.approx(reading, abs=within)


def test_reversed_once_goes_off_scale_when_hot():
    # Derived from NIST ITS-90: -22.9 mV, where type K ends at -6.458 mV.
    with pytest.raises(OutOfRange) as caught:
        reversed_once("K", 600, 25)
    assert caught.value.value == pytest.approx(-22.9, abs=0.05)
    assert caught.value.low == pytest.approx(-6.458, abs=0.0005)


@given(st.floats(25, 120), st.floats(0.5, 20), st.floats(10, 40))
def test_reversed_once_falls_as_the_part_gets_hotter(junction, step, instrument):
    before = reversed_once("K", junction, instrument)
    assert reversed_once("K", junction + step, instrument) < before


@given(junctions, rooms)
def test_no_error_with_head_and_instrument_at_one_temperature(junction, room):
    assert extension_reversed("K", junction, room, room) == pytest.approx(junction, abs=1e-9)
    assert copper_extension("K", junction, room, room) == pytest.approx(junction, abs=1e-9)
    assert wrong_extension("K", "N", junction, room, room) == pytest.approx(junction, abs=1e-9)


@given(junctions, rooms, rooms)
def test_circuit_sum(junction, head, instrument):
    """Sum the emf of each leg of the circuit by thermocouple-its90 and compare."""
    k, n = oracle("K"), oracle("N")
    couple, compensation = k.emf(junction, reference=head), k.emf(instrument)
    cases = {
        extension_reversed: -k.emf(head, reference=instrument),
        copper_extension: 0.0,
    }
    for fault, cable in cases.items():
        expected = k.temperature(couple + cable + compensation)
        assert fault("K", junction, head, instrument) == pytest.approx(expected, abs=1e-6)
    expected = k.temperature(couple + n.emf(head, reference=instrument) + compensation)
    found = wrong_extension("K", "N", junction, head, instrument)
    assert found == pytest.approx(expected, abs=1e-6)


@given(junctions, rooms)
def test_right_wiring_reads_right(junction, room):
    assert wrong_input("K", "K", junction, room) == pytest.approx(junction, abs=1e-9)
    assert wrong_extension("K", "K", junction, room, 20) == pytest.approx(junction, abs=1e-9)
    assert extension_reversal_emf("K", room, 20) == -2 * emf("K", room, 20)


def test_legs_swapped_once_where_the_instrument_is_warm() -> None:
    # NIST ITS-90, type K: 40 degC is 1.612 mV, 60 degC 2.436 mV; 2 * 1.612 - 2.436 = 0.788 mV lies
    # between 19 degC (0.758 mV) and 20 degC (0.798 mV), three quarters of the way.
    assert reversed_once("K", 60, 40) == pytest.approx(19.75, abs=0.05)
