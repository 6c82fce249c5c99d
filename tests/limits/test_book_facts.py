"""What a specification states reaches the books, and what it leaves out is named."""

import pytest

from hts.base.findings import Report
from hts.base.quantities import COUNT
from hts.checking.govern import authorities
from hts.checking.govern.joint import JointLimits
from hts.checking.rules.examples import changed
from hts.syntax.formula import CONDITION, Formula
from tests.texts import spec_of


def limits_of(governed_by, *changes):
    """The limits of the one joint and cycle of the example under other books."""
    books = ("governed by  asme-b31.3 edition 2018, local-heating", f"governed by  {governed_by}")
    spec = spec_of(changed("butt", (books, *changes)))
    report = Report()
    (joint,) = spec.joints.values()
    (cycle,) = joint.cycles
    made = JointLimits(joint, cycle, authorities(spec, report))
    assert made.governing
    return made


def unanswered(limits, quantity):
    return {name for item in limits.governing[quantity].unanswered for name in item.names}


def test_group_of_the_navy():
    book = "us-navy-s9074 edition 1995"
    assert "s_group" in unanswered(limits_of(book), "hold temperature")
    stated = limits_of(book, ("  heat number  ", "  s-group  S-5\n  heat number  "))
    # US Navy S9074-AR-GIB-010/278, S-5: 732 to 760 degC.
    assert stated.governing["hold temperature"].minimum.to("degC") == 732


def test_category_of_d1_1():
    book = "aws-d1.1 edition 2015"
    assert unanswered(limits_of(book), "preheat") == {"preheat_category"}
    stated = limits_of(book, ("  heat number  ", "  preheat category  A\n  heat number  "))
    # AWS D1.1:2015 Table 3.3, category A, 25.4 mm: 65 degC.
    assert stated.governing["preheat"].minimum.to("degC") == 65


@pytest.mark.parametrize(
    ("service", "status"), [("lethal", "required"), ("amine, lethal", "required")]
)
def test_lethal_service_of_several(service, status):
    book = "asme-viii-1 edition 2013"
    treatment = "post-weld heat treatment"
    carbon = ('"A335 P22"', '"A106 Gr.B"')
    assert "lethal_service" in unanswered(limits_of(book, carbon), treatment)
    stated = limits_of(book, carbon, ("  cap width ", f"  service  {service}\n  cap width "))
    # ASME BPVC VIII-1:2013 UW-2.
    assert stated.governing[treatment].status == status


def test_qualification():
    assert unanswered(limits_of("asme-ix"), "preheat") == {"qualified_preheat"}
    tested = 'qualified  "PQR-31" hold 8 h preheat 180 degC with toughness'
    old = 'qualified  "PQR-31" hold 8 h condition below lower critical'
    stated = limits_of("asme-ix", (old, tested)).governing
    # ASME BPVC IX QW-407.2: 8 h are 80 % of 10 h; QW-406: 55 degC less preheat at most.
    assert stated["total hold"].maximum.to("h") == 10
    assert stated["preheat"].minimum.to("degC") == 125


def test_delivery_condition():
    book = "en-13445-4 edition 2021"
    assert "delivery_condition" in unanswered(limits_of(book), "hold temperature")
    tempered = "  condition  normalized and tempered\n  tempered at 740 degC\n  heat number  "
    stated = limits_of(book, ("  heat number  ", tempered))
    # EN 13445-4:2021 11.1: not above the tempering temperature.
    assert stated.governing["hold temperature"].maximum.to("degC") == 740


def test_kind_of_part():
    # Both sides of a joint given as `pipe` are pipe; the vessel's band is then not asked for.
    found = limits_of("us-navy-s9074 edition 1995").governing["heated band"]
    assert not found.demands and not found.unanswered


def test_zones():
    # National Board Inspection Code Part 3, as quoted elsewhere: a control thermocouple in each.
    found = limits_of("thermocouples").governing["control thermocouples"]
    assert found.minimum == 2 and not found.unanswered


