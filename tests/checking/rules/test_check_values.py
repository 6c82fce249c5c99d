"""Check values of standards that a finding has to tell, each just inside and just outside.

What a book itself gives is checked in tests/limits; here the same figures are put to whole jobs.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import changed
from tests.specs.found import checked
from tests.texts import spec_of

RIGHT = Path(__file__).parents[2] / "specs" / "right"

CARBON = ('"A335 P22"', '"A106-B"')
VESSEL = ("asme-b31.3 edition 2018, local-heating", "asme-viii-1 edition 2013")
COLD = ("700 .. 730 degC", "600 .. 640 degC")
RAISED = ("  heat  to 715 degC ", "  heat  to 620 degC ")
BY_FURNACE = ("  rate margin  ", "  charge at most {} degC\n  rate margin  ")
AMINE = ("  cap width  30 mm\n", "  cap width  30 mm\n  service carbonate\n")


def names(*changes: tuple[str, str]) -> list[str]:
    text = changed("butt", changes)
    return [finding.kind.name for finding in check_spec(spec_of(text, "a.hts"))]


# ASME BPVC VIII-1 UCS-56(d), from memory: the furnace is at 425 degC or less at charging.
@pytest.mark.parametrize(("at", "told"), [(450, True), (425, False)])
def test_charging(at: int, told: bool) -> None:
    charge = (BY_FURNACE[0], BY_FURNACE[1].format(at))
    found = names(VESSEL, CARBON, COLD, RAISED, charge)
    assert ("charge-too-hot" in found) is told


# ASME BPVC VIII-1 UCS-56(d), from memory: 83 K of spread in the hold.
@pytest.mark.parametrize(("spread", "told"), [(90, True), (83, False)])
def test_spread_of_the_hold(spread: int, told: bool) -> None:
    held = ("  rate margin  ", f"  holding spread at most {spread} K\n  rate margin  ")
    assert ("spread-too-wide" in names(VESSEL, CARBON, COLD, RAISED, held)) is told


# ASME B31.1 132.5: the rule begins at 600 degF, and 500 degF/h at 500 degF on 6 in are allowed;
# above, 6 in take 200 degF/h.
@pytest.mark.parametrize(("end", "told"), [("500 degF", False), ("700 degF", True)])
def test_a_fast_step_below_the_rule(end: str, told: bool) -> None:
    found = names(
        ("asme-b31.3 edition 2018, local-heating", "asme-b31.1 edition 2018"),
        ("NPS 12 schedule 120", "outside diameter 24 in"),
        ("25.4 mm measured", "6 in measured"),
        ("  heat  to 315 degC\n", f"  heat  to {end} at most 500 degF/h\n"),
        ("  heat  to 715 degC   at most 200", "  heat  to 715 degC   at most 100"),
        ("  cool  to 315 degC   at most 200", "  cool  to 315 degC   at most 100"),
    )
    assert ("heating-too-fast" in found) is told


# NACE SP0472-2010 Section 3, carbonate service: 649 to 663 degC.
@pytest.mark.parametrize(("held", "told"), [("645 .. 660 degC", True), ("650 .. 660 degC", False)])
def test_hold_in_carbonate_service(held: str, told: bool) -> None:
    found = names(
        ("asme-b31.3 edition 2018, local-heating", "nace-sp0472 edition 2010, local-heating"),
        CARBON,
        AMINE,
        ("700 .. 730 degC", held),
        ("  heat  to 715 degC ", "  heat  to 655 degC "),
    )
    assert ("hold-temperature-outside-limits" in found) is told


# ASME B31.3-2016 Table 331.1.1 note 3: P-7 cools at 55 degC/h at most above 650 degC.
@pytest.mark.parametrize(("rate", "told"), [("70 degC/h", True), ("55 degC/h", False)])
def test_p7_cools_slowly(rate: str, told: bool) -> None:
    found = names(
        ("edition 2018", "edition 2016"),
        ('  grade        "A335 P22"', "  p-number     7\n  group        1"),
        ("700 .. 730 degC", "735 .. 770 degC"),
        ("  heat  to 715 degC ", "  heat  to 750 degC "),
        ("  cool  to 315 degC   at most 200 degC/h", f"  cool  to 315 degC   at most {rate}"),
    )
    assert ("cooling-too-fast" in found) is told


# AWS D10.10:2021: whatever the method, top and bottom of a horizontal pipe are both controlled or
# monitored; a coil is one zone.
def test_the_bottom_is_measured_in_one_zone_too() -> None:
    path = RIGHT / "induction-cycle.hts"
    text = path.read_text("utf-8")
    assert checked(path, text) == []
    for old, new in (
        ("T2   monitors weld         at 6:00 ", "T2   monitors weld         at 3:00 "),
        ("T4   monitors soak edge    at 6:00,", "T4   monitors soak edge    at 3:00,"),
    ):
        assert old in text
        text = text.replace(old, new)
    assert [told.message for told in checked(path, text)] == [
        "nothing controls or monitors I1 at 6:00",
        "T3, T4 watch the soak edge of I1, all in its upper half",
    ]
