"""What the desk says of a thermocouple, when it says that the recorder is silent, and where
readings stand on the joint unrolled: a few of each, by hand."""

from __future__ import annotations

import re
from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.record.judging.words import Words
from hts.record.watch import Row
from hts.view import desk_map, desk_page, desk_words
from tests.record.judging.made import spec_plan
from tests.rows import each_row

WORDS = Words(spec_plan().job.units)
ROW = Row("T1", "controls", 705.0, 60.0, 120.0, 15.0, 15.0, "", "top", "weld 12:00")
QUIET: Any = Stub(alarms=())


def said(row: Row, *alarms: str) -> str:
    return re.sub(r"<[^>]*>", "", desk_words.state(row, Stub(alarms=alarms))).strip()  # type: ignore[arg-type]


@each_row(
    ("row", "alarms", "state"),
    [
        (ROW, (), "● no alarm"),
        (ROW._replace(duty="replaced", note="replaced by T1S"), ("T1 is lost",),
         "● replaced by T1S"),
        (ROW._replace(note="no reading", below_top=-1.0), (), "✕ no reading"),
        # Just at an end of the range is within it.
        (ROW._replace(below_top=0.0, above_bottom=30.0), (), "● no alarm"),
        (ROW._replace(below_top=-0.1, above_bottom=30.1), (), "▲ too hot"),
        (ROW._replace(above_bottom=0.0), (), "● no alarm"),
        (ROW._replace(above_bottom=-0.1), ("T1 below the range",), "▼ too cold"),
        # On the way nobody is too cold.
        (ROW._replace(above_bottom=None, below_top=400.0), (), "● no alarm"),
        (ROW._replace(above_bottom=None, below_top=None), (), "● no alarm"),
        # An alarm of another, whose name has this one in it, is no alarm of this.
        (ROW, ("T1S rises", "T11 rises", "AT1 rises", "T1-2 rises", "x.T1 rises"), "● no alarm"),
        (ROW, ("T2, T1 rise",), "▲ see alarms"),
        (ROW, ("T1: no reading",), "▲ see alarms"),
    ],
)  # fmt: skip
def test_what_is_wrong_with_it(row: Row, alarms: tuple[str, ...], state: str) -> None:
    assert said(row, *alarms) == state


def test_its_figures() -> None:
    assert desk_words.reading(ROW, WORDS) == "705.0 degC"
    assert desk_words.reading(ROW._replace(reading=None), WORDS) == "no reading"
    assert desk_words.rate(ROW, WORDS) == "60 degC/h, at most 120 degC/h "
    assert desk_words.rate(ROW._replace(rate_limit=None), WORDS) == "60 degC/h "
    assert desk_words.rate(ROW._replace(rate=0.0, rate_limit=None), WORDS) == "0 degC/h "
    assert desk_words.rate(ROW._replace(rate=None), WORDS) == ""


@pytest.mark.parametrize(
    ("elapsed", "readings", "seconds", "silent", "told"),
    [
        # 60 rows an hour: three minutes without one are long enough to wait, and no longer.
        (3600.0, 61, 5.0, 180.0, False),
        (3600.0, 61, 5.0, 180.1, True),
        # Rows every 2 s, looked at every 5 s: 15 s.
        (3600.0, 1801, 5.0, 15.0, False),
        (3600.0, 1801, 5.0, 15.1, True),
        # One row has no interval.
        (0.0, 1, 5.0, 15.1, True),
    ],
)
def test_a_recorder_that_falls_silent(
    elapsed: float, readings: int, seconds: float, silent: float, told: bool,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    monkeypatch.setattr(desk_page.clock_time, "monotonic", lambda: 1000.0 + silent)
    view = Stub(elapsed=elapsed, readings=readings, clock="10:00:00")
    desk: Any = Stub(_view=view, _grown=1000.0, _seconds=seconds)
    words = "no new row since 10:00:00: is the recorder writing?" if told else ""
    assert desk_page.Desk._silent(desk) == words
    desk._view = None
    assert desk_page.Desk._silent(desk) == ""


def test_no_reading_stands_on_another() -> None:
    """1600 wide, 20 at each side; a reading takes 240, and at the right end it is moved in."""
    assert [desk_map._x(turn) for turn in (0.0, 180.0, 360.0)] == [20.0, 800.0, 1580.0]
    places = {"A": 20.0, "B": 100.0, "C": 260.0, "D": 339.0, "E": 340.0, "F": 1580.0, "G": 1121.0}
    spots: Any = [Stub(row=Stub(tag=tag), x=x) for tag, x in places.items()]
    assert desk_map._levels(spots) == {"A": 0, "B": 1, "C": 0, "D": 2, "E": 1, "G": 0, "F": 1}
