"""Arrêté du 24 mars 1978, article 19 (public law text)."""

from tests.rows import each_row

BOOK = "fr-arrete-1978"
TREATMENT = "post-weld heat treatment"


@each_row(
    ("wall", "strength", "status"),
    [
        # 1(a): to 40 mm and 560 N/mm2, or to 30 mm and 700 N/mm2.
        ("40 mm", "560 MPa", "exempt"),
        ("40.1 mm", "560 MPa", "required"),
        ("40 mm", "561 MPa", "required"),
        ("30 mm", "700 MPa", "exempt"),
        ("30.1 mm", "700 MPa", "required"),
        ("30 mm", "701 MPa", "required"),
    ],
)
def test_thickness_and_strength(govern, wall, strength, status):
    found = govern(BOOK, p_number="1", wall=wall, tensile_strength=strength, filler_kind="ferritic")
    assert found[TREATMENT].status == status


def test_austenitic(govern):
    heavy = {"wall": "60 mm", "tensile_strength": "600 MPa"}
    filled = govern(BOOK, p_number="4", filler_kind="austenitic", **heavy)
    assert filled[TREATMENT].status == "exempt"
    assert govern(BOOK, p_number="8", filler_kind="austenitic", **heavy)[TREATMENT].status == "none"
