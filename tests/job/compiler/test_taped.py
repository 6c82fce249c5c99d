"""Taped lengths about a branch, by hand from the geometry of two cylinders."""

from math import asin, pi

import pytest

from hts.checking.rules.examples import changed
from hts.job.compiler import Job, compile_spec
from hts.job.outputs import tag_sheet
from tests.texts import spec_of

T6 = "287 mm on run     channel 6"


def job(*changes: tuple[str, str]) -> Job:
    return compile_spec(spec_of(changed("branch", changes), "x.hts"))


def measures(made: Job, tag: str) -> dict[str, float]:
    (found,) = [one for one in made.joints[0].tags if one.tag == tag]
    assert found.taped is not None
    return {m.words: float(m.length.value) for m in found.taped.measures}


def test_square_branch() -> None:
    """NPS 10 (273 mm) on NPS 12 (323.8 mm), sizes of ASME B36.10M; the weld is 30 mm wide."""
    line = f"{T6}\n    T7 monitors base metal at 3:00, 50 mm on run channel 9"
    made = job((T6, line))
    # Along the run the surface is straight: 136.5 + 287 mm from the middle, 287 - 15 from the toe.
    assert measures(made, "T6") == pytest.approx(
        {"along the run toward 6:00": 423.5, "shortest from the weld toe": 272}, abs=0.1
    )
    # At the flank the weld lies asin(136.5/161.9) round the run, the place 50 mm farther.
    radius = 323.8 / 2
    assert measures(made, "T7") == pytest.approx(
        {
            "round the run toward 3:00": radius * asin(273 / 2 / radius) + 50,
            "shortest from the weld toe": 35,
        },
        abs=0.1,
    )
    assert all(tag.arc is None for tag in made.joints[0].tags if tag.tag in ("T6", "T7"))
    (control,) = [tag for tag in made.joints[0].tags if tag.tag == "T2"]
    assert control.arc is not None
    assert float(control.arc.value) == pytest.approx(pi * 273 / 2)


def test_seen_from_the_other_end() -> None:
    """Seen from the run the clock runs the other way round: 3:00 comes to lie at 9:00."""
    line = f"{T6}\n    T7 monitors base metal at 2:00, 50 mm on run channel 9"
    there = measures(job((T6, line)), "T7")
    view = ("viewed     from branch", "viewed     with flow\n  flow branch to run")
    assert measures(job((T6, line), view), "T7") == there
    other = ("viewed     from branch", "viewed     with flow\n  flow run to branch")
    # Words name the clock, so they are the same; the places lie on opposite flanks.
    assert measures(job((T6, line), other), "T7") == there


def test_what_is_not_told_is_not_worked_out() -> None:
    made = job(("10 mm crotch at 12:00", "10 mm"))
    assert "not worked out: it is not told which clock position lies at the crotch" in (
        tag_sheet.write(made)
    )
    sheet = tag_sheet.write(job(("crotch at 12:00", "angle 45 deg crotch at 12:00")))
    assert "not worked out" not in sheet and "The crotch is at 12:00" in sheet
