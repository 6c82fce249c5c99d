"""A preheat: soaked before the first arc, and never let go cold and heated again in silence."""

from __future__ import annotations

import pytest

from hts.record.judging import MET, NOT_MET, NOT_SHOWN
from hts.record.record import NOTE, Event
from tests.record.judging.made import MINUTE, Points, file_plan, run, verdict
from tests.rows import each_row

#: At 230 degC from 140 to 400 min; 210 degC is asked for, and 30 min before the arc.
KEPT: Points = ((0.0, 20.0), (140.0, 230.0), (400.0, 230.0), (700.0, 60.0))
PLAN = file_plan("p91-pipe.hts", "preheat")
ARC, END = "start of welding", "end of welding"


def note(minutes: float, text: str) -> Event:
    return Event(NOTE, minutes * MINUTE, text=text)


@pytest.mark.parametrize(("arc", "outcome"), [(150.0, NOT_MET), (155.0, NOT_MET), (180.0, MET)])
def test_the_soak_ends_with_the_first_arc(arc: float, outcome: str) -> None:
    """In range from 126 min 40 s on: 30 min later is 156 min 40 s."""
    noted = [note(arc, ARC), note(390.0, END)]
    assert verdict(run(PLAN, points=KEPT, events=noted), "hold time").verdict == outcome
    assert verdict(run(PLAN, points=KEPT), "hold time").verdict == MET


@each_row("arc_noted", [False, True])
@each_row("lowest", [209.5, 200.0, 150.0])
def test_let_go_cold_and_heated_again(lowest: float, arc_noted: bool) -> None:
    """Without a note of its end welding may have ended before, or the weld went cold in it."""
    lapse: Points = (
        *KEPT[:2], (220.0, 230.0), (230.0, lowest), (250.0, lowest), (320.0, 230.0), *KEPT[2:],
    )  # fmt: skip
    noted = [note(200.0, ARC)] if arc_noted else []
    found = verdict(run(PLAN, points=lapse, events=noted), "preheat maintained")
    assert found.verdict == (NOT_MET if arc_noted else NOT_SHOWN)
    assert not found.elsewhere and f"down to {lowest:.1f} degC" in found.failures[0].sentence


@each_row(
    ("seconds", "arc", "outcome"),
    [
        # Just there at 210 degC, below it for some seconds, and up: no lapse where no arc is noted.
        (90.0, None, MET),
        (150.0, None, NOT_MET),
        # Before the first arc, and from it on.
        (600.0, 200.0, MET),
        (90.0, 127.0, NOT_MET),
    ],
)
def test_it_counts_from_when_it_stays(seconds: float, arc: float | None, outcome: str) -> None:
    """Linear from 20 to 210.5 degC at 126.5 min, 209.5 degC from 127.5 min on, and up to 230 degC.
    Common practice, no source."""
    lower = 127.5 + seconds / 60
    points: Points = (
        (0.0, 20.0), (126.5, 210.5), (127.4, 210.5), (127.5, 209.5), (lower, 209.5),
        (lower + 0.1, 230.0), *KEPT[2:3], (410.0, 230.0), (700.0, 60.0),
    )  # fmt: skip
    noted = [*([note(arc, ARC)] if arc else []), note(390.0, END)]
    found = verdict(run(PLAN, points=points, events=noted), "preheat maintained")
    assert found.verdict == outcome, found


def test_one_that_only_goes_cold_may_have_been_welded() -> None:
    found = verdict(run(PLAN, points=KEPT), "preheat maintained")
    assert found.elsewhere and found.failures == ()
