"""Where the whole part is heated every thermocouple on it has to be in range: common practice, no
source."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.job.demands.asked import Asked
from tests.paper.packet.jobs import of_text

TESTS = Path(__file__).parents[2]
SPECS = str(TESTS.parent / "specs")
DRUM = (TESTS / "specs" / "right" / "drum-in-furnace.hts").read_text(encoding="utf-8")
DRUM = DRUM.replace("../../../specs/", "")
WHOLE = "    technique    whole part\n    part length  9 m\n"


@pytest.mark.parametrize(
    ("said", "required"),
    [
        (WHOLE, "T1 T2 T3 T4 T5 T6 T7"),
        ("", "T1 T2 T3 T4 T5 T6 T7"),  # of a furnace nothing else is said
        # What lies 4 m away may lie outside the furnace, or in the next heat.
        (WHOLE.replace("whole part", "in several heats"), "T1 T2 T7"),
    ],
)
def test_what_has_to_be_in_range(said: str, required: str) -> None:
    assert WHOLE in DRUM
    (sheet,) = (job := of_text(DRUM.replace(WHOLE, said), SPECS)).joints
    (run,) = [one for one in sheet.runs if one.program.kind == "cycle"]
    assert " ".join(one.tag for one in Asked(job, sheet, run).required) == required
