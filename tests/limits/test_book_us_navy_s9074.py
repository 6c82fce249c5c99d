"""US Navy S9074-AR-GIB-010/278 (1995)."""

import pytest

from tests.rows import each_row

BOOK = ("us-navy-s9074", "1995")
TREATMENT = "post-weld heat treatment"


@each_row(
    ("group", "low", "high"),
    [("S-1", 1100, 1250), ("S-2", 1000, 1050), ("S-3A", 1100, 1175), ("S-5", 1350, 1400)],
)
def test_ranges(govern, group, low, high):
    # S9074-AR-GIB-010/278, table of holding temperatures.
    hold = govern(*BOOK, "US", s_group=group)["hold temperature"]
    assert (hold.minimum.to("degF"), hold.maximum.to("degF")) == (low, high)


@each_row(
    ("lowered", "hours"), [("50 degF", 4), ("100 degF", 6), ("150 degF", 10), ("200 degF", 20)]
)
def test_lower_temperature_is_by_the_inch(govern, lowered, hours):
    # S9074-AR-GIB-010/278 Table VI: 2, 3, 5 and 10 h per inch; here 2 in.
    facts = {"s_group": "S-1", "t": "2 in", "lowered_by": lowered}
    found = govern(*BOOK, "US", ["lower-temperature hold"], **facts)
    assert found["hold time"].minimum.to("h") == hours
    assert found["hold temperature"].minimum.to("degF") == 1100 - int(lowered.split()[0])
    assert govern(*BOOK, "US", **facts)["hold time"].minimum.to("h") == 2


def test_the_band_of_a_vessel(govern):
    # S9074-AR-GIB-010/278: six times the wall on each side, 150 mm for 25 mm.
    found = govern(*BOOK, wall="25 mm", cap_width="30 mm", part="vessel-shell")["heated band"]
    assert (found.minimum.to("mm") - 30) / 2 == 150


def test_rates_and_spread(govern):
    found = govern(*BOOK, "US", s_group="S-1", t="1/4 in")
    assert found["cooling rate"].maximum.to("degF/h") == 200
    assert found["holding spread"].maximum.to("degF") == 100
    assert found["heating spread"].maximum.to("degF") == 250
    assert found["hold time"].minimum.to("min") == 30


def test_when_piping_is_treated(govern, lacking):
    # S9074-AR-GIB-010/278: S-1 over 3/4 in or over 0.35 % carbon; S-4 also below 250 degF.
    def status(**facts):
        governing = govern(*BOOK, **facts)[TREATMENT]
        return governing.status if governing.demands else None

    assert status(s_group="S-1", wall="20 mm", specified_carbon="0.2 %") == "required"
    assert status(s_group="S-1", wall="10 mm", specified_carbon="0.36 %") == "required"
    assert status(s_group="S-1", wall="10 mm", specified_carbon="0.2 %") is None
    thin = {"s_group": "S-4", "wall": "10 mm", "specified_carbon": "0.12 %", "nominal_size": 2}
    thin["part"] = "pipe"
    assert status(preheat="240 degF", **thin) == "required"
    assert status(preheat="250 degF", **thin) is None
    assert lacking(TREATMENT, *BOOK, **thin) == {"preheat"}


@each_row(
    ("facts", "least"),
    [
        # S9074-AR-GIB-010/278 Table IV.
        ({"p_number": "1", "wall": "2 in", "carbon": "0.31 %"}, 175),
        ({"p_number": "1", "wall": "2 in", "carbon": "0.30 %"}, 60),
        ({"p_number": "4", "wall": "1/4 in", "tensile_strength": "60 ksi"}, None),
        ({"p_number": "4", "wall": "3/4 in", "tensile_strength": "60 ksi"}, 250),
        (
            {"p_number": "5A", "wall": "1 in", "tensile_strength": "415 MPa", "chromium": "2.25 %"},
            300,
        ),
        ({"p_number": "5B", "wall": "1 in", "tensile_strength": "60 ksi", "chromium": "9 %"}, 400),
    ],
)
def test_preheat(govern, facts, least):
    found = govern(*BOOK, "US", **facts)["preheat"]
    assert (found.minimum and found.minimum.to("degF")) == least


