"""A demand that nobody can decide is told, and never passes for one that is met."""

from __future__ import annotations

from hts.checking.checker.run import check_spec
from tests.rows import each_row
from tests.texts import spec_of

TEXT = """\
spec 1
procedure X-1 {
  LINES
}
material m { grade "Unknown 7" }
joint W1 {
  kind girth butt
  between m and m
  pipe NPS 4 schedule 80
}
cycle c for W1 {
  hold 690 .. 720 degC for 1 h
}
after heat W1 {
  hardness weld at most 241 HBW
}
"""


@each_row(
    "lines",
    [
        # Whether the procedure is for the joint, whether the line is, what its bound comes to, and
        # whether two scales of hardness compare.
        "applies to p-number 5A\n  requires heating shelter enclosure",
        "requires heating shelter enclosure when chromium > 1 %",
        "requires cycle hold for at least qualified_hold / 4",
        "requires after heat hardness weld at most 248 HV10",
    ],
)
def test_undecided(lines: str) -> None:

    found = check_spec(spec_of(TEXT.replace("LINES", lines)), None)
    assert "demand-undecided" in [finding.kind.name for finding in found]
