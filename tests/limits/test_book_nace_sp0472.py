"""NACE SP0472-2010, section 3, as quoted elsewhere."""

from hts.base.quantities import TEMPERATURE, Quantity
from tests.rows import each_row

BOOK = ("nace-sp0472", "2010")
CARBONATE = {"p_number": "1", "carbonate_service": "yes", "amine_or_caustic_service": "no"}
AMINE = {"p_number": "1", "carbonate_service": "no", "amine_or_caustic_service": "yes"}


def test_carbonate(govern):
    # NACE SP0472-2010: 649 to 663 degC, 1 h per 25 mm and at least 1 h.
    found = govern(*BOOK, t="20 mm", **CARBONATE)
    hold = found["hold temperature"]
    assert hold.minimum > Quantity.read("645 degC", TEMPERATURE)
    assert hold.minimum <= Quantity.read("655 degC", TEMPERATURE) <= hold.maximum
    assert found["hold time"].minimum.to("h") == 1
    assert govern(*BOOK, t="50 mm", **CARBONATE)["hold time"].minimum.to("h") == 2


@each_row(
    ("t", "hours"),
    # NACE SP0472-2010: 1 h per 25 mm or part of it; 262 mm is eleven parts.
    [("10 mm", 1), ("25 mm", 1), ("26 mm", 2), ("262 mm", 11)],
)
def test_amine(govern, t, hours):
    found = govern(*BOOK, t=t, **AMINE)
    assert found["hold time"].minimum.to("h") == hours
    hold = found["hold temperature"]
    assert (hold.minimum.to("degC"), hold.maximum.to("degC")) == (620, 650)


def test_lower_temperature_is_forbidden(govern):
    for facts in (CARBONATE, AMINE):
        (demand,) = govern(*BOOK, t="20 mm", **facts)["option"].demands
        assert (demand.limit.option, demand.limit.status) == ("lower-temperature hold", "forbidden")


def test_the_service_has_to_be_known(lacking):
    wanted = {"carbonate_service", "amine_or_caustic_service"}
    assert lacking("hold temperature", *BOOK, p_number="1", t="20 mm") == wanted
    assert lacking("hold temperature", *BOOK, p_number="8", t="20 mm") == set()


def test_forbids_what_the_vessel_code_offers(govern):
    # NACE SP0472-2010 takes away the option of ASME BPVC VIII-1 UCS-56.1.
    from hts.limits import book, demands
    from tests.limits.conftest import read

    facts = {"group_number": "1", "lowered_by": "50 degF", "wall": "20 mm", "t": "20 mm"}
    facts = {name: read(name, value) for name, value in {**facts, **AMINE}.items()}
    vessel = book("asme-viii-1", "2013").limits
    option = ["lower-temperature hold"]
    alone = demands(vessel, {"both": facts}, option)["hold time"].minimum
    both = demands((*vessel, *book(*BOOK).limits), {"both": facts}, option)
    assert alone.to("h") == 2
    assert both["hold time"].minimum.to("h") == 1
    assert both["hold temperature"].minimum.to("degC") == 620