def test_tempered_metal(govern, lacking):
    found = govern(*BOOK, "US", delivery_condition="quenched-and-tempered")
    assert found["margin below tempering"].minimum.to("degF") == 50
    assert lacking("margin below tempering", *BOOK) == {"delivery_condition"}


@pytest.mark.parametrize("system", ["SI", "US"])
def test_spreads_are_never_looser_than_printed(govern, system):
    # The page prints degF alone: 100 and 250, whatever the job is written in.
    found = govern(*BOOK, system, s_group="S-1", wall="1 in", specified_carbon="0.2 %")
    assert found["holding spread"].maximum.to("degF") == 100
    assert found["heating spread"].maximum.to("degF") == 250


@each_row(
    ("group", "facts", "least"),
    [
        # Table IV on its page: by S-group, thickness, strength and carbon.
        ("S-1", {"wall": "1 in", "specified_carbon": "0.31 %"}, 60),
        ("S-1", {"wall": "1.1 in", "specified_carbon": "0.31 %"}, 175),
        ("S-1", {"wall": "1.1 in", "specified_carbon": "0.30 %"}, 60),
        ("S-2", {"wall": "1 in"}, 60),
        ("S-3", {"wall": "5/8 in", "tensile_strength": "70 ksi"}, 60),
        ("S-3", {"wall": "0.63 in", "tensile_strength": "70 ksi"}, 175),
        ("S-3", {"wall": "1/2 in", "tensile_strength": "75 ksi"}, 175),
        ("S-3A", {"wall": "1 in"}, 300),
        ("S-4", {"wall": "1/2 in", "tensile_strength": "60 ksi"}, 60),
        ("S-4", {"wall": "0.51 in", "tensile_strength": "60 ksi"}, 250),
        ("S-4", {"wall": "1/4 in", "tensile_strength": "61 ksi"}, 250),
        ("S-5", {"wall": "1 in", "tensile_strength": "60 ksi", "chromium": "6 %"}, 300),
        ("S-5", {"wall": "1 in", "tensile_strength": "60 ksi", "chromium": "6.1 %"}, 400),
        ("S-5", {"wall": "1/2 in", "tensile_strength": "60 ksi", "chromium": "6.1 %"}, 300),
        ("S-5", {"wall": "1/2 in", "tensile_strength": "61 ksi", "chromium": "5 %"}, 400),
        ("S-6", {"wall": "1 in"}, 400),
    ],
)
def test_preheat_by_group(govern, group, facts, least):
    found = govern(*BOOK, "US", s_group=group, **facts)["preheat"]
    assert found.minimum.to("degF") == least


@pytest.mark.parametrize(("group", "most"), [("S-2", 300), ("S-3A", 500), ("S-8", 350)])
def test_interpass_by_group(govern, group, most):
    found = govern(*BOOK, "US", s_group=group, wall="1 in")["interpass"]
    assert found.maximum.to("degF") == most


@each_row(
    ("facts", "status"),
    [
        # Table VI, S-5, piping: (a) over 0.15 % C, (b) over 2.75 % Cr, (c) over 5/8 in, (d) over
        # 4 in, (e) below 300 degF. Each alone, and none of them at its very figure.
        ({}, None),
        ({"specified_carbon": "0.151 %"}, "required"),
        ({"chromium": "2.76 %"}, "required"),
        ({"wall": "0.626 in"}, "required"),
        ({"nominal_size": 5}, "required"),
        ({"preheat": "299 degF"}, "required"),
    ],
)
def test_each_reason_to_treat_s5_piping(govern, facts, status):
    edge = {"wall": "5/8 in", "specified_carbon": "0.15 %", "chromium": "2.75 %"}
    edge |= {"nominal_size": 4, "preheat": "300 degF", "s_group": "S-5", "part": "pipe"}
    found = govern(*BOOK, "US", **{**edge, **facts})[TREATMENT]
    assert found.status == status


@each_row("group", ["S-1", "S-2", "S-3", "S-3A", "S-4", "S-5"])
def test_vessels_are_treated_whatever_the_wall(govern, group):
    found = govern(*BOOK, s_group=group, wall="3 mm", part="vessel-shell")[TREATMENT]
    assert found.status == "required"
