"""Where editions, books and papers in circulation contradict each other, the books say so.

Each trap has the rows that warn of it, and a check of what is done about it. The figures are those
of the standards named beside the checks.
"""

import pytest

from hts.base.quantities import LENGTH, Quantity
from hts.checking.checker.run import check_spec
from hts.checking.govern.case import Case
from hts.checking.rules.examples import changed
from hts.job.explain import books as explained
from hts.job.explain.why import answers, text
from hts.limits import book
from hts.science.tables.pipe import nps_of, pipe
from tests.rows import each_row
from tests.texts import spec_of

#: Trap -> what it is about, and rows (book, edition, row) with words of the caution they carry.
TRAPS = {
    "C1": (
        "B31.3 has no rate in figures to 2012, that of B31.1 from 2014 on",
        [
            ("asme-b31.3", "2018", "heating-rate", "To 2012 the code gives no figure"),
            ("asme-b31.3", "2014", "cooling-rate", "To 2012 the code gives no figure"),
        ],
    ),
    "C2": (
        "the table of B31.3 changed altogether in 2014",
        [
            ("asme-b31.3", "2012", "hold-2012-p4", "changed altogether in 2014"),
            ("asme-b31.3", "2018", "hold-p4", "704 to 746 degC"),
            ("asme-b31.3", "2016", "hold-p5", "704 to 760 degC"),
            ("asme-b31.3", "2016", "time-to-50", "field procedures still quote it"),
        ],
    ),
    "C3": (
        "P-1 is exempt in piping, treated above a thickness in vessels",
        [
            ("asme-b31.3", "2018", "exempt-p1", "the triggers differ"),
            ("asme-b31.1", "2018", "exempt-p1", "the triggers differ"),
            ("asme-viii-1", "2013", "treat-p1-thick", "the triggers differ"),
        ],
    ),
    "C4": (
        "600 degF/h is 333 degC/h and not 315",
        [
            ("asme-b31.1", "2018", "heating-rate", "600 degF/h is 333 degC/h"),
            ("asme-b31.3", "2018", "heating-rate", "600 degF/h is 333 degC/h"),
        ],
    ),
    "C5": (
        "the table of control zones could not be seen",
        [
            ("local-heating", None, "zones-nps-8-to-12", "could not be seen"),
            ("local-heating", None, "control-from-nps-14", "competing versions"),
        ],
    ),
    "C6": (
        "lower temperatures: hours for the first inch, or for each inch",
        [
            ("asme-b31.3", "2018", "lower-time-55", "for each inch"),
            ("asme-viii-1", "2013", "lower-time-110", "for each inch"),
            ("us-navy-s9074", "1995", "lower-time-100", "for the first inch"),
        ],
    ),
    "C7": (
        "holds over two inches of P-4 and P-5",
        [
            ("asme-viii-1", "2013", "time-p4-to-125", "ASME B31.3 from 2014 on asks for less"),
            ("asme-b31.3", "2018", "time-over-50", "holds P-4 and P-5 for 1 h for each inch"),
        ],
    ),
    "C8": (
        "rules on the heated band disagree",
        [
            ("local-heating", None, "heated-band-hb1", "Rules on width disagree"),
            ("local-heating", None, "heated-band-hb2", "Rules on width disagree"),
            ("asme-b31.1", "2018", "local-band", "narrower than AWS D10.10"),
            ("us-navy-s9074", "1995", "vessel-band", "Other rules on width differ"),
            ("en-13445-4", "2021", "heated-band", "AWS D10.10"),
        ],
    ),
    "C9": (
        "a sheet in circulation forgets the weld and one side of the soak band",
        [("local-heating", None, "soak-band", "takes one wall for the whole soak band")],
    ),
    "C10": (
        "an hour for 25 mm or part of it, rounded up or in proportion",
        [("nace-sp0472", "2010", "time-amine-caustic", "in proportion")],
    ),
    "C11": (
        "category B at 1 in is 10 degC",
        [("aws-d1.1", "2015", "preheat-b-20-38", "is wrong")],
    ),
    "C12": ("schedule 40 and STD of NPS 12 differ; two diameters are in print", []),
    "C13": (
        "how far 9Cr cools before it is treated",
        [
            ("common-practice", None, "cool-before-p15e", "204 degC"),
            ("common-practice", None, "cool-before-p15e-lean", "95 degC"),
        ],
    ),
    "C14": (
        "60 ksi are printed as 414 and as 415 MPa",
        [
            ("asme-b31.3", "2014", "preheat-p5", "whole ksi"),
            ("asme-b31.3", "2018", "preheat-p5-strong", "whole ksi"),
        ],
    ),
}
ROWS = [(trap, *row) for trap, (_, rows) in TRAPS.items() for row in rows]


def test_every_trap_is_covered():
    assert list(TRAPS) == [f"C{number}" for number in range(1, 15)]
    done = {name.split("_")[1].upper() for name in globals() if name.startswith("test_c")}
    assert done == set(TRAPS)


