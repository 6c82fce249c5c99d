"""What says a least and a greatest value has the least below: told once, where it stands."""

from __future__ import annotations

from hts.checking.checker.run import check_spec
from hts.checking.rules.examples import PROCEDURE
from tests.rows import each_row
from tests.texts import spec_of

_WALL = "  applies to wall      at most 75 mm\n"


@each_row(
    ("line", "told"),
    [
        ("applies to wall at least 75 mm at most 5 mm", True),
        ("applies to wall at least 3 in at most 75 mm", True),
        ("applies to wall at least 5 mm at most 75 mm", False),
        ("applies to wall at least 25.4 mm at most 25.4 mm", False),
        ("applies to outside diameter at least 600 mm at most 60 mm", True),
    ],
)
def test_a_range_turned_round_is_told_at_its_line_and_nowhere_else(line: str, told: bool) -> None:
    found = check_spec(spec_of(PROCEDURE.replace(_WALL, f"  {line}\n")))
    assert [(f.kind.name, f.at.span.text) for f in found] == [("reversed-range", line)] * told
