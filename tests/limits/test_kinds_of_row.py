"""Every kind of row that laws and standards have, worked by hand. The order TIO 9 is invented.

Beside each kind the book of the package that has it, where one has.
"""

from pathlib import Path

from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import BUTT, CYCLE
from hts.limits import demands
from hts.limits.book_file import read
from tests.limits.conftest import in_system
from tests.limits.conftest import read as fact
from tests.rows import each_row
from tests.texts import spec_of

BOOK = read((Path(__file__).parent / "kinds.yaml").read_text(encoding="utf-8"))
TREATMENT = "post-weld heat treatment"


def ask(quantity, system="SI", options=(), **facts):
    facts = {"weld_kind": "girth-butt", **facts}
    if "wall" in facts:
        facts.setdefault("thicker_wall", facts["wall"])
    known = {name: in_system(fact(name, value), system) for name, value in facts.items()}
    from hts.limits.books import from_data

    limits = from_data(BOOK.data, None, system).limits
    return demands(limits, {"both": known}, options)[quantity]


def test_the_book_is_sound():
    assert BOOK.faults == ()


@each_row(
    ("facts", "status"),
    [
        # ibr-1950, us-navy-s9074: carbon and thickness together, 19 mm and 0.25 % at their figures.
        ({"wall": "19 mm", "specified_carbon": "0.25 %"}, "exempt"),
        ({"wall": "19.1 mm", "specified_carbon": "0.25 %"}, "required"),
        ({"wall": "19 mm", "specified_carbon": "0.26 %"}, "required"),
        # api-rp-571, nace-sp0472: service.
        ({"wall": "10 mm", "specified_carbon": "0.2 %", "service": "caustic"}, "required"),
        # adn-ammonia, fr-arrete-1978: tensile strength.
        ({"wall": "10 mm", "specified_carbon": "0.2 %", "tensile_strength": "549 MPa"}, "exempt"),
        ({"wall": "10 mm", "specified_carbon": "0.2 %", "tensile_strength": "550 MPa"}, "required"),
    ],
)
def test_exemptions(facts, status):
    usual = {"p_number": "1", "service": "water", "tensile_strength": "415 MPa"}
    assert ask(TREATMENT, **{**usual, **facts}).status == status


@each_row(
    ("changes", "status"),
    [
        # wac-296-307 has an exemption to be claimed; here a temper bead in place of heat.
        ({}, "exempt"),
        ({"options": ()}, "required"),
        ({"preheat": "149 degC"}, "required"),
        ({"groove_depth": "10.1 mm"}, "required"),
        ({"toughness_tested": "no"}, "required"),
        ({"layers": "single"}, "required"),
        ({"process": "SAW"}, "required"),
        ({"weld_kind": "girth-butt"}, "required"),
    ],
)
def test_a_temper_bead_in_place_of_heat(changes, status):
    usual = {
        "options": ["code exemption"],
        "p_number": "4",
        "wall": "25 mm",
        "weld_kind": "repair",
        "layers": "multiple",
        "process": "GTAW",
        "toughness_tested": "yes",
        "preheat": "150 degC",
        "groove_depth": "10 mm",
    }
    assert ask(TREATMENT, **{**usual, **changes}).status == status


@each_row(
    ("system", "wall", "rate"),
    [
        # aws-d1.1: 5600 / 25.4 = 220.5 over the ceiling; 5600 / 45 = 124.4, rounded down 124;
        # 5600 / 120 = 46.7 under the floor of 55. 400 / 1.5 = 266.7 -> 266; 400 / 5 = 80 -> 100.
        ("SI", "25.4 mm", "220 degC/h"),
        ("SI", "45 mm", "124 degC/h"),
        ("SI", "120 mm", "55 degC/h"),
        ("US", "1 in", "400 degF/h"),
        ("US", "1.5 in", "266 degF/h"),
        ("US", "5 in", "100 degF/h"),
    ],
)
def test_rates_in_both_systems_with_their_rounding(system, wall, rate):
    assert str(ask("heating rate", system, p_number="1", wall=wall).maximum) == rate


