"""What judging assumes is said just where the specification is silent."""

from __future__ import annotations

from tests.record.judging.made import run, spec_plan
from tests.rows import each_row

WINDOW = "rates are judged over 15 min, common practice"
CORNERS = "rates are those of the straight stretches"
PIECES = "an interrupted hold starts again"
COUNTS = "the hold counts while all required are in range"
BAND = "limits of temperature are drawn in by 3.69 K (expanded uncertainty)"


@each_row(
    ("more", "said"),
    [
        ("", [WINDOW, CORNERS, PIECES, COUNTS]),
        ("rate over 10 min", [CORNERS, PIECES, COUNTS]),
        ("interrupted hold adds up", [WINDOW, CORNERS, COUNTS]),
        ("interrupted hold starts again", [WINDOW, CORNERS, COUNTS]),
        ("hold counts while controlling in range", [WINDOW, CORNERS, PIECES]),
        ("guard band expanded uncertainty", [WINDOW, CORNERS, PIECES, COUNTS, BAND]),
    ],
)
def test_assumed(more: str, said: list[str]) -> None:
    found = run(spec_plan(more)).assumed
    assert len(found) == len(said)
    assert [
        one for one, begins in zip(found, said, strict=True) if not one.startswith(begins)
    ] == []


def test_no_rate_no_window_of_its_straight_stretches() -> None:
    plan = spec_plan("", ("705 degC  at most 120 degC/h", "705 degC"),
                     ("cool to 300 degC  at most 120 degC/h", "cool to 300 degC"))  # fmt: skip
    assert not [one for one in run(plan).assumed if one.startswith(CORNERS)]
