"""Pipe dimensions against a public library, printed spot values and the rules they must obey."""

from fractions import Fraction

import pytest
from fluids import piping
from hypothesis import given
from hypothesis import strategies as st

from hts.base.data import load
from hts.base.quantities import LENGTH, Quantity
from hts.science.tables.pipe import UnknownSchedule, UnknownSize, nps_of, pipe, schedules
from tests.rows import each_row

PIPE = load("pipe")
SIZES = [row["nps"] for row in PIPE["sizes"]]

# Spot values of ASME B36.10M (from memory, part also seen in public tables): NPS, outside
# diameter in mm and in inches, then the wall in mm of STD, 40, XS, 80, 160 and XXS.
SPOT = """
1/2    21.3   0.840  2.77  2.77  3.73  3.73  4.78  7.47
3/4    26.7   1.050  2.87  2.87  3.91  3.91  5.56  7.82
1      33.4   1.315  3.38  3.38  4.55  4.55  6.35  9.09
1-1/2  48.3   1.900  3.68  3.68  5.08  5.08  7.14  10.15
2      60.3   2.375  3.91  3.91  5.54  5.54  8.74  11.07
3      88.9   3.500  5.49  5.49  7.62  7.62  11.13 15.24
4      114.3  4.500  6.02  6.02  8.56  8.56  13.49 17.12
6      168.3  6.625  7.11  7.11  10.97 10.97 18.26 21.95
8      219.1  8.625  8.18  8.18  12.70 12.70 23.01 22.23
10     273.0 10.750  9.27  9.27  12.70 15.09 28.58 25.40
12     323.8 12.750  9.53  10.31 12.70 17.48 33.32 25.40
14     355.6 14      9.53  11.13 12.70 19.05 35.71 -
16     406.4 16      9.53  12.70 12.70 21.44 40.49 -
18     457   18      9.53  14.27 12.70 23.83 45.24 -
20     508   20      9.53  15.09 12.70 26.19 50.01 -
24     610   24      9.53  17.48 12.70 30.96 59.54 -
"""


def mm(quantity: Quantity) -> Fraction:
    return quantity.to("mm")


@each_row("line", SPOT.strip().splitlines())
def test_spot_values(line: str) -> None:
    size, diameter, inches, *walls = line.split()
    for schedule, wall in zip(("STD", "40", "XS", "80", "160", "XXS"), walls, strict=True):
        if wall == "-":
            assert schedule not in schedules(size)
            continue
        found = pipe(size, schedule)
        assert mm(found.wall) == Fraction(wall)
        assert mm(found.outside_diameter) == Fraction(diameter)
        assert found.outside_diameter_inches.to("in") == Fraction(inches)
        assert found.standard == "ASME B36.10M"


# The public library `fluids` keeps the schedules of both standards in mm, by NPS as a number. By
# schedule name: its table of sizes and the start of the names of its tables of dimensions.
LIBRARY = {
    **{str(n): (f"NPS{n}", f"S{n}") for n in (5, 10, 20, 30, 40, 60, 80, 100, 120, 140, 160)},
    **{name: (f"NPS{name}", name) for name in ("STD", "XS", "XXS")},
    **{f"{n}S": (f"NPSS{n}", f"SS{n}") for n in (5, 10, 40, 80)},
}

# Known differences. The library prints the outside diameters of ASME B36.19M (273.1 and 323.9 mm)
# for the S schedules of NPS 10 and 12, this project those of ASME B36.10M for all schedules. It
# also holds 40S and 80S from NPS 14 up, which older editions of ASME B36.19M do not have.
LIBRARY_ONLY = {(nps, s) for nps in ("14", "16", "18", "20", "24") for s in ("40S", "80S")}
LIBRARY_DIAMETER = {
    (nps, s): diameter
    for nps, diameter in (("10", "273.1"), ("12", "323.9"))
    for s in ("5S", "10S", "40S", "80S")
}


def library_rows(schedule: str) -> dict[str, tuple[Fraction, Fraction]]:
    """Return (outside diameter, wall) in mm by NPS as the library has them for a schedule."""
    table, start = LIBRARY[schedule]
    sizes = getattr(piping, table)
    columns = (getattr(piping, start + column) for column in "ot")
    by_number = {float(sum(Fraction(p) for p in nps.split())): nps for nps in SIZES}
    return {
        by_number[size]: (Fraction(str(diameter)), Fraction(str(wall)))
        for size, diameter, wall in zip(sizes, *columns, strict=True)
    }