@each_row(
    ("system", "wall", "hours"),
    # nace-sp0472: a started inch counts whole: 25 mm -> 1 h, 25.1 mm -> 2 h; 2 in -> 2 h.
    [("SI", "25 mm", 1), ("SI", "25.1 mm", 2), ("US", "2 in", 2), ("US", "2.01 in", 3)],
)
def test_holds_by_started_inch(system, wall, hours):
    assert ask("hold time", system, p_number="1", wall=wall).minimum.to("h") == hours


def test_two_tempers_each_with_its_range():
    assert ask("cycles", p_number="6").minimum == 2
    first = ask("hold temperature", "US", p_number="6", cycle_number=1, hold_minimum="1225 degF")
    second = ask("hold temperature", "US", p_number="6", cycle_number=2, hold_minimum="1100 degF")
    assert (first.minimum.to("degF"), first.maximum.to("degF")) == (1225, 1275)
    assert (second.minimum.to("degF"), second.maximum.to("degF")) == (1100, 1150)


@each_row(
    ("changes", "least"),
    [
        # Each of the three at its figure: nothing more than 20 degC; all beyond: 125 degC.
        ({"carbon_equivalent": "0.44 %"}, 125),
        ({"carbon_equivalent": "0.43 %"}, 20),
        ({"carbon_equivalent": "0.44 %", "diffusible_hydrogen": "5 ml/100g"}, 20),
        ({"carbon_equivalent": "0.44 %", "cooling_time": "8 s"}, 20),
    ],
)
def test_preheat_by_carbon_equivalent_hydrogen_and_cooling_time(changes, least):
    usual = {"diffusible_hydrogen": "8 ml/100g", "cooling_time": "7.9 s"}
    assert ask("preheat", **{**usual, **changes}).minimum.to("degC") == least
    time = ask("weld cooling time", wall="20 mm")
    assert (time.minimum.to("s"), time.maximum.to("s")) == (5, 25)


def test_widths_by_radius_and_wall_and_by_wall_alone():
    # en-13445-4 5 * sqrt(400 * 16) = 5 * 80 = 400; us-navy-s9074 30 + 2 * 5 * 16 = 190.
    facts = {"wall": "16 mm", "inside_radius": "400 mm", "cap_width": "30 mm"}
    assert ask("heated band", part="vessel-shell", **facts).minimum.to("mm") == 400
    assert ask("heated band", part="pipe", **facts).minimum.to("mm") == 190


@each_row(
    ("girth", "count"), [("0.7 m", 2), ("3 m", 2), ("3.001 m", 3), ("4.5 m", 3), ("4.6 m", 4)]
)
def test_thermocouples_by_the_length_of_the_girth(girth, count):
    assert ask("thermocouples", girth=girth).minimum == count


# What the checker makes of them -----------------------------------------------------------------

PROCEDURE = BUTT.replace("local-heating\n", "local-heating\n  follows      P-9\n")
SECOND = "\ncycle second for W12 {\n" + CYCLE + "}\n"


def told(lines, text=PROCEDURE):
    text += f"\nprocedure P-9 {{\n  revision 1 on 2026-03-01\n  {lines}\n}}\n"
    return {found.kind.name: found.message for found in check_spec(spec_of(text))}


def test_more_cycles_than_allowed_are_told():
    assert (
        "is 2, but P-9 revision 1 allows at most 1"
        in told("cycles at most 1", PROCEDURE + SECOND)["too-few-cycles"]
    )
    assert "too-few-cycles" not in told("cycles at most 2", PROCEDURE + SECOND)


def test_the_tempering_of_all_cycles_of_a_joint_counts_together():
    # The top of the hold, 730 degC = 1003.15 K, for 2 h: 1003.15 * (20 + lg 2) / 1000 = 20.365;
    # twice:
    # 1003.15 * (20 + lg 4) / 1000 = 20.667.
    assert "tempered-too-much" not in told("tempering parameter at most 20.4")
    found = told("tempering parameter at most 20.4", PROCEDURE + SECOND)["tempered-too-much"]
    assert "20.67 with the treatments before" in found
    assert "tempered-too-much" not in told("tempering parameter at most 20.7", PROCEDURE + SECOND)


def test_a_total_hold_counts_the_longest_it_may_last():
    longer = PROCEDURE.replace("for 2 h", "for 2 h at most 5 h")
    assert longer != PROCEDURE
    assert "treated-for-too-long" in told("total hold at most 4 h", longer)
    assert "treated-for-too-long" not in told("total hold at most 5 h", longer)
