"""Limits that rules hold values to, against the published figures."""

from __future__ import annotations

from fractions import Fraction

import pytest

from hts.base.findings import Finding
from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import changed
from hts.checking.rules.surroundings.supports_far_apart import usual_span
from tests.rows import each_row
from tests.texts import spec_of


def _findings(*changes: tuple[str, str], base: str = "butt") -> list[Finding]:
    return check_spec(spec_of(changed(base, changes)))


def _names(*changes: tuple[str, str], base: str = "butt") -> list[str]:
    return [finding.kind.name for finding in _findings(*changes, base=base)]


# ASME B31.3-2016 Table 331.1.1: 1 h per 25 mm, so 60.96 min for a wall of 25.4 mm.
@pytest.mark.parametrize(("minutes", "found"), [(60, ["hold-too-short"]), (61, [])])
def test_hold_time_of_one_inch(minutes: int, found: list[str]) -> None:
    assert (
        _names(
            ("edition 2018", "edition 2016"), ("730 degC for 2 h", f"730 degC for {minutes} min")
        )
        == found
    )


# ASME B31.1 132.5 and B31.3 331.1.4 from 2014: 600 degF/h, a difference, hence 333.3 degC/h and
# not 315 degC/h, as some papers print it.
@each_row(
    ("rate", "found"),
    [
        ("333 degC/h", []),
        ("334 degC/h", ["heating-too-fast"]),
        # In degF/h among temperatures in degC, which is told as well.
        ("600 degF/h", ["mixed-temperature-units"]),
        ("601 degF/h", ["heating-too-fast", "mixed-temperature-units"]),
    ],
)
def test_full_rate_of_thin_walls(rate: str, found: list[str]) -> None:
    assert (
        _names(
            ("  heat  to 715 degC   at most 200 degC/h", f"  heat  to 715 degC   at most {rate}")
        )
        == found
    )


# ASME B31.3-2016 Table 331.1.1: P-5A 675 to 760 degC.
@pytest.mark.parametrize(
    ("held", "found"),
    [
        ("675 .. 760 degC", []),
        ("674 .. 730 degC", ["hold-temperature-outside-limits"]),
        ("700 .. 761 degC", ["hold-temperature-outside-limits"]),
    ],
)
def test_hold_range_of_p_5a(held: str, found: list[str]) -> None:
    assert _names(("edition 2018", "edition 2016"), ("700 .. 730 degC", held)) == found


# ASME B31.3-2014 Table 330.1.1: P-5A with a strength of 60 ksi takes 150 degC. A335 P22 is listed
# with 415 MPa, which is 60 ksi and not above it.
@pytest.mark.parametrize(("preheat", "found"), [(150, []), (149, ["preheat-too-low"])])
def test_preheat_of_p22(preheat: int, found: list[str]) -> None:
    assert _names(("  at least          150 degC", f"  at least          {preheat} degC")) == found


# ASME IX QW-407.2 and interpretation IX-07-06: a test piece of 10 h covers 12.5 h.
@pytest.mark.parametrize(
    ("time", "found"), [("12 h 30 min", []), ("12 h 31 min", ["hold-beyond-qualification"])]
)
def test_qualified_time_at_temperature(time: str, found: list[str]) -> None:
    assert (
        _names(
            ("hold 8 h condition", "hold 10 h with toughness condition"),
            ("730 degC for 2 h", f"730 degC for {time}"),
        )
        == found
    )


# IEC 60584-1:2013: type K class 1 is 0.4 % of the Celsius value, 2.892 K at 723 degC; with a
# control tolerance of 5 K on both sides the range needs 15.784 K.
@pytest.mark.parametrize(
    ("held", "found"),
    [("707.3 .. 723 degC", ["hold-window-too-narrow"]), ("707.2 .. 723 degC", [])],
)
def test_room_within_the_hold_range(held: str, found: list[str]) -> None:
    assert _names(("700 .. 730 degC", held)) == found


# WRC Bulletin 452: soak band + 4 sqrt(R t), R the inside radius: 80.8 + 4 sqrt(136.5 x 25.4)
# = 316.3 mm. The wider band of AWS D10.10 (574.7 mm) is from memory and never fails alone.
@pytest.mark.parametrize(("width", "severity"), [(316, "error"), (317, "warning")])
def test_a_figure_from_memory_only_warns(width: int, severity: str) -> None:
    edge = f"{width / 2:g} mm"
    found = _findings(
        ("heated band    by rule", f"heated band    {width} mm total"),
        ("at 12:00, 287 mm", f"at 12:00, {edge}"),
        ("at 6:00,  287 mm", f"at 6:00,  {edge}"),
    )
    assert [(f.kind.name, f.severity) for f in found] == [("heated-band-too-narrow", severity)]


# AWS D10.10:2021: control begins at 427 degC (800 degF, which is 426.7 degC) or below. ASME B31.3
# from 2014 limits the rate from 315 degC on, so that the job itself asks for an earlier beginning.
@each_row(
    ("start", "found"),
    [
        ("315 degC", []),
        ("427 degC", ["rate-outside-control"]),
        ("800 degF", ["rate-outside-control"]),
        ("428 degC", ["control-starts-too-late"]),
    ],
)
def test_start_of_control(start: str, found: list[str]) -> None:
    assert _names(("start of control    300 degC", f"start of control    {start}")) == found


# ASME B31.1 table 121.5, from memory: suggested spans in feet of steam, gas and air lines by NPS;
# diameters of ASME B36.10M.
@each_row(
    ("nps", "outside", "feet"),
    [
        (1, "33.4", 9), (2, "60.3", 13), (3, "88.9", 15), (4, "114.3", 17), (6, "168.3", 21),
        (8, "219.1", 24), (12, "323.9", 30), (16, "406.4", 35), (20, "508", 39), (24, "610", 42),
    ],
)  # fmt: skip
def test_how_far_apart_a_line_is_held(nps: int, outside: str, feet: int) -> None:
    span = usual_span(Fraction(outside))
    assert span.value == round(Fraction(feet) * Fraction("304.8"), -2), nps
    # A size in between is held as the next larger one.
    assert usual_span(Fraction(outside) + 2) != span or nps == 24
