"""Hydrogen release: practices, each for its own material."""

from tests.rows import each_row

BOOK = "hydrogen-release"


@each_row(
    ("facts", "low", "high", "hours", "basis"),
    [
        # API 934-C, as quoted elsewhere: 300 degC and 1 h for 1.25Cr.
        ({"p_number": "4", "chromium": "1.25 %"}, 300, 427, 1, "published"),
        # Common practice, no source: P-12 at 300 degC for 2 h, P91 at 300 degC for 4 h.
        ({"p_number": "4", "chromium": "1 %"}, 300, 427, 2, "practice"),
        ({"p_number": "15E"}, 300, 427, 4, "practice"),
        # Abstract of a paper on 2.25Cr-1Mo-V: 350 degC for 4 h.
        ({"p_number": "5C"}, 350, 427, 4, "published"),
        # EN 1011-2, from memory.
        ({"p_number": "1", "en_group": "1.2"}, 230, 300, 2, "memory"),
        # Refinery practice, from memory: 290 to 370 degC for 2 h and more.
        ({"p_number": "1", "weld_kind": "repair", "sour_service": "yes"}, 290, 370, 2, "memory"),
    ],
)
def test_practices(govern, facts, low, high, hours, basis):
    found = govern(BOOK, **facts)
    bake = found["bake temperature"]
    assert (bake.minimum.to("degC"), bake.maximum.to("degC")) == (low, high)
    time = found["bake time"]
    assert time.minimum.to("h") == hours
    assert time.setter("minimum").limit.source.basis == basis


def test_ceiling(govern):
    # AWS D10.10:2021: under 427 degC (800 degF).
    assert govern(BOOK, None, "US")["bake temperature"].maximum.to("degF") == 800


def test_chromium_has_to_be_known(lacking):
    known = {"p_number": "4", "en_group": "5.1", "part": "pipe", "sour_service": "no"}
    assert lacking("bake time", BOOK, **known) == {"chromium"}
