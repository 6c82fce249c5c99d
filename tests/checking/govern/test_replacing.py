"""Which rows a line of a procedure may replace, and why it may not."""

from __future__ import annotations

from hts.checking.govern.procedures import amended, practice_row, unreplaceable
from hts.checking.rules.examples import BUTT
from hts.language.vocabulary.procedure import Procedure
from tests.rows import each_row
from tests.texts import spec_of

_TWO = """
procedure P-07 {
  revision 3
  hold time at least 2 h
}

procedure P-08 {
  revision 1
  amends P-07 revision 3
  hold time at most 5 h replaces P-07.hold-time
}
"""


def _amendment() -> Procedure:
    spec = spec_of(BUTT + _TWO)
    (procedure,) = [one for one in spec.file.procedures if one.name == "P-08"]
    assert isinstance(procedure, Procedure)
    return procedure


@each_row(
    ("row", "quantity", "why"),
    [
        ("P-07.hold-time", "hold time", ""),
        ("P-07.hold-time", "", ""),
        ("P-07.hold-time", "heating rate", "the line limits the heating rate"),
        ("P-09.hold-time", "hold time", "there is no book P-09"),
        ("hold-time", "hold time", "it names no book"),
        ("asme-b31.3.heating-rate", "heating rate", "asme-b31.3 is a standard"),
        ("local-heating.soak-band", "", ""),
        ("local-heating.nothing", "", "local-heating has no row nothing"),
        ("local-heating.soak-band", "hold time", "it limits the soak band"),
    ],
)
def test_a_row(row: str, quantity: str, why: str) -> None:
    amendment = _amendment()
    assert amended(amendment) == ["P-07"]
    found = unreplaceable(row, quantity, amendment)
    assert found.startswith(why) and bool(found) == bool(why)
    # A procedure that amends none replaces rows of books alone.
    alone = unreplaceable(row, quantity)
    assert alone == ("there is no book P-07" if row.startswith("P-07") else found)
    assert (practice_row(row) is None) == bool(unreplaceable(row))
