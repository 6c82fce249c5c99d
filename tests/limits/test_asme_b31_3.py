"""ASME B31.3 against check values worked out from the standard, edition by edition.

Values in inches and degF are the ones the US columns of the standard print. Tolerances are one
unit of the last place printed, as the check values are rounded.
"""

from fractions import Fraction

import pytest

from hts.base.quantities import (
    DIFFERENCE,
    LENGTH,
    MASS_FRACTION,
    RATE,
    STRESS,
    TEMPERATURE,
    TIME,
    Quantity,
)
from hts.limits import book, demands
from tests.limits.conftest import in_system
from tests.rows import each_row

DIMENSIONS = {
    "wall": LENGTH,
    "thicker_wall": LENGTH,
    "throat": LENGTH,
    "cap_width": LENGTH,
    "carbon": MASS_FRACTION,
    "specified_carbon": MASS_FRACTION,
    "chromium": MASS_FRACTION,
    "filler_nickel_manganese": MASS_FRACTION,
    "filler_lower_critical": TEMPERATURE,
    "tensile_strength": STRESS,
    "preheat": TEMPERATURE,
    "lowered_by": DIFFERENCE,
    "branch_wall": LENGTH,
    "run_wall": LENGTH,
    "pad_thickness": LENGTH,
    "fillet_cover": LENGTH,
}


def governing(edition, system="SI", options=(), **facts):
    facts.setdefault("weld_kind", "girth-butt")
    if "wall" in facts:
        facts.setdefault("thicker_wall", facts["wall"])
    read = {
        name: in_system(Quantity.read(value, DIMENSIONS[name]), system)
        if name in DIMENSIONS
        else value
        for name, value in facts.items()
    }
    return demands(book("asme-b31.3", edition, system).limits, {"both": read}, options)


def temperature(text):
    return Quantity.read(text, TEMPERATURE)


# ---- Hold time ----


@pytest.mark.parametrize(
    ("wall", "minutes"),
    # ASME B31.3-2016 Table 331.1.1, P-15E: 1 h/in, least 30 min; over 5 in, 15 min more per inch.
    [("0.25 in", 30), ("3 in", 180), ("6 in", 315)],
)
def test_hold_p15e_2016(wall, minutes):
    found = governing("2016", "US", p_number="15E", wall=wall)["hold time"]
    assert found.minimum.to("min") == minutes


def test_hold_p1_2012():
    # ASME B31.3-2012 Table 331.1.1: 2.4 min/mm, 46 mm gives 110.4 min (1 h at least).
    found = governing("2012", p_number="1", wall="46 mm")["hold time"]
    assert found.minimum.to("min") == Fraction(1104, 10)
    thin = governing("2012", p_number="1", wall="21 mm")["hold time"]
    assert thin.minimum.to("h") == 1


@each_row(
    ("p_number", "wall", "minutes"),
    [
        # ASME B31.3-2016 Table 331.1.1: 1 h/in and at least 15 min to 2 in; then 2 h + 15 min/in.
        ("1", "1/8 in", 15),
        ("1", "1 in", 60),
        ("4", "2 in", 120),
        ("5A", "4 in", 150),
        ("5B", "3 in", 135),
    ],
)
def test_hold_time_2016(p_number, wall, minutes):
    found = governing("2016", "US", p_number=p_number, wall=wall)["hold time"]
    assert found.minimum.to("min") == minutes


def test_editions_differ_in_the_least_hold_of_p4():
    # ASME B31.3-2012 Table 331.1.1: P-4 at least 2 h; -2016: at least 15 min.
    assert governing("2012", p_number="4", wall="14 mm")["hold time"].minimum.to("h") == 2
    later = governing("2016", "US", p_number="4", wall="1/2 in")["hold time"]
    assert later.minimum.to("min") == 30


# ---- Hold temperature ----