@each_row("schedule", LIBRARY)
def test_every_size_of_a_schedule_against_the_fluids_library(schedule: str) -> None:
    theirs = library_rows(schedule)
    theirs = {nps: row for nps, row in theirs.items() if (nps, schedule) not in LIBRARY_ONLY}
    ours = {nps: pipe(nps, schedule) for nps in SIZES if schedule in schedules(nps)}
    assert set(ours) == set(theirs)
    for nps, (diameter, wall) in theirs.items():
        assert mm(ours[nps].wall) == wall, (nps, schedule)
        if (nps, schedule) in LIBRARY_DIAMETER:
            assert diameter == Fraction(LIBRARY_DIAMETER[nps, schedule])
            assert nps_of(Quantity.of(diameter, "mm", LENGTH)) == nps
        else:
            assert mm(ours[nps].outside_diameter) == diameter, (nps, schedule)


def test_every_wall_of_the_data_is_among_those_compared() -> None:
    assert {name for row in PIPE["walls"] for name in row["schedules"]} == set(LIBRARY)


def test_nominal_diameters_against_the_fluids_library() -> None:
    by_number = dict(zip(piping.NPSS10, piping.SS10DN, strict=True))
    ours = {float(sum(Fraction(p) for p in r["nps"].split())): r["dn"] for r in PIPE["sizes"]}
    assert {number: int(ours[number]) for number in by_number} == by_number


@each_row("row", PIPE["walls"], ids=lambda row: f"{row['nps']}-{row['in']}")
def test_printed_inches_and_millimetres_of_a_wall_agree(row: dict[str, str]) -> None:
    # Both are rounded by the standard, the mm to 0.01.
    assert abs(Fraction(row["in"]) * Fraction("25.4") - Fraction(row["mm"])) <= Fraction("0.01")


@each_row("row", PIPE["sizes"], ids=lambda row: row["nps"])
def test_printed_inches_and_millimetres_of_a_diameter_agree(row: dict[str, str]) -> None:
    # To 0.1 mm up to NPS 16, to 1 mm above: 18 in is 457.2 mm and printed 457.
    allowed = Fraction("0.05") if Fraction(row["in"]) <= 16 else Fraction("0.5")
    assert abs(Fraction(row["in"]) * Fraction("25.4") - Fraction(row["mm"])) <= allowed


@each_row("nps", SIZES)
def test_wall_grows_with_the_schedule_and_leaves_a_bore(nps: str) -> None:
    for series in (
        ("5", "10", "20", "30", "40", "60", "80", "100", "120", "140", "160"),
        ("STD", "XS", "XXS"),
        ("5S", "10S", "40S", "80S"),
    ):
        walls = [mm(pipe(nps, name).wall) for name in series if name in schedules(nps)]
        assert walls == sorted(set(walls))
    for name in schedules(nps):
        found = pipe(nps, name)
        assert 2 * mm(found.wall) < mm(found.outside_diameter)


def test_sizes_grow_in_both_systems() -> None:
    for key in ("in", "mm", "dn"):
        values = [Fraction(row[key]) for row in PIPE["sizes"]]
        assert values == sorted(set(values))


@each_row("nps", SIZES)
def test_where_weight_class_and_schedule_number_coincide(nps: str) -> None:
    # ASME B36.10M: STD is schedule 40 up to NPS 10, XS is schedule 80 up to NPS 8.
    number = sum(Fraction(part) for part in nps.split())
    available = schedules(nps)
    if "40" in available:
        assert (pipe(nps, "STD").wall == pipe(nps, "40").wall) == (number <= 10)
    if "80" in available:
        assert (pipe(nps, "XS").wall == pipe(nps, "80").wall) == (number <= 8)


def test_every_schedule_is_given_once_and_every_source_is_declared() -> None:
    given_once = [(row["nps"], name) for row in PIPE["walls"] for name in row["schedules"]]
    assert len(given_once) == len(set(given_once))
    assert {row["source"] for row in PIPE["walls"] + PIPE["sizes"]} <= set(PIPE["sources"])


