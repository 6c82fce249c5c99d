"""Deposits by the end of their classification: AWS A5.5 and A5.23 tables, from memory."""

from hts.science.tables.fillers import deposit, family
from tests.rows import each_row

#: Classification, chromium and molybdenum of the deposit in mass %, as the tables of AWS A5.5
#: print them; lower critical temperature of the base metal it matches, degC (ASME B31.1 Table
#: 129.3.1); all from memory.
DEPOSITS = [
    ("E7018-A1", "C-1/2Mo", (0.0, 0.2), (0.40, 0.65), 730, ("3",)),
    ("E8018-B2", "1 1/4Cr-1/2Mo", (1.00, 1.50), (0.40, 0.65), 775, ("4",)),
    ("ER80S-B2", "1 1/4Cr-1/2Mo", (1.00, 1.50), (0.40, 0.65), 775, ("4",)),
    ("E7015-B2L", "1 1/4Cr-1/2Mo", (1.00, 1.50), (0.40, 0.65), 775, ("4",)),
    ("E9018-B3", "2 1/4Cr-1Mo", (2.00, 2.50), (0.90, 1.20), 805, ("5A",)),
    ("E8018-B6", "5Cr-1/2Mo", (4.0, 6.0), (0.45, 0.65), 820, ("5B",)),
    ("E8018-B8", "9Cr-1Mo", (8.0, 10.5), (0.85, 1.20), 810, ("5B",)),
    ("E9018-B91", "9Cr-1Mo-V", (8.0, 10.5), (0.85, 1.20), None, ("15E",)),
    ("E9015-B9", "9Cr-1Mo-V", (8.0, 10.5), (0.85, 1.20), None, ("15E",)),
    ("E9015-B92", "9Cr-W", (8.0, 10.5), (0.30, 0.70), None, ("15E",)),
    ("E7018", "carbon steel", (0.0, 0.2), (0.0, 0.3), 725, ("1",)),
    ("ER70S-2", "carbon steel", (0.0, 0.2), (0.0, 0.3), 725, ("1",)),
]


@each_row(("written", "name", "chromium", "molybdenum", "critical", "metals"),
                         DEPOSITS)  # fmt: skip
def test_deposit(written, name, chromium, molybdenum, critical, metals):
    found = deposit(written)
    assert tuple(found) == (name, chromium, molybdenum, critical, metals)


@each_row(
    ("written", "named"),
    [
        ("E8018-B2 H4R", "B2"), ("E8018-B2L", "B2"), ("er90s-b3", "B3"), ("E9015-B91", "B91"),
        ("E7018-A1", "A1"), ("E7018 H8", "carbon-steel"), ("E309L-16", "austenitic"),
        ("ERNiCr-3", "nickel"), ("E11018-M", None), ("", None),
    ],
)  # fmt: skip
def test_family(written, named):
    assert family(written) == named


def test_a_filler_that_is_not_in_the_table():
    assert deposit("E11018-M") is None and deposit("ERNiCr-3") is None
    assert deposit("e8018-b2 h4r") == deposit("E8018-B2")
