"""46 CFR 56.85-15, the older text."""

BOOK = "cfr-46-56.85"


def test_thin_p1_is_not_treated(govern):
    # 46 CFR 56.85-15: P-1 under 3/4 in is not treated; the thicker part governs.
    treatment = "post-weld heat treatment"
    assert govern(BOOK, p_number="1", wall="0.74 in")[treatment].status == "none"
    assert not govern(BOOK, p_number="1", wall="0.75 in")[treatment].demands
    found = govern(BOOK, thicker_wall="20 mm", thinner_wall="10 mm")
    assert found["governing thickness"].exactly.to("mm") == 20