# DN by NPS up to 3 1/2, ISO 6708 and ASME B36.10M; from NPS 4 on DN is 25 times it.
DN = {
    "1/8": 6, "1/4": 8, "3/8": 10, "1/2": 15, "3/4": 20, "1": 25, "1 1/4": 32, "1 1/2": 40,
    "2": 50, "2 1/2": 65, "3": 80, "3 1/2": 90,
}  # fmt: skip


@each_row("row", PIPE["sizes"], ids=SIZES)
def test_size_in_inches_and_dn(row: dict[str, str]) -> None:
    """The mm of the sizes stand beside the library above; ASME B36.10M prints them to 0.1 mm up to
    NPS 16, then to 1 mm, and from NPS 14 on the size is the diameter in inches."""
    nps = sum(Fraction(part) for part in row["nps"].split())
    assert Fraction(row["dn"]) == (DN.get(row["nps"]) or 25 * nps)
    step = Fraction(1, 10) if nps <= 16 else Fraction(1)
    assert abs(Fraction(row["in"]) * Fraction("25.4") - Fraction(row["mm"])) <= step / 2
    if nps >= 14:
        assert Fraction(row["in"]) == nps


def test_walls_in_inches() -> None:
    """The mm of the walls stand beside the library above; the inches are the standard's own, in
    thousandths: 0.0254 mm apart, so that the mm, rounded to 0.01 or so, leave one alone."""
    for row in PIPE["walls"]:
        off = Fraction(row["in"]) * Fraction("25.4") - Fraction(row["mm"])
        assert abs(off) <= Fraction("0.0126"), (row["nps"], row["schedules"], float(off))


def test_nps_12_standard_weight_is_not_schedule_40() -> None:
    assert mm(pipe("12", "40").wall) == Fraction("10.31")
    assert mm(pipe("12", "STD").wall) == Fraction("9.53")


@each_row(
    ("size", "schedule"),
    [
        ("12", "40"),
        ("NPS 12", "Sch 40"),
        ("nps12", "schedule 40"),
        ("DN 300", "40"),
        ("dn300", "40"),
    ],
)
def test_spellings_of_one_pipe(size: str, schedule: str) -> None:
    found = pipe(size, schedule)
    assert (found.nps, found.dn, found.schedule) == ("12", "300", "40")
    assert (found.basis, found.confidence) == ("memory", "high")
    assert found.source.startswith("ASME B36.10M")


@each_row(
    ("size", "close"),
    [
        ("7", ("NPS 6", "NPS 8", "NPS 5")),
        ("300", ("DN 300", "NPS 48", "NPS 46")),
        ("DN 310", ("DN 300", "DN 350", "DN 250")),
        ("1 3/4", ("NPS 1 1/2", "NPS 2", "NPS 1 1/4")),
    ],
)
def test_unknown_size_offers_close_ones(size: str, close: tuple[str, ...]) -> None:
    with pytest.raises(UnknownSize) as caught:
        pipe(size, "40")
    assert caught.value.close == close


@given(st.text(max_size=12))
def test_any_text_is_a_size_or_an_unknown_size(text: str) -> None:
    try:
        assert schedules(text)
    except UnknownSize as error:
        assert all(schedules(close) for close in error.close)


def test_unknown_schedule_offers_what_the_size_has() -> None:
    with pytest.raises(UnknownSchedule) as caught:
        pipe("NPS 36", "160")
    assert caught.value.available == ("10", "STD", "XS", "20", "30", "40")


@each_row(
    ("diameter", "unit", "nps"),
    [
        ("273.1", "mm", "10"), ("273.0", "mm", "10"), ("323.9", "mm", "12"), ("323.6", "mm", "12"),
        ("24", "in", "24"), ("610", "mm", "24"), ("8.625", "in", "8"),
        ("273.26", "mm", None), ("273.3", "mm", None), ("323.5", "mm", None), ("300", "mm", None),
    ],
)  # fmt: skip
def test_size_by_outside_diameter(diameter: str, unit: str, nps: str | None) -> None:
    # Both 273.0 and 273.1, 323.8 and 323.9 are in print; 0.2 mm is common practice, no source.
    assert nps_of(Quantity.of(diameter, unit, LENGTH)) == nps