@each_row(("trap", "name", "edition", "row", "words"), ROWS)
def test_the_row_warns_and_so_does_hts_books(trap, name, edition, row, words):
    found = book(name, edition)
    (limit,) = [limit for limit in found.limits if limit.id == row]
    assert any(words in caution for caution in limit.source.cautions), limit.source.cautions
    assert all(caution in explained.text(found) for caution in limit.source.cautions)


def findings(*changes, base="butt"):
    return check_spec(spec_of(changed(base, changes)))


def noted(name, *changes, base="butt"):
    """The notes of the one finding of this name."""
    (found,) = [f for f in findings(*changes, base=base) if f.kind.name == name]
    return " ".join(found.notes)


def reasons(*changes, base="butt"):
    """What `hts why` tells."""
    case = Case(spec_of(changed(base, changes)))
    return text(answers(case))


FAST = ("  heat  to 715 degC   at most 200 degC/h", "  heat  to 715 degC   at most 334 degC/h")


def test_c1_a_rate_hangs_on_the_edition(govern):
    # ASME B31.3-2012: none; ASME B31.3 331.1.4 from 2014 on (from memory): 600 degF/h.
    facts = {"p_number": "5A", "wall": "1 in"}
    assert "heating rate" not in govern("asme-b31.3", "2012", **facts)
    assert govern("asme-b31.3", "2014", **facts)["heating rate"].maximum.to("degF/h") == 600
    assert "To 2012 the code gives no figure" in noted("heating-too-fast", FAST)
    assert "caution: To 2012 the code gives no figure" in reasons()


def test_c2_the_hold_hangs_on_the_edition(govern):
    # ASME B31.3-2012 and -2016 Table 331.1.1, P-4: 704 to 746 and 650 to 705 degC.
    facts = {"p_number": "4", "wall": "1 in"}
    early, late = (govern("asme-b31.3", edition, **facts) for edition in ("2012", "2016"))
    for governing, ends in ((early, (704, 746)), (late, (650, 705))):
        hold = governing["hold temperature"]
        assert (hold.minimum.to("degC"), hold.maximum.to("degC")) == ends
    old = (('"A335 P22"', '"A335 P11"'), ("700 .. 730 degC", "704 .. 746 degC"))
    assert "704 to 746 degC" in noted("hold-temperature-outside-limits", *old)


def test_c3_one_trigger_is_not_the_other(govern):
    # BPVC VIII-1:2013 UCS-56 and ASME B31.3-2018 Table 331.1.3, P-1 of 40 mm preheated to 95 degC.
    facts = {"p_number": "1", "wall": "40 mm", "preheat": "95 degC", "layers": "multiple"}
    treatment = "post-weld heat treatment"
    assert govern("asme-viii-1", "2013", **facts)[treatment].status == "required"
    assert govern("asme-b31.3", "2018", **facts)[treatment].status == "exempt"
    told = noted(
        "missing-heat-treatment",
        ("asme-b31.3 edition 2018", "asme-viii-1 edition 2013"),
        ('"A335 P22"', '"A106-B"'),
        ("NPS 12 schedule 120", "NPS 24 schedule 120"),
        ("25.4 mm measured", "46 mm measured"),
        (
            "cycle stress-relief for W12 {",
            "joint W13 like W12 { }\n\ncycle stress-relief for W12 {",
        ),
    )
    assert "the triggers differ" in told


def test_c4_a_rate_is_an_interval(govern):
    # ASME B31.1 132.5: 600 degF/h is 333.3 degC/h.
    rate = govern("asme-b31.1", "2018", p_number="4", wall="1 in")["heating rate"].maximum
    assert 333 < rate.to("degC/h") < 334
    assert "temperature mistaken for a difference" in noted("heating-too-fast", FAST)


def test_c5_the_table_of_zones_is_marked():
    told = noted(
        "too-few-zones",
        ("pipe       NPS 12 schedule 120", "pipe       NPS 16 schedule 100"),
        ("wall       25.4 mm measured", "wall       25 mm measured"),
        ("at 12:00, 287 mm", "at 12:00, 295 mm"),
        ("at 6:00,  287 mm", "at 6:00,  295 mm"),
    )
    assert "competing versions" in told
    assert {
        limit.source.basis
        for limit in book("local-heating").limits
        if "AWS D10.10" in limit.source.citation and "zones" in limit.id
    } == {"memory"}


def test_c6_hours_for_the_first_inch_or_for_each(govern):
    # UCS-56.1 and B31.3 Table 331.1.2: 4 h and 15 min/in over 1 in; S9074 Table VI: 3 h for each.
    facts = {"p_number": "1", "group_number": "1", "wall": "2 in", "lowered_by": "100 degF"}
    option = ["lower-temperature hold"]
    for name, edition in (("asme-viii-1", "2013"), ("asme-b31.3", "2016")):
        time = govern(name, edition, "US", option, **facts)["hold time"].minimum
        assert time.to("min") == 255
    navy = govern("us-navy-s9074", "1995", "US", option, s_group="S-1", **facts)
    assert navy["hold time"].minimum.to("h") == 6


