"""Books against each other, where a standard says they are alike, or that they are not."""

from tests.rows import each_row

LOWER = ["lower-temperature hold"]


@each_row("lowered", ["50 degF", "100 degF", "150 degF", "200 degF"])
def test_lower_temperatures_of_b31_3_and_viii_1(govern, lowered):
    # ASME B31.3-2016 Table 331.1.2 and BPVC VIII-1 UCS-56.1 have the same figures; US Navy
    # S9074-AR-GIB-010/278 Table VI counts hours for each inch.
    facts = {"p_number": "1", "group_number": "1", "wall": "2 in", "lowered_by": lowered}
    piping = govern("asme-b31.3", "2016", "US", LOWER, **facts)
    vessel = govern("asme-viii-1", "2013", "US", LOWER, **facts)
    navy = govern("us-navy-s9074", "1995", "US", LOWER, s_group="S-1", **facts)
    assert piping["hold time"].minimum == vessel["hold time"].minimum
    assert piping["hold temperature"].minimum == vessel["hold temperature"].minimum
    assert navy["hold time"].minimum != vessel["hold time"].minimum


@each_row("p_number", ["1", "3", "4", "5A", "5B", "6", "9A", "10I", "11A", "15E"])
@each_row("wall", ["5 mm", "30 mm", "80 mm", "150 mm"])
def test_holds_of_b31_1_and_b31_3(govern, p_number, wall):
    # ASME B31.1 Table 132.1.1-1 has the ranges and holds of B31.3-2016 Table 331.1.1 (memory).
    facts = {"p_number": p_number, "wall": wall}
    power, process = govern("asme-b31.1", "2016", **facts), govern("asme-b31.3", "2016", **facts)
    assert power["hold time"].minimum == process["hold time"].minimum
    for end in ("minimum", "maximum"):
        assert getattr(power["hold temperature"], end) == getattr(process["hold temperature"], end)


def test_p4_is_held_longer_in_vessels(govern):
    # ASME BPVC VIII-1 UCS-56: 1 h/in to 5 in; B31.3-2016 Table 331.1.1: 2 h + 15 min/in over 2 in.
    facts = {"p_number": "4", "wall": "4 in"}
    assert govern("asme-viii-1", "2013", "US", **facts)["hold time"].minimum.to("min") == 240
    assert govern("asme-b31.3", "2016", "US", **facts)["hold time"].minimum.to("min") == 150


def test_p1_is_exempt_in_piping_and_treated_in_vessels(govern):
    # ASME B31.3-2018 Table 331.1.3 exempts any thickness; BPVC VIII-1 UCS-56 treats over 38 mm.
    facts = {"p_number": "1", "wall": "40 mm", "preheat": "95 degC", "layers": "multiple"}
    treatment = "post-weld heat treatment"
    assert govern("asme-b31.3", "2018", **facts)[treatment].status == "exempt"
    assert govern("asme-viii-1", "2013", **facts)[treatment].status == "required"


@each_row(
    "facts",
    [
        {"p_number": "3", "wall": "10 mm", "tensile_strength": "75 ksi"},
        {"p_number": "4", "wall": "20 mm", "tensile_strength": "60 ksi"},
        {"p_number": "5A", "wall": "20 mm", "tensile_strength": "75 ksi", "chromium": "2.25 %"},
        {"p_number": "5B", "wall": "20 mm", "tensile_strength": "60 ksi", "chromium": "9 %"},
        {"p_number": "6", "wall": "20 mm"},
    ],
)
@each_row("system", ["SI", "US"])
def test_preheat_of_appendix_r_and_the_navy(govern, system, facts):
    # ASME BPVC VIII-1 Appendix R (memory) and US Navy S9074-AR-GIB-010/278 Table IV (published).
    vessel = govern("asme-viii-1", "2013", system, **facts)["preheat"]
    navy = govern("us-navy-s9074", "1995", system, **facts)["preheat"]
    assert vessel.minimum == navy.minimum is not None
