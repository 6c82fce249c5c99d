"""Families of analyses beside the limits of grades (ASTM and AWS tables, from memory)."""

from hts.science.tables.analyses import of_deposit, of_grade
from tests.rows import each_row

#: Grade, P-number, nominal chromium, family and limits of the heat analysis, mass %: ASTM A106,
#: A335, A182 and A387, from memory.
GRADES = [
    ("A106-B", "1", None, "carbon steel", {"C": (0.1, 0.30), "Mn": (0.29, 1.06), "Si": (0.1, 0.4)}),
    ("A335 P1", "3", None, "C-1/2Mo steel",
     {"C": (0.10, 0.20), "Mn": (0.30, 0.80), "Si": (0.10, 0.50), "Mo": (0.44, 0.65)}),
    ("A335 P12", "4", 1.0, "1Cr-1/2Mo steel",
     {"C": (0.05, 0.15), "Mn": (0.30, 0.61), "Cr": (0.80, 1.25), "Mo": (0.44, 0.65)}),
    ("A335 P11", "4", 1.25, "1 1/4Cr-1/2Mo steel",
     {"C": (0.05, 0.15), "Mn": (0.30, 0.60), "Si": (0.50, 1.00), "Cr": (1.00, 1.50),
      "Mo": (0.44, 0.65)}),
    ("A335 P22", "5A", 2.25, "2 1/4Cr-1Mo steel",
     {"C": (0.05, 0.15), "Mn": (0.30, 0.60), "Cr": (1.90, 2.60), "Mo": (0.87, 1.13)}),
    ("A335 P5", "5B", 5.0, "5Cr-1/2Mo steel",
     {"C": (0.05, 0.15), "Mn": (0.30, 0.60), "Cr": (4.00, 6.00), "Mo": (0.45, 0.65)}),
    ("A335 P9", "5B", 9.0, "9Cr-1Mo steel",
     {"C": (0.05, 0.15), "Mn": (0.30, 0.60), "Si": (0.25, 1.00), "Cr": (8.00, 10.00),
      "Mo": (0.90, 1.10)}),
    ("A335 P91", "15E", 9.0, "9Cr-1Mo-V steel",
     {"C": (0.08, 0.12), "Mn": (0.30, 0.60), "Si": (0.20, 0.50), "Cr": (8.00, 9.50),
      "Mo": (0.85, 1.05), "V": (0.18, 0.25), "Nb": (0.06, 0.10), "N": (0.030, 0.070)}),
    ("A335 P92", "15E", 9.0, "9Cr-W steel",
     {"C": (0.07, 0.13), "Cr": (8.50, 9.50), "Mo": (0.30, 0.60), "W": (1.5, 2.0),
      "B": (0.001, 0.006)}),
]  # fmt: skip
ELEMENTS = ("C", "Mn", "Si", "Cr", "Mo", "V", "Nb", "W")


def within(limits, family):
    return all(
        family.ranges.get(element, (0, 0))[0] <= share <= family.ranges.get(element, (0, 0))[1]
        for element, pair in limits.items()
        for share in pair
    )


@each_row(("name", "number", "chromium", "family", "limits"), GRADES)
def test_a_grade_is_of_its_family_with_little_to_spare(name, number, chromium, family, limits):
    found = of_grade(name, number, chromium)
    assert found.family == family
    assert within(limits, found)
    # What the grade is alloyed with has to be in an analysis; the rest is a residual.
    alloyed = {e for e in ("Cr", "Mo", "W") if e in limits and e in found.needed}
    assert alloyed <= set(found.needed) and {"C", "Mn"} <= set(found.needed)
    for element in ("Cr", "Mo"):
        if element in limits:
            low, high = found.ranges[element]
            assert low >= 0.45 * limits[element][0] and high <= 1.25 * limits[element][1]


def test_an_alloy_is_told_from_its_neighbours():
    # By the middles of chromium and molybdenum, which no neighbour admits.
    for _, number, chromium, family, limits in GRADES:
        middle = {e: ((low + high) / 2,) * 2 for e, (low, high) in limits.items()}
        admit = {
            g[3] for g in GRADES
            if within({"Cr": (0, 0), "Mo": (0, 0), "W": (0, 0), **middle}, of_grade(*g[:3]))
        }  # fmt: skip
        # 1 Cr and 1 1/4 Cr overlap by their standards.
        alike = {"1Cr-1/2Mo steel", "1 1/4Cr-1/2Mo steel"}
        assert admit == {family} or (family in alike and admit <= alike), (number, chromium)


@each_row(
    ("alloy", "limits"),
    # AWS A5.1, A5.5 and A5.23, from memory: E7018, E7018-A1, E8018-B2, E9018-B3, E8018-B6,
    # E8018-B8, E9018-B91.
    [
        ("carbon steel", {"Mn": (0.9, 1.6), "Si": (0.3, 0.75)}),
        ("C-1/2Mo", {"Mn": (0.6, 0.9), "Mo": (0.40, 0.65)}),
        ("1 1/4Cr-1/2Mo", {"Cr": (1.00, 1.50), "Mo": (0.40, 0.65)}),
        ("2 1/4Cr-1Mo", {"Cr": (2.00, 2.50), "Mo": (0.90, 1.20)}),
        ("5Cr-1/2Mo", {"Cr": (4.0, 6.0), "Mo": (0.45, 0.65)}),
        ("9Cr-1Mo", {"Cr": (8.0, 10.5), "Mo": (0.85, 1.20)}),
        ("9Cr-1Mo-V", {"Cr": (8.0, 10.5), "Mo": (0.85, 1.20), "V": (0.15, 0.30)}),
    ],
)
def test_deposits(alloy, limits):
    assert within({"C": (0.08, 0.12), **limits}, of_deposit(alloy))


def test_a_metal_that_is_not_in_the_table():
    assert of_grade("A312 TP304", "8", None) is None
    assert of_grade("A106-B", None, None) is None
    assert of_grade("A335 P11", "4", None) is None
    assert of_deposit("Ni-base") is None
    assert of_deposit("9Cr-W").ranges["W"] == of_grade("X10CrWMoVNb9-2 P92", "15E", 9.0).ranges["W"]
