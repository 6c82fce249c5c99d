"""Every tolerance of the data against the tables of the standards, entered here a second time.

A row of the data that stands in no line here fails, and a line without a row. Each is asked at both
ends of its range and on both sides of its step, in both systems of units.
"""

from fractions import Fraction

from hts.base.data import load
from hts.science.thermocouples.tolerance import limit_of_error
from tests.rows import each_row

# IEC 60584-1:2013 and ASTM E230, tables of tolerances, from memory: standard; class; types; range
# in degC; the limit in K; the share of the temperature, where that is more, in %; for class 1 of R
# and S the temperature from which the share counts.
TABLE = """
IEC 60584-1 | 1        | K N | -40 1000 | 1.5 | 0.4  |
IEC 60584-1 | 1        | E   | -40 800  | 1.5 | 0.4  |
IEC 60584-1 | 1        | J   | -40 750  | 1.5 | 0.4  |
IEC 60584-1 | 1        | T   | -40 350  | 0.5 | 0.4  |
IEC 60584-1 | 1        | R S | 0 1600   | 1   | 0.3  | 1100
IEC 60584-1 | 2        | K N | -40 1200 | 2.5 | 0.75 |
IEC 60584-1 | 2        | E   | -40 900  | 2.5 | 0.75 |
IEC 60584-1 | 2        | J   | -40 750  | 2.5 | 0.75 |
IEC 60584-1 | 2        | T   | -40 350  | 1   | 0.75 |
IEC 60584-1 | 2        | R S | 0 1600   | 1.5 | 0.25 |
IEC 60584-1 | 2        | B   | 600 1700 | 0   | 0.25 |
IEC 60584-1 | 3        | K N | -200 40  | 2.5 | 1.5  |
IEC 60584-1 | 3        | E   | -200 40  | 2.5 | 1.5  |
IEC 60584-1 | 3        | T   | -200 40  | 1   | 1.5  |
IEC 60584-1 | 3        | B   | 600 1700 | 4   | 0.5  |
ASTM E230   | standard | K N | 0 1260   | 2.2 | 0.75 |
ASTM E230   | standard | J   | 0 760    | 2.2 | 0.75 |
ASTM E230   | standard | E   | 0 870    | 1.7 | 0.5  |
ASTM E230   | standard | T   | 0 370    | 1   | 0.75 |
ASTM E230   | standard | R S | 0 1480   | 1.5 | 0.25 |
ASTM E230   | standard | B   | 870 1700 | 0   | 0.5  |
ASTM E230   | special  | K N | 0 1260   | 1.1 | 0.4  |
ASTM E230   | special  | J   | 0 760    | 1.1 | 0.4  |
ASTM E230   | special  | E   | 0 870    | 1   | 0.4  |
ASTM E230   | special  | T   | 0 370    | 0.5 | 0.4  |
ASTM E230   | special  | R S | 0 1480   | 0.6 | 0.1  |
ASTM E230   | special  | B   | 870 1700 | 0   | 0.25 |
ASTM E230   | standard | K   | -200 0   | 2.2 | 2    |
"""


def lines():
    for line in TABLE.strip().splitlines():
        standard, grade, types, ends, floor, share, beyond = (c.strip() for c in line.split("|"))
        low, high = map(Fraction, ends.split())
        for type in types.split():
            yield standard, type, grade, low, high, Fraction(floor), Fraction(share) / 100, beyond


LINES = list(lines())


def test_every_row_stands_here_and_every_line_in_the_data():
    # The figures as well: what no temperature of the range shows is wrong all the same.
    names = ("from", "to", "floor", "share")
    rows = {
        (row["standard"], row["type"], row["class"], *(Fraction(row[name]) for name in names))
        for row in load("thermocouples")["tolerances"]
    }
    assert rows == {line[:7] for line in LINES}


@each_row("line", LINES, ids=lambda line: " ".join(map(str, line[:4])))
def test_a_row_at_its_ends_and_on_both_sides_of_its_step(line):
    standard, type, grade, low, high, floor, share, beyond = line
    asked = {low, high}
    if beyond:
        asked |= {Fraction(beyond), Fraction(beyond) + 1}
    elif floor:
        step = floor / share
        asked |= {at for at in (step, step + 1, -step, -step - 1) if low <= at <= high and at != 0}
    # The row of the cold side of ASTM E230 ends where that of the hot side begins.
    for celsius in asked - ({Fraction(0)} if high == 0 else set()):
        expected = (
            floor + share * max(Fraction(0), celsius - Fraction(beyond))
            if beyond
            else max(floor, share * abs(celsius))
        )
        found = limit_of_error(standard, type, grade, celsius)
        assert found.kelvin == expected, celsius
        assert found.fahrenheit_degrees == expected * Fraction(9, 5), celsius