@each_row(
    ("edition", "system", "p_number", "low", "high"),
    [
        # ASME B31.3-2016 Table 331.1.1, both columns as printed.
        ("2016", "SI", "1", "595 degC", "650 degC"),
        ("2016", "US", "1", "1100 degF", "1200 degF"),
        ("2016", "SI", "4", "650 degC", "705 degC"),
        ("2016", "US", "5A", "1250 degF", "1400 degF"),
        ("2016", "SI", "6", "760 degC", "800 degC"),
        ("2016", "SI", "15E", "705 degC", "775 degC"),
        # ASME B31.3-2012 Table 331.1.1.
        ("2012", "SI", "4", "704 degC", "746 degC"),
        ("2012", "SI", "5A", "704 degC", "760 degC"),
        ("2012", "SI", "3", "593 degC", "718 degC"),
    ],
)
def test_hold_range(edition, system, p_number, low, high):
    found = governing(edition, system, p_number=p_number, wall="20 mm")["hold temperature"]
    assert (found.minimum, found.maximum) == (temperature(low), temperature(high))
    assert not found.empty


def _of_two(first: str, second: str):
    limits = book("asme-b31.3", "2016").limits
    side = {"wall": Quantity.read("10 mm", LENGTH), "weld_kind": "girth-butt"}
    found = demands(limits, {"a": {**side, "p_number": first}, "b": {**side, "p_number": second}})
    return found["hold temperature"]


@each_row(
    ("first", "second", "least", "greatest"),
    [
        # ASME B31.3-2012 331.2.3, from memory: of two ferritic metals the higher range of Table
        # 331.1.1 is that of the weld; the ranges are those of the 2016 table.
        ("1", "5A", "675 degC", "760 degC"),
        ("5A", "1", "675 degC", "760 degC"),
        ("4", "15E", "705 degC", "775 degC"),
        ("1", "3", "595 degC", "650 degC"),
        # The same, (b): with an austenitic part it is that of the ferritic one.
        ("5A", "8", "675 degC", "760 degC"),
    ],
)
def test_two_ferritic_metals_are_held_in_the_higher_range(first, second, least, greatest):
    found = _of_two(first, second)
    assert found.conflict() is None
    assert (str(found.minimum), str(found.maximum)) == (least, greatest)


def test_metals_that_the_higher_range_could_ruin_have_no_common_range():
    # ASME B31.3-2016 Table 331.1.1: P-1 595 to 650 degC and P-6 760 to 800 degC do not meet.
    low, high = _of_two("1", "6").conflict()
    assert (low.side, high.side) == ("b", "a")


@each_row(
    ("lowered", "hours"),
    # ASME B31.3-2016 Table 331.1.2: 2, 4, 10 and 20 h to 1 in for P-1 groups 1 and 2.
    [("50 degF", 2), ("100 degF", 4), ("120 degF", 10), ("200 degF", 20)],
)
def test_lower_temperature_holds(lowered, hours):
    facts = {"p_number": "1", "group_number": "1", "wall": "1 in", "lowered_by": lowered}
    found = governing("2016", "US", ["lower-temperature hold"], **facts)
    assert found["hold time"].minimum.to("h") == hours
    step = Quantity.read(lowered, DIFFERENCE)
    assert found["hold temperature"].minimum == temperature("1100 degF") - step
    assert found["hold temperature"].displaced
    # 15 min for each inch over the first (same table).
    thick = governing("2016", "US", ["lower-temperature hold"], **{**facts, "wall": "3 in"})
    assert thick["hold time"].minimum.to("min") == 60 * hours + 30
    # Not taken, it changes nothing.
    plain = governing("2016", "US", **facts)
    assert plain["hold time"].minimum.to("h") == 1


def test_lower_temperature_hold_has_an_end():
    # ASME B31.3-2016 Table 331.1.2: P-3 no more than 55 degC below.
    facts = {"p_number": "3", "group_number": "1", "wall": "20 mm"}
    near = governing("2016", "SI", ["lower-temperature hold"], lowered_by="55 degC", **facts)
    assert near["hold temperature"].minimum == temperature("540 degC")
    far = governing("2016", "SI", ["lower-temperature hold"], lowered_by="85 degC", **facts)
    assert far["hold temperature"].minimum == temperature("595 degC")