def test_every_service_is_a_fact():
    # A row for one service holds whatever other services the line has.
    book = "nace-sp0472 edition 2010"
    limits = limits_of(book, ("  cap width ", "  service  steam, amine\n  cap width "))
    fact = limits.facts[next(iter(limits.facts))]["service"]
    assert str(fact) == "steam and amine"
    for condition, holds in (
        ("service = amine", True),
        ("service = steam", True),
        ("service = caustic", False),
        ("service != amine", False),
        ("service != caustic", True),
        ("not service = steam", False),
        ("service in (caustic, amine)", True),
        ("service in (caustic, lethal)", False),
    ):
        assert Formula.parse(condition, CONDITION).holds({"service": fact}) is holds


def test_lower_critical_temperature_of_the_filler():
    # ASME B31.3-2016 Table 331.1.1 note 7 (from memory): above 1.2 % Ni + Mn of the filler the
    # hold stays 10 K below its lower critical temperature.
    book = "asme-b31.3 edition 2016"
    grade = ('"A335 P22"', '"A335 P91"')
    welding = (
        'welding    "WPS-12" layers multiple',
        'welding    "WPS-12" layers multiple filler wire',
    )
    filler = "filler wire {{\n  nickel and manganese 1.4 %\n{}}}\n\njoint W12 {{"
    lacking = limits_of(book, grade, welding, ("joint W12 {", filler.format("")))
    assert "filler_lower_critical" in unanswered(lacking, "hold temperature")
    stated = filler.format("  lower critical 780 degC\n")
    limits = limits_of(book, grade, welding, ("joint W12 {", stated))
    # The range itself ends at 775 degC.
    assert limits.governing["hold temperature"].maximum.to("degC") == 770


@pytest.mark.parametrize(
    ("single", "status"),
    [("", "required"), (" single pass", "exempt"), (" with hardness", "required")],
)
def test_weld_qualified_in_a_single_pass(single, status):
    # ASME B31.3-2018 Table 331.1.3, P-1 and note 6 (as quoted elsewhere).
    old = 'qualified  "PQR-31" hold 8 h condition below lower critical'
    limits = limits_of(
        "asme-b31.3 edition 2018",
        ('"A335 P22"', '"A106-B"'),
        (old, f'qualified  "PQR-31"{single}'),
        ("layers multiple", "layers single"),
    )
    assert limits.governing["post-weld heat treatment"].status == status


def test_treatment_that_somebody_asks_for():
    # ASME B31.3-2018 Table 331.1.3 note 4 (as quoted elsewhere).
    book = "asme-b31.3 edition 2018"
    carbon = ('"A335 P22"', '"A106-B"')
    exempt = limits_of(book, carbon)
    assert exempt.governing["post-weld heat treatment"].status == "exempt"
    asked = ("  cap width ", "  heat treatment asked for by design\n  cap width ")
    required = limits_of(book, carbon, asked)
    assert required.governing["post-weld heat treatment"].status == "required"


def test_thin_wall_of_9cr_steel():
    # ASME B31.3-2016 Table 331.1.1 note 6 (from memory): to 13 mm from 675 degC on.
    book = "asme-b31.3 edition 2016"
    thin = (('"A335 P22"', '"A335 P91"'), ("25.4 mm measured", "12 mm measured"))
    taken = ("  rate margin  ", '  thin-wall hold agreed "Design, 2026-10-28"\n  rate margin  ')
    assert limits_of(book, *thin).governing["hold temperature"].minimum.to("degC") == 705
    assert limits_of(book, *thin, taken).governing["hold temperature"].minimum.to("degC") == 675
    thick = limits_of(book, thin[0], taken)
    assert thick.governing["hold temperature"].minimum.to("degC") == 705


def test_thermocouples_by_the_length_of_the_girth():
    # NPS 12 is 323.8 mm outside: 1017.2 mm round; one thermocouple for each 300 mm or part is 4.
    made = limits_of("asme-b31.3 edition 2018, local-heating")
    facts = made.facts["both"] if "both" in made.facts else next(iter(made.facts.values()))
    assert round(float(facts["girth"].to("mm")), 1) == 1017.2
    count = Formula.parse("round_up(girth / 300 mm, 1)", COUNT)
    assert count.evaluate(facts) == 4
