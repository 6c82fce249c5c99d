"""The state of the bore, of what the text says of lining, draught and ends."""

from __future__ import annotations

import pytest

from hts.predict.bore import bore_state
from hts.science.field.states import STATES, UNKNOWN
from tests.predict.test_predict import ENDS, case_of
from tests.rows import each_row


@each_row(
    ("lines", "state", "known", "beyond"),
    [
        ("ends closed", "closed and still", True, None),
        ("ends open", "open", True, None),
        ("ends open\n    draught through the bore", "draughty", True, None),
        ("ends open\n    draught stopped by plugs", "closed and still", True, None),
        ("ends open\n    draught stopped by plugs at 2 m", "closed and still", True, "open"),
        ('liner "blanket" thickness 25 mm', "lined", True, "open"),
        ('ends closed\n    liner "blanket" thickness 25 mm', "lined", True, "closed and still"),
        ('draught none\n    liner "blanket" thickness 25 mm', "lined", True, "open"),
        (
            'draught through the bore\n    liner "blanket" thickness 25 mm',
            "lined",
            True,
            "draughty",
        ),
        (
            'draught stopped by plugs\n    liner "blanket" thickness 25 mm',
            "lined",
            True,
            "closed and still",
        ),
        ('inside insulation "plug" thickness 100 mm', "packed", True, "open"),
        ("bore state draughty", "draughty", True, None),
        ("draught none", "open", True, None),
        ("shelter none", UNKNOWN, False, None),
    ],
)
def test_the_state_of_the_bore(lines: str, state: str, known: bool, beyond: str | None) -> None:
    heating = next(iter(case_of((ENDS, f"    {lines}")).joints())).entry.heating
    assert heating is not None
    found = bore_state(heating)
    assert found is not None and (found.state.name, found.known) == (state, known)
    assert (found.beyond.name if found.beyond else None) == beyond


def test_a_lining_counts_by_its_thickness() -> None:
    """4 W/m2K stand for 25 mm; half as much for twice the thickness, whatever says so."""
    for line, thickness in (
        ('liner "blanket" thickness {}', ""), ('inside insulation "plug" thickness {}', ""),
        ('liner "blanket" thickness {}', "\n    bore state lined"),
    ):  # fmt: skip
        means = []
        for size in ("25 mm", "50 mm"):
            text = f"    {line.format(size)}{thickness}"
            heating = next(iter(case_of((ENDS, text)).joints())).entry.heating
            found = bore_state(heating) if heating is not None else None
            assert found is not None
            means.append(found.state.mean)
        assert means[1] == pytest.approx(means[0] / 2, abs=0.6), line


def test_unknown_covers_every_state_without_a_lining() -> None:
    spread = STATES[UNKNOWN]
    assert spread.low <= STATES["closed and still"].mean
    assert STATES["draughty"].mean <= spread.high