def test_filler_with_nickel_and_manganese():
    # ASME B31.3-2016 Table 331.1.1 note 7, from memory: 10 degC below the filler's lower critical.
    facts = {"p_number": "15E", "wall": "20 mm", "filler_lower_critical": "770 degC"}
    rich = governing("2016", filler_nickel_manganese="1.4 %", **facts)["hold temperature"]
    assert rich.maximum == temperature("760 degC")
    lean = governing("2016", filler_nickel_manganese="1.0 %", **facts)["hold temperature"]
    assert lean.maximum == temperature("775 degC")
    unknown = governing("2016", **facts)["hold temperature"]
    assert [item.names for item in unknown.unanswered] == [("filler_nickel_manganese",)]


# ---- Whether ----


@pytest.mark.parametrize(
    ("carbon", "status"),
    # ASME B31.3-2018 Table 331.1.3, P-4 Gr 1 groove welds: exempt to 5/8 in only if C <= 0.15 %.
    [("0.17 %", "required"), ("0.15 %", "exempt")],
)
def test_exemption_p4_groove_2018(carbon, status):
    facts = {"p_number": "4", "group_number": "1", "layers": "multiple", "preheat": "120 degC"}
    found = governing("2018", wall="12 mm", specified_carbon=carbon, **facts)[
        "post-weld heat treatment"
    ]
    assert found.status == status


@each_row(
    ("facts", "status"),
    [
        # ASME B31.3-2018 Table 331.1.3, P-1: 95 degC preheat over 25 mm; multi-layer over 5 mm.
        ({"wall": "60 mm", "preheat": "95 degC", "layers": "multiple"}, "exempt"),
        ({"wall": "60 mm", "preheat": "90 degC", "layers": "multiple"}, "required"),
        ({"wall": "25 mm", "preheat": "10 degC", "layers": "multiple"}, "exempt"),
        ({"wall": "25 mm", "preheat": "10 degC", "layers": "single"}, "required"),
        ({"wall": "5 mm", "preheat": "10 degC", "layers": "single"}, "exempt"),
        # Table 331.1.3 note 4: never against the welding procedure.
        (
            {
                "wall": "5 mm",
                "preheat": "10 degC",
                "layers": "single",
                "treatment_asked_for": "yes",
            },
            "required",
        ),
    ],
)
def test_exemption_p1_2018(facts, status):
    assert governing("2018", p_number="1", **facts)["post-weld heat treatment"].status == status


def test_exemption_not_yet_shown_leaves_treatment_required():
    found = governing("2018", p_number="1", wall="60 mm")["post-weld heat treatment"]
    assert found.status == "required"
    assert [item.names for item in found.unanswered] == [("preheat", "layers")]


@each_row(
    ("p_number", "wall", "status"),
    [
        # ASME B31.3-2012 Table 331.1.1: P-1 over 20 mm, P-4 over 13 mm.
        ("1", "20 mm", "none"),
        ("1", "21 mm", "required"),
        ("4", "14 mm", "required"),
        ("4", "13 mm", None),
    ],
)
def test_triggers_2012(p_number, wall, status):
    found = governing("2012", p_number=p_number, wall=wall)["post-weld heat treatment"]
    assert found.status == status


def test_branch_2012():
    # ASME B31.3-2012 331.1.3 and Figure 328.5.4D: sketch 4 is run + pad + cover; over 2 x 20 mm.
    facts = {"p_number": "1", "weld_kind": "branch", "branch_sketch": "4", "wall": "15 mm"}
    walls = {"run_wall": "15 mm", "pad_thickness": "15 mm"}
    thick = governing("2012", fillet_cover="11 mm", **facts, **walls)
    assert thick["weld thickness"].exactly == Quantity.read("41 mm", LENGTH)
    assert thick["post-weld heat treatment"].status == "required"
    thin = governing("2012", fillet_cover="10 mm", **facts, **walls)
    assert thin["post-weld heat treatment"].status == "none"


# ---- Rates ----


