"""Attaching thermocouples by capacitor discharge."""

BOOK = "thermocouples"


def test_numbers(govern):
    found = govern(BOOK, zones=2)
    # Common practice; AWS D10.10 8.3 from memory: wires at most 6 mm (1/4 in) apart.
    assert found["leg separation"].maximum.to("mm") == 6
    assert govern(BOOK, None, "US")["leg separation"].maximum.to("in") == 0.25
    # ASME B31.1 127.4.9, from memory: 125 W s.
    assert found["attachment energy"].maximum.to("J") == 125
    bases = {d.limit.source.basis for d in found["attachment energy"].demands}
    assert bases == {"memory", "practice"}
    # Common practice, no source: a spare within 25 mm.
    assert found["spare distance"].maximum.to("mm") == 25


def test_counts(govern, lacking):
    # National Board Inspection Code, WRC Bulletin 452: one that controls in every zone.
    assert govern(BOOK, zones=4)["control thermocouples"].minimum == 4
    assert lacking("control thermocouples", BOOK) == {"zones"}
    # Common practice, no source: two in a furnace.
    assert govern(BOOK, heating_method="furnace")["thermocouples"].minimum == 2
