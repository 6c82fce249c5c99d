"""46 CFR 54.25-7 (public law text): vessels in ships, heat treated whatever their wall."""

import pytest

from tests.rows import each_row

BOOK = "cfr-46-54"
TREATMENT = "post-weld heat treatment"


@pytest.mark.parametrize("wall", ["3/16 in", "1 1/4 in", "1.26 in", "1 1/2 in", "4 in"])
def test_the_wall_does_not_matter(govern, wall):
    # Regardless of thickness: on, above and below the walls of Table UCS-56 (1 1/4 and 1 1/2 in),
    # which is modified by it; 3/16 in (5 mm) is the least plate of 46 CFR 154.450(c)(1).
    assert govern(BOOK, None, "US", p_number="1", wall=wall)[TREATMENT].status == "required"


@pytest.mark.parametrize(("wall", "pressure_code"), [("1 1/4 in", "none"), ("1.51 in", "required")])
def test_it_asks_below_the_walls_of_the_pressure_code(govern, wall, pressure_code):
    # UCS-56: over 1 1/2 in in every case, to 1 1/4 in in none.
    facts = {"p_number": "1", "wall": wall, "lethal_service": "no"}
    assert govern("asme-viii-1", "2013", "US", **facts)[TREATMENT].status == pressure_code
    assert govern(BOOK, None, "US", **facts)[TREATMENT].status == "required"


@each_row(
    ("p_number", "status"),
    [
        # Carbon and low alloy steel, part UCS: P-1 to P-15E. High alloy (part UHA: P-6 to P-8),
        # 9 % nickel steel (part UHT: P-11A) and nickel alloys are neither.
        *[(one, "required") for one in ("1", "3", "4", "5A", "5B", "5C", "9A", "9B")],
        *[(one, "required") for one in ("10A", "10B", "10C", "15E")],
        *[(one, None) for one in ("6", "7", "8", "10H", "11A", "43")],
    ],
)
def test_carbon_and_low_alloy_steel(govern, p_number, status):
    assert govern(BOOK, p_number=p_number, wall="10 mm")[TREATMENT].status == status


@each_row("kind", ["girth-butt", "long-seam", "branch", "attachment", "repair"])
def test_every_kind_of_weld(govern, kind):
    # The text excepts none; what UCS-56 exempts is left to the inspector, so that none is let go.
    found = govern(BOOK, p_number="1", wall="10 mm", weld_kind=kind)
    assert found[TREATMENT].status == "required"


def test_it_brings_no_temperature_of_its_own(govern):
    # The figures are those of ASME VIII-1; a hold invented here would be taken for the law's.
    assert set(govern(BOOK, p_number="1", wall="10 mm")) == {TREATMENT}