def test_no_rate_in_figures_to_2012():
    # ASME B31.3-2012 331.1.4 gives no figure; the rule by thickness came with 2014 (from memory).
    early = governing("2012", p_number="1", wall="10 mm").get("heating rate")
    assert early is None
    later = governing("2014", p_number="1", wall="10 mm")["heating rate"]
    assert later.setter("maximum").limit.source.basis == "memory"


@each_row(
    ("wall", "rate"),
    # ASME B31.1 132.5: 600 degF/h to 2 in, then 1200 degF/h divided by the inches.
    [("1 in", 600), ("2 in", 600), ("4 in", 300), ("6 in", 200)],
)
def test_rate_by_thickness(wall, rate):
    found = governing("2016", "US", p_number="1", wall=wall)["heating rate"]
    assert found.maximum.to("degF/h") == rate
    # It starts at 600 degF: 500 degF/h at 500 degF on 6 in is no breach.
    assert found.rate_at(temperature("500 degF")) is None
    assert found.rate_at(temperature("600 degF")) is found.setter("maximum")


def test_rate_is_converted_as_a_difference():
    # NIST SP 811 B.8: 600 degF/h is 333.3 K/h and not 315 degC/h.
    found = governing("2016", p_number="1", wall="10 mm")["heating rate"]
    assert found.maximum.to("degC/h") == Fraction(1000, 3)


def test_cooling_p7_2016():
    # ASME B31.3-2016 Table 331.1.1 note 3: at most 55 degC/h above 650 degC; 70 at 700 is a breach.
    found = governing("2016", p_number="7", wall="10 mm")["cooling rate"]
    assert found.thresholds() == [temperature("315 degC"), temperature("650 degC")]
    allowed = found.rate_at(temperature("700 degC"))
    assert allowed.maximum < Quantity.read("70 degC/h", RATE)
    assert allowed.maximum == Quantity.read("55 degC/h", RATE)
    below = found.rate_at(temperature("600 degC"))
    assert below.maximum.to("degF/h") == 600


# ---- Preheat ----


@each_row(
    ("facts", "least"),
    [
        # ASME B31.3-2014 Table 330.1.1.
        ({"p_number": "4", "wall": "5 mm"}, "120 degC"),
        # A335 P22 is 60 ksi, listed as 415 MPa; the table divides at 60 ksi, printed 414 MPa.
        ({"p_number": "5A", "wall": "5 mm", "tensile_strength": "415 MPa"}, "150 degC"),
        ({"p_number": "5A", "wall": "5 mm", "tensile_strength": "60 ksi"}, "150 degC"),
        ({"p_number": "5A", "wall": "5 mm", "tensile_strength": "75 ksi"}, "200 degC"),
        ({"p_number": "1", "wall": "30 mm", "carbon": "0.32 %"}, "95 degC"),
        ({"p_number": "1", "wall": "30 mm", "carbon": "0.25 %"}, "10 degC"),
        ({"p_number": "3", "wall": "10 mm", "tensile_strength": "450 MPa"}, "10 degC"),
        ({"p_number": "3", "wall": "14 mm"}, "95 degC"),
        ({"p_number": "15E", "wall": "14 mm"}, "200 degC"),
        ({"p_number": "41", "wall": "14 mm"}, "10 degC"),
    ],
)
def test_preheat_2014(facts, least):
    assert governing("2014", **facts)["preheat"].minimum == temperature(least)


def test_local_band_2012():
    # ASME B31.3-2012 331.2.6: at least 25 mm beyond the weld on each side.
    found = governing("2012", p_number="1", wall="10 mm", cap_width="20 mm")["soak band"]
    assert found.minimum == Quantity.read("70 mm", LENGTH)


def test_minutes_are_shown_with_their_formula():
    found = governing("2012", p_number="1", wall="46 mm")["hold time"]
    demand = found.setter("minimum")
    assert demand.shown("minimum") == "max(1 h, 2.4 min/mm × 46 mm)"
    assert demand.limit.source.citation == "ASME B31.3-2012 Table 331.1.1"
    assert demand.minimum == Quantity.read("110.4 min", TIME)