def test_c7_p4_over_two_inches(govern):
    # UCS-56: 1 h/in to 5 in; B31.3-2016 Table 331.1.1: 2 h and 15 min/in over 2 in.
    facts = {"p_number": "4", "wall": "4 in"}
    assert govern("asme-viii-1", "2013", "US", **facts)["hold time"].minimum.to("h") == 4
    assert govern("asme-b31.3", "2016", "US", **facts)["hold time"].minimum.to("min") == 150


def test_c8_which_rule_sized_the_band():
    told = reasons()
    assert "W12/heated-band" in told and "AWS D10.10" in told and "Rules on width disagree" in told
    # WRC Bulletin 452: 80.8 + 4 sqrt(136.5 x 25.4) = 316.3 mm, where no book sizes the heaters.
    found, nobody = findings(
        ("asme-b31.3 edition 2018, local-heating", "asme-b31.3 edition 2018"),
        ("heated band    by rule", "heated band    280 mm total"),
        ("gradient band  by rule", "gradient band  700 mm total"),
        ("at 12:00, 287 mm", "at 12:00, 140 mm"),
        ("at 6:00,  287 mm", "at 6:00,  140 mm"),
    )
    assert found.kind.name == "heated-band-below-practice"
    assert any("Rules on width disagree" in note for note in found.notes)
    assert nobody.kind.name == "band-without-limits"


def test_c9_the_soak_band_in_full(govern):
    # BPVC VIII-1 UW-40(a): the weld and the lesser of wall and 50 mm on each side.
    facts = {"wall": "8 mm", "cap_width": "12 mm", "outside_diameter": "1973 mm"}
    assert govern("local-heating", **facts)["soak band"].minimum.to("mm") == 28
    narrow = (("soak band      by rule", "soak band      70 mm total"),)
    assert "takes one wall" in noted(
        "soak-band-too-narrow",
        *narrow,
        ("12:00, 40 mm", "12:00, 35 mm"),
        ("6:00,  40 mm", "6:00,  35 mm"),
    )


def test_c10_an_hour_for_each_part(govern):
    # NACE SP0472-2010 Section 3: 262 mm at 1 h for each 25 mm or part of it.
    facts = {"p_number": "1", "wall": "262 mm", "t": "262 mm", "amine_or_caustic_service": "yes"}
    assert govern("nace-sp0472", "2010", **facts)["hold time"].minimum.to("h") == 11


def test_c11_category_b_at_one_inch(govern):
    # AWS D1.1:2015 Table 3.3.
    facts = {"preheat_category": "B", "wall": "1 in"}
    assert govern("aws-d1.1", "2015", "US", **facts)["preheat"].minimum.to("degF") == 50
    assert govern("aws-d1.1", "2015", "SI", **facts)["preheat"].minimum.to("degC") == 10


def test_c12_a_schedule_by_its_name():
    # ASME B36.10M: 10.31 mm and 9.53 mm; diameters may differ by 0.2 mm (common practice).
    assert (str(pipe("12", "40").wall), str(pipe("12", "STD").wall)) == ("10.31 mm", "9.53 mm")
    mixed = (("schedule 120", "schedule 40"), ("25.4 mm measured", "9.53 mm nominal"))
    assert noted("wall-of-other-schedule", *mixed) == "that is a wall of schedule STD or 40S"
    for diameter in ("323.8 mm", "323.9 mm"):
        assert nps_of(Quantity.read(diameter, LENGTH)) == "12"


def test_c13_9cr_cools_first(govern, lacking):
    # Common practice: 95 degC, or 204 degC where Ni + Mn of the filler stay below 1.2 %.
    quantity = "temperature before heat treatment"
    name = "common-practice"
    rich = govern(name, p_number="15E", wall="20 mm", filler_nickel_manganese="1.3 %")[quantity]
    lean = govern(name, p_number="15E", wall="20 mm", filler_nickel_manganese="1.0 %")[quantity]
    assert (rich.maximum.to("degC"), lean.maximum.to("degC")) == (95, 204)
    assert lacking(quantity, name, p_number="15E", wall="20 mm") == {"filler_nickel_manganese"}


@pytest.mark.parametrize(
    ("strength", "preheat"), [("415 MPa", 150), ("60 ksi", 150), ("75 ksi", 200)]
)
def test_c14_60_ksi_is_60_ksi(govern, strength, preheat):
    # ASME B31.3-2014 Table 330.1.1.
    facts = {"p_number": "5A", "wall": "1 in", "tensile_strength": strength}
    assert govern("asme-b31.3", "2014", **facts)["preheat"].minimum.to("degC") == preheat
    low = (("  at least          150 degC", "  at least          140 degC"),)
    assert "whole ksi" in noted("preheat-too-low", *low)
