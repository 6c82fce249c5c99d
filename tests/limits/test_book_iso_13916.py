"""ISO 13916:2017, clause 4.1: where preheat is measured."""

from tests.rows import each_row

BOOK = ("iso-13916", "2017")


@each_row(("wall", "distance"), [("8 mm", 32), ("12.5 mm", 50), ("40 mm", 50), ("50 mm", 50)])
def test_up_to_50_mm(govern, wall, distance):
    # ISO 13916:2017 4.1: four times the thickness, at most 50 mm.
    found = govern(*BOOK, wall=wall)["preheat distance"]
    assert found.exactly.to("mm") == distance
    assert found.minimum is None


def test_over_50_mm(govern, lacking):
    # ISO 13916:2017 4.1: at least 75 mm.
    found = govern(*BOOK, wall="60 mm")["preheat distance"]
    assert found.minimum.to("mm") == 75
    assert found.exactly is None
    assert lacking("preheat distance", *BOOK) == {"thicker_wall"}
