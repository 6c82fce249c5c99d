"""ASME B31.3: how well each system of units is known, and what was added beside the main tests."""

import pytest

from tests.rows import each_row

BOOK = "asme-b31.3"


@pytest.mark.parametrize(
    ("quantity", "facts"),
    [
        ("hold temperature", {"p_number": "4", "wall": "20 mm"}),
        ("hold time", {"p_number": "1", "wall": "46 mm"}),
        ("post-weld heat treatment", {"p_number": "1", "wall": "46 mm"}),
    ],
)
def test_2012_was_seen_in_si_only(govern, quantity, facts):
    # ASME B31.3-2012 Table 331.1.1 was confirmed in SI; its inches and degF are recalled.
    known = {}
    for system in ("SI", "US"):
        setter = govern(BOOK, "2012", system, **facts)[quantity].demands[0].limit.source
        known[system] = (setter.basis, setter.confidence)
    assert known == {"SI": ("published", "high"), "US": ("memory", "medium")}


def test_2016_was_seen_in_both(govern):
    # ASME B31.3-2016 Table 331.1.1 prints both columns.
    for system in ("SI", "US"):
        (demand,) = govern(BOOK, "2016", system, p_number="4")["hold temperature"].demands
        assert (demand.limit.source.basis, demand.limit.source.confidence) == ("published", "high")


def test_hold_of_p9_2012(govern):
    # ASME B31.3-2012 Table 331.1.1, P-9: 1.2 min/mm, at least 1 h; US figure from memory.
    found = govern(BOOK, "2012", p_number="9A", wall="60 mm")["hold time"]
    assert found.minimum.to("min") == 72
    found = govern(BOOK, "2012", "US", p_number="9A", wall="3 in")["hold time"]
    assert found.minimum.to("min") == 90


def test_furnace_in_turns(govern):
    # ASME B31.3-2012 331.2.5, as quoted elsewhere: 300 mm (1 ft) are heated twice.
    found = govern(BOOK, "2012", heating_method="furnace")["furnace overlap"]
    assert found.minimum.to("mm") == 300
    assert (
        govern(BOOK, "2012", "US", heating_method="furnace")["furnace overlap"].minimum.to("in")
        == 12
    )


@each_row(("sketch", "thickness"), [("1", 18), ("2", 28), ("3", 20), ("4", 40), ("5", 18)])
def test_branch_sketches(govern, sketch, thickness):
    # ASME B31.3-2012 Figure 328.5.4D: Tb + tc, Th + tc, the greater of Tb + tc and Tr + tc,
    # Th + Tr + tc, Tb + tc; here Tb 10, Th 20, Tr 12, tc 8 mm.
    facts = {"branch_wall": "10 mm", "run_wall": "20 mm", "pad_thickness": "12 mm"}
    found = govern(
        BOOK, "2012", weld_kind="branch", branch_sketch=sketch, fillet_cover="8 mm", **facts
    )
    assert found["weld thickness"].exactly.to("mm") == thickness
