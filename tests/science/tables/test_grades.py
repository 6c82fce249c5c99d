"""Steel grades: spot values, spellings, errors and the consistency of the table."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.data import load
from hts.base.quantities import Interval
from hts.science.tables.grades import UnknownGrade, grade, names
from tests.rows import each_row

# From memory, but for the two marked rows, which are published (Santella 2012: range of A1 over
# the composition range of the grade). P-number and group: ASME BPVC IX QW/QB-422. EN group:
# ISO/TR 15608. Ac1: ASME B31.1 Table 129.3.1. Strength: the product standard.
SPOT = """
A106-B        | 1-1   | 1.1     | 60 ksi  | 725 degC | 595 650
A516-70       | 1-2   | 1.2     | 70 ksi  | 725 degC | 595 650
API 5L X52    | 1-1   | 1.2/2.1 | 66 ksi  | 725 degC | 595 650
X60           | 1-2   | 2.1     | 75 ksi  | 725 degC | 595 650
X65           | 1-2   | 2.1     | 77 ksi  | 725 degC | 595 650
X70           | 1-3   | 2.1/2.2 | 82 ksi  | 725 degC | 595 650
P265GH        |       | 1.1     | 410 MPa | 720 degC | 550 600
16Mo3         |       | 1.1/1.2 | 440 MPa | 730 degC | 550 620
A335 P1       | 3-1   | 1.1/1.2 | 55 ksi  | 730 degC | 595 650
A335 P11      | 4-1   | 5.1     | 60 ksi  | 775 degC | 650 705
13CrMo4-5     |       | 5.1     | 440 MPa | 745 degC | 630 680
A335 P12      | 4-1   | 5.1     | 60 ksi  | 745 degC | 650 705
A335 P22      | 5A-1  | 5.2     | 60 ksi  | 805 degC | 675 760
10CrMo9-10    |       | 5.2     | 480 MPa | 805 degC | 670 720
A335 P5       | 5B-1  | 5.3     | 60 ksi  | 820 degC | 675 760
A335 P9       | 5B-1  | 5.4     | 60 ksi  | 810 degC | 675 760
A335 P91      | 15E-1 | 6.4     | 85 ksi  | 800 degC | 705 775
X10CrMoVNb9-1 | 15E-1 | 6.4     | 630 MPa | 800 degC | 705 775
A335 P92      | 15E-1 | 6.4     | 90 ksi  |          | 740 770
TP304H        | 8-1   | 8.1     | 75 ksi  |          |
TP347H        | 8-1   | 8.1     | 75 ksi  |          |
"""

# Forgings, fittings and plates, and both systems of units of all, from memory: P-number and group
# (ASME BPVC IX QW/QB-422), group of ISO/TR 15608, least strength as the product standards print it
# (ASTM A105, A182, A234, A333, A387), Ac1 (ASME B31.1 Table 129.3.1), usual range of treatment.
OTHERS = """
A105              | 1-2   |     | 70 ksi 485 MPa | 725 degC 1340 degF | 595 650
A333-6            | 1-1   | 1.1 | 60 ksi 415 MPa | 725 degC 1340 degF | 595 650
A234 WPB          | 1-1   | 1.1 | 60 ksi 415 MPa | 725 degC 1340 degF | 595 650
A182 F11          | 4-1   | 5.1 |                | 775 degC 1430 degF | 650 705
A182 F11 Class 1  | 4-1   | 5.1 | 60 ksi 415 MPa | 775 degC 1430 degF | 650 705
A182 F11 Class 2  | 4-1   | 5.1 | 70 ksi 485 MPa | 775 degC 1430 degF | 650 705
A182 F11 Class 3  | 4-1   | 5.1 | 75 ksi 515 MPa | 775 degC 1430 degF | 650 705
A234 WP11         | 4-1   | 5.1 |                | 775 degC 1430 degF | 650 705
A234 WP11 Class 1 | 4-1   | 5.1 | 60 ksi 415 MPa | 775 degC 1430 degF | 650 705
A234 WP11 Class 2 | 4-1   | 5.1 | 70 ksi 485 MPa | 775 degC 1430 degF | 650 705
A234 WP11 Class 3 | 4-1   | 5.1 | 75 ksi 515 MPa | 775 degC 1430 degF | 650 705
A387-11           | 4-1   | 5.1 |                | 775 degC 1430 degF | 650 705
A387-11 Class 1   | 4-1   | 5.1 | 60 ksi 415 MPa | 775 degC 1430 degF | 650 705
A387-11 Class 2   | 4-1   | 5.1 | 75 ksi 515 MPa | 775 degC 1430 degF | 650 705
A182 F22          | 5A-1  | 5.2 |                | 805 degC 1480 degF | 675 760
A182 F22 Class 1  | 5A-1  | 5.2 | 60 ksi 415 MPa | 805 degC 1480 degF | 675 760
A182 F22 Class 3  | 5A-1  | 5.2 | 75 ksi 515 MPa | 805 degC 1480 degF | 675 760
A234 WP22         | 5A-1  | 5.2 |                | 805 degC 1480 degF | 675 760
A234 WP22 Class 1 | 5A-1  | 5.2 | 60 ksi 415 MPa | 805 degC 1480 degF | 675 760
A234 WP22 Class 3 | 5A-1  | 5.2 | 75 ksi 515 MPa | 805 degC 1480 degF | 675 760
A387-22           | 5A-1  | 5.2 |                | 805 degC 1480 degF | 675 760
A387-22 Class 1   | 5A-1  | 5.2 | 60 ksi 415 MPa | 805 degC 1480 degF | 675 760
A387-22 Class 2   | 5A-1  | 5.2 | 75 ksi 515 MPa | 805 degC 1480 degF | 675 760
A182 F5           | 5B-1  | 5.3 | 70 ksi 485 MPa | 820 degC 1505 degF | 675 760
A234 WP5          | 5B-1  | 5.3 |                | 820 degC 1505 degF | 675 760
A234 WP5 Class 1  | 5B-1  | 5.3 | 60 ksi 415 MPa | 820 degC 1505 degF | 675 760
A234 WP5 Class 3  | 5B-1  | 5.3 | 75 ksi 515 MPa | 820 degC 1505 degF | 675 760
A182 F91          | 15E-1 | 6.4 | 85 ksi 585 MPa | 800 degC 1470 degF | 705 775
A234 WP91         | 15E-1 | 6.4 | 85 ksi 585 MPa | 800 degC 1470 degF | 705 775
"""


# Greatest carbon by heat analysis and nominal chromium, from memory of the product standards:
# ASTM A105, A106, A182, A234, A312, A333, A335, A387, A516, API 5L PSL 1, EN 10216-2, EN 10028-2.
# Of a grade with classes the greatest of them. Range of A1 in degC: Santella 2012.
COMPOSITION = """
A106-B        | 0.30 |      |
A516-70       | 0.31 |      |
API 5L X52    | 0.28 |      |
API 5L X60    | 0.28 |      |
API 5L X65    | 0.28 |      |
API 5L X70    | 0.28 |      |
P265GH        | 0.20 |      |
16Mo3         | 0.20 |      |
A335 P1       | 0.20 |      |
A335 P11      | 0.15 | 1.25 |
13CrMo4-5     | 0.18 | 1    |
A335 P12      | 0.15 | 1    |
A335 P22      | 0.15 | 2.25 |
10CrMo9-10    | 0.14 | 2.25 |
A335 P5       | 0.15 | 5    |
A335 P9       | 0.15 | 9    |
A335 P91      | 0.12 | 9    | 766 856
X10CrMoVNb9-1 | 0.12 | 9    | 766 856
A335 P92      | 0.13 | 9    | 775 863
A312 TP304H   | 0.10 | 18   |
A312 TP347H   | 0.10 | 18   |
A105          | 0.35 |      |
A333-6        | 0.30 |      |
A234 WPB      | 0.30 |      |
A182 F5       | 0.15 | 5    |
A182 F11      | 0.20 | 1.25 |
A182 F22      | 0.15 | 2.25 |
A182 F91      | 0.12 | 9    | 766 856
A234 WP5      | 0.15 | 5    |
A234 WP11     | 0.20 | 1.25 |
A234 WP22     | 0.15 | 2.25 |
A234 WP91     | 0.12 | 9    | 766 856
A387-11       | 0.17 | 1.25 |
A387-22       | 0.15 | 2.25 |
"""


@each_row("line", COMPOSITION.strip().splitlines())
def test_carbon_chromium_and_range_of_a1(line: str) -> None:
    name, carbon, chromium, a1 = (cell.strip() for cell in line.split("|"))
    each = grade(name)
    for found in (each, *(grade(other) for other in each.classes)):
        for fact, percent in ((found.carbon_maximum, carbon), (found.chromium_nominal, chromium)):
            assert (fact.value.to("%") if fact else None) == (Fraction(percent or 0) or None)
        assert (degrees(found.ac1_range.value) if found.ac1_range else ()) == tuple(
            Fraction(end) for end in a1.split()
        )


def test_every_grade_has_its_composition() -> None:
    listed = {line.split("|")[0].strip() for line in COMPOSITION.strip().splitlines()}
    assert {name for name in names() if not grade(name).name.partition(" Class ")[1]} == listed


def test_every_grade_has_a_spot_value() -> None:
    lines = [*SPOT.strip().splitlines(), *OTHERS.strip().splitlines()]
    assert {grade(line.split("|")[0].strip()).name for line in lines} == set(names())


@each_row("line", OTHERS.strip().splitlines())
def test_spot_values_of_other_products_in_both_systems(line: str) -> None:
    name, number, iso, strength, ac1, pwht = (cell.strip() for cell in line.split("|"))
    found = grade(name)
    assert found.p_number is not None and found.group is not None
    assert f"{found.p_number.value}-{found.group.value}" == number
    assert (found.iso_15608.value if found.iso_15608 else "") == iso
    for fact, written in ((found.tensile_minimum, strength), (found.ac1, ac1)):
        told = f"{fact.value.written} {fact.also.written}" if fact and fact.also else ""
        assert told == written
    assert found.pwht is not None
    assert degrees(found.pwht.value) == tuple(Fraction(end) for end in pwht.split())


def degrees(interval: Interval) -> tuple[Fraction, Fraction]:
    assert interval.low is not None and interval.high is not None
    return interval.low.to("degC"), interval.high.to("degC")


@each_row("line", SPOT.strip().splitlines())
def test_spot_values(line: str) -> None:
    name, number, iso, strength, ac1, pwht = (cell.strip() for cell in line.split("|"))
    found = grade(name)
    if number:
        assert found.p_number is not None and found.group is not None
        assert f"{found.p_number.value}-{found.group.value}" == number
    else:
        assert found.p_number is None and found.group is None
    assert found.iso_15608 is not None and found.iso_15608.value == iso
    assert found.tensile_minimum is not None and found.tensile_minimum.value.written == strength
    assert (found.ac1.value.written if found.ac1 else "") == ac1
    if pwht:
        assert found.pwht is not None
        assert degrees(found.pwht.value) == tuple(Fraction(end) for end in pwht.split())
    else:
        assert found.pwht is None


def test_published_range_of_a1_is_the_only_published_fact() -> None:
    for name, low, high in (("P91", 766, 856), ("P92", 775, 863)):  # Santella 2012
        fact = grade(name).ac1_range
        assert fact is not None
        assert degrees(fact.value) == (Fraction(low), Fraction(high))
        assert (fact.basis, fact.confidence) == ("published", "high")
        assert "Santella" in fact.source
    for row in load("grades")["grades"]:
        facts = {key: fact for key, fact in row.items() if isinstance(fact, dict)}
        facts.pop("classes", None)
        assert {key for key, fact in facts.items() if fact["basis"] != "memory"} <= {"ac1_range"}


def test_printed_strength_in_mpa_is_not_the_converted_one() -> None:
    # The pipe standard prints 60 ksi as 415 MPa; converted it is below 414 MPa, the limit at which
    # ASME B31.3-2014 Table 330.1.1 splits the preheat of P-No. 5A.
    fact = grade("A335 P22").tensile_minimum
    assert fact is not None and fact.also is not None
    assert fact.value.to("MPa") < 414 < fact.also.to("MPa") == 415


def test_printed_pairs_lie_close_together() -> None:
    # Strengths are rounded to 5 MPa, temperatures to 5 units.
    for name in names():
        strength, ac1 = grade(name).tensile_minimum, grade(name).ac1
        if strength and strength.also:
            assert abs(strength.value.to("MPa") - strength.also.to("MPa")) <= 2.5
        if ac1 and ac1.also:
            assert abs(ac1.value.to("degF") - ac1.also.to("degF")) <= 5


def test_usual_pwht_stays_below_ac1() -> None:
    for name in names():
        found = grade(name)
        if found.pwht:
            low, high = degrees(found.pwht.value)
            assert low < high
            assert found.ac1 is None or high < found.ac1.value.to("degC")


@each_row(
    ("spelling", "name"),
    [
        ("A335 P22", "A335 P22"), ("a335p22", "A335 P22"), ("SA-335 P22", "A335 P22"),
        ("ASTM A335 Gr. P22", "A335 P22"), ("ASME SA335 GrP22", "A335 P22"), ("p22", "A335 P22"),
        ("A106 Gr B", "A106-B"), ("SA-106 Grade B", "A106-B"), ("A516 Gr.70", "A516-70"),
        ("x52", "API 5L X52"), ("API 5L Gr X52", "API 5L X52"), ("L360", "API 5L X52"),
        ("1.7380", "10CrMo9-10"), ("10 crmo 9-10", "10CrMo9-10"), ("A333 Gr 6", "A333-6"),
        ("SA-387 Gr 22 Cl 2", "A387-22 Class 2"), ("A387 Gr11 Cl.1", "A387-11 Class 1"),
        ("WP22 Class 3", "A234 WP22 Class 3"), ("SA-182 F11 CL2", "A182 F11 Class 2"),
    ],
)  # fmt: skip
def test_spellings(spelling: str, name: str) -> None:
    assert grade(spelling).name == name


def test_strength_by_class() -> None:
    whole = grade("A387-22")
    assert whole.tensile_minimum is None
    assert whole.classes == ("A387-22 Class 1", "A387-22 Class 2")
    strengths = [grade(name).tensile_minimum for name in whole.classes]
    assert [fact.value.written for fact in strengths if fact] == ["60 ksi", "75 ksi"]
    assert grade("A387-22 Class 2").classes == ()
    assert grade("A387-22 Class 2").p_number == whole.p_number


@each_row(
    ("name", "expected"),
    [
        ("A335 P23", "A335 P22"), ("F11", "A182 F11"), ("16Mo5", "16Mo3"), ("TP347", "A312 TP347H"),
        ("A182 F22 Class 2", "A182 F22 Class 1"),
    ],
)  # fmt: skip
def test_unknown_grade_suggests(name: str, expected: str) -> None:
    with pytest.raises(UnknownGrade) as caught:
        grade(name)
    assert expected in caught.value.suggestions
    assert expected in str(caught.value)


@given(st.text(max_size=20))
def test_any_text_is_a_grade_or_an_unknown_grade(text: str) -> None:
    try:
        grade(text)
    except UnknownGrade as error:
        assert len(error.suggestions) <= 5


def test_no_two_grades_share_a_spelling_and_every_source_is_declared() -> None:
    for name in names():
        found = grade(name)
        assert found.name == name
        assert all(grade(alias).name == name for alias in found.aliases)
    data = load("grades")
    facts = [f for row in data["grades"] for f in row.values() if isinstance(f, dict)]
    facts += [
        f for row in data["grades"] for c in row.get("classes", {}).values() for f in c.values()
    ]
    assert {fact["source"] for fact in facts if "source" in fact} == set(data["sources"])


def test_bare_p_followed_by_one_digit_is_not_a_grade() -> None:
    # "P1" and "P5" in the trade name P-numbers at least as often as the A335 grades.
    for text in ("P1", "P5", "P9"):
        with pytest.raises(UnknownGrade):
            grade(text)
