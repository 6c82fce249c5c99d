"""Bands, zones and thermocouples for local heating against published and worked figures."""

from hts.base.quantities import LENGTH, THERMAL_RESISTANCE, Quantity
from hts.limits import book, demands
from tests.rows import each_row


def length(text):
    return Quantity.read(text, LENGTH)


def governing(system="SI", **facts):
    read = {
        name: length(value) if isinstance(value, str) and value.endswith((" mm", " in")) else value
        for name, value in facts.items()
    }
    return demands(book("local-heating", None, system).limits, {"both": read})


PIPE = {
    "weld_kind": "girth-butt",
    "axis": "horizontal",
    "nominal_size": 10,
    "outside_diameter": "273.0 mm",
    "inside_diameter": "242.82 mm",
    "inside_radius": "121.41 mm",
    "wall": "15.09 mm",
    "cap_width": "20 mm",
}


def near(quantity, millimetres):
    """Within half of the last place the figure is printed with."""
    return abs(float(quantity.to("mm")) - millimetres) <= 0.05


def test_bands_of_nps_10_schedule_80():
    # AWS D10.10 rules worked for NPS 10 schedule 80 (273.0 x 15.09 mm), cap 20 mm.
    found = governing(**PIPE)
    assert near(found["soak band"].minimum, 50.2)
    by_id = {demand.limit.id: demand for demand in found["heated band"].demands}
    assert near(by_id["heated-band-hb1"].minimum, 221.4)
    assert near(by_id["heated-band-hb2"].minimum, 365.7)
    assert near(found["gradient band"].minimum, 536.9)
    assert found["heated band"].setter("minimum").limit.id == "heated-band-hb2"


def test_hb1_of_a_vessel():
    # A public worked sheet to WRC Bulletin 452: ID 1957, t 8, SB 8 mm gives HB 362, GCB 716 mm.
    facts = {
        "weld_kind": "girth-butt",
        "outside_diameter": "1973 mm",
        "inside_diameter": "1957 mm",
        "inside_radius": "978.5 mm",
        "wall": "8 mm",
        "cap_width": "8 mm",
        "soak_band": "8 mm",
    }
    heated = governing(**facts)["heated band"]
    hb1 = next(d.minimum for d in heated.demands if d.limit.id == "heated-band-hb1")
    assert round(float(hb1.to("mm"))) == 362
    # The sheet takes the heated band of 362 mm on to the gradient band.
    gradient = governing(**facts, heated_band="362 mm")["gradient band"]
    assert round(float(gradient.minimum.to("mm"))) == 716


def test_soak_band_stops_growing_at_50_mm():
    # ASME BPVC VIII-1 UW-40(a): the lesser of the thickness and 50 mm (2 in) on each side.
    assert governing(cap_width="30 mm", wall="80 mm")["soak band"].minimum == length("130 mm")
    in_inches = governing("US", cap_width="1 in", wall="3 in")["soak band"].minimum
    assert in_inches == length("5 in")


def test_the_wider_side_governs():
    thin = {name: length(PIPE[name]) for name in ("cap_width", "inside_radius")}
    thin |= {"wall": length("15.09 mm"), "weld_kind": "girth-butt"}
    thick = thin | {"wall": length("25 mm")}
    found = demands(book("local-heating").limits, {"upstream": thin, "downstream": thick})
    setter = found["soak band"].setter("minimum")
    assert (setter.side, setter.minimum) == ("downstream", length("70 mm"))


def test_band_for_preheat_and_bake():
    # AWS D10.10:2021: larger of 3t and 75 mm (3 in) on each side of the heated band.
    thin = governing(heated_band="200 mm", wall="10 mm")["bake gradient band"]
    assert thin.minimum == length("350 mm")
    thick = governing(heated_band="200 mm", wall="30 mm")["bake gradient band"]
    assert thick.minimum == length("380 mm")


@each_row(
    ("size", "zones", "positions"),
    # AWS D10.10, from memory and unconfirmed.
    [
        (6, 1, ("12:00",)),
        (8, 2, ("12:00", "6:00")),
        (12, 2, ("12:00", "6:00")),
        (14, 4, ("12:00", "3:00", "6:00", "9:00")),
    ],
)
def test_control_zones(size, zones, positions):
    found = governing(nominal_size=size, heating_method="resistance")
    assert found["zones"].minimum == zones
    control = found["control thermocouples"].setter("minimum")
    assert (control.minimum, control.limit.positions) == (zones, positions)
    source = control.limit.source
    assert (source.basis, source.confidence) == ("memory", "low")
    assert source.cautions
    # A coil wound round the pipe is one zone: common practice, no source.
    coil = governing(nominal_size=size, heating_method="induction")
    assert (coil["zones"].minimum, coil["control thermocouples"].minimum) == (1, 1)


def test_insulation():
    # AWS D10.10:2021: 0.35 to 0.70 m2K/W, 2 to 4 ft2 h degF/BTU.
    found = governing()["insulation"]
    assert found.minimum == Quantity.read("0.35 m2K/W", THERMAL_RESISTANCE)
    assert found.maximum == Quantity.read("0.70 m2K/W", THERMAL_RESISTANCE)


def test_missing_facts_are_traced_to_their_root():
    found = governing(weld_kind="girth-butt", inside_radius="100 mm", wall="10 mm")
    unanswered = {item.limit.id: item.names for item in found["heated band"].unanswered}
    assert unanswered["heated-band-hb1"] == ("cap_width",)
