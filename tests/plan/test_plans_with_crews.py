"""Crews: no heat goes on that nobody can watch."""

from __future__ import annotations

import csv
import io
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

pytest.importorskip("ortools", reason="the extra `plan` is not installed")

from hts.cli.plan import command
from hts.language.model.shifts import Shift
from hts.plan.heats import Heat
from hts.plan.propose import propose, too_long
from hts.plan.timetable import TICK, Terms, timetable
from tests.plan.units import HOUR, at, terms, unit
from tests.specs.found import SPECS


def shift(name: str, begin: int, end: int, heats: int) -> Shift:
    """A crew there from one hour of the day to the other."""
    return Shift(name, begin * 60, end * 60, heats)


DAYS, NIGHTS = shift("days", 6, 18, 2), shift("nights", 18, 30, 1)


def with_crews(*crews: Shift, clock: int = 0, ready: dict[str, int] | None = None) -> Terms:
    return terms(ready=ready)._replace(shifts=crews, clock=clock * HOUR)


def test_no_heat_goes_on_while_nobody_is_there() -> None:
    """By hand: 2 + 6 + 1 h fit into a shift of 12 h once, so that three heats on three controllers
    take three days where the crew watches one, and two where it watches two."""
    packed = [Heat((unit(f"W{n}", controller=f"C{n}"),)) for n in range(3)]
    alone = timetable(packed, with_crews(shift("days", 6, 18, 1)))
    assert [slot.begin for slot in alone.slots] == [6 * HOUR, 30 * HOUR, 54 * HOUR]
    assert alone.end == alone.least == (48 + 15) * HOUR
    two = timetable(packed, with_crews(DAYS))
    assert sorted(slot.begin for slot in two.slots)[:2] == [6 * HOUR, 6 * HOUR]
    assert two.end == two.least == (24 + 15) * HOUR
    # A plan that begins at 10:00 has 8 h left of the shift: too few.
    assert timetable(packed, with_crews(DAYS, clock=10)).slots[0].begin == 20 * HOUR


def test_a_crew_hands_over_what_the_next_can_watch() -> None:
    """Two by day, one by night: of two heats of 9 h set up at 6:00 both are done by 15:00; a third
    begins with one of 12 h only where one place is left."""
    packed = [Heat((unit(f"W{n}", controller=f"C{n}", hours=15),)) for n in range(2)]
    found = timetable(packed, with_crews(DAYS, NIGHTS))
    # 18 h each: both never fit into the night together, one runs through it.
    first, then = found.slots
    assert then.begin >= first.end or min(first.end, then.end) - then.begin <= 12 * HOUR
    load_at_night = [
        sum(slot.begin <= hour * HOUR < slot.end for slot in found.slots)
        for hour in range(found.end // HOUR + 1)
        if not 6 <= hour % 24 < 18
    ]
    assert max(load_at_night) == 1


@settings(max_examples=25)
@given(
    st.lists(st.integers(1, 9), min_size=1, max_size=5),
    st.lists(
        st.tuples(st.integers(0, 23), st.integers(1, 24), st.integers(1, 3)),
        min_size=1,
        max_size=3,
    ),
    st.integers(0, 23),
)
def test_at_every_moment_the_crews_there_can_watch_what_goes_on(
    hours: list[int], crews: list[tuple[int, int, int]], clock: int
) -> None:
    units = [unit(f"W{n}", controller=f"C{n}", hours=h) for n, h in enumerate(hours)]
    stated = with_crews(
        *(Shift(str(n), b * 60, (b + size) * 60, h) for n, (b, size, h) in enumerate(crews)),
        clock=clock,
    )
    fitting = [each for each in units if not too_long(each, stated)]
    found, left = propose([Heat((each,)) for each in fitting], stated, at)
    assert left == []
    assert len(found.slots) == len(fitting)
    for quarter in range(found.end // TICK):
        of_day = (clock * 60 + quarter * 15) % (24 * 60)
        # Counted anew, minute by minute of a day.
        watch = sum(
            heats
            for begin, size, heats in crews
            if any(begin * 60 <= of_day + day < (begin + size) * 60 for day in (0, 24 * 60))
        )
        going = sum(slot.begin <= quarter * TICK < slot.end for slot in found.slots)
        assert going <= watch, (quarter, going, watch)


def test_what_is_longer_than_anybody_is_there_is_left_out_and_told_why() -> None:
    stated = with_crews(DAYS)
    assert too_long(unit("W0", hours=9), stated) == ""
    assert too_long(unit("W0", hours=9.25), stated) == (
        "W0: sr takes 12.25 h with setting up and cooling off, and crews are there for 12 h "
        "without a break: nobody is there from 18:00 to 06:00"
    )
    assert too_long(unit("W0", hours=30), with_crews(DAYS, NIGHTS)) == ""


def test_preheat_that_nobody_watches_at_night_is_told() -> None:
    kept = unit("W0", keeper="C1", hours=4)
    ready = {"W0": 16 * HOUR}
    found, left = propose([Heat((kept,))], with_crews(DAYS, ready=ready), at)
    # From 14:00, when it is set up, until 21:00 at least.
    assert found.slots == []
    assert "or the crews, have no room for it" in left[0]


def test_the_crews_of_a_job_are_in_its_plan(tmp_path: Path) -> None:
    spec = tmp_path / "many.hts"
    text = (SPECS / "turnaround-many.hts").read_text("utf-8")
    line = next(each for each in text.splitlines() if each.lstrip().startswith("governed by"))
    crews = "  crew days from 06:00 to 18:00 watches 2\n  crew nights from 18:00 to 06:00 watches 1"
    shutil.copytree(SPECS / "library", tmp_path / "library")
    spec.write_text(text.replace(line, f"{line}\n{crews}", 1), "utf-8")
    arguments = [str(spec), "-o", str(tmp_path / "out"), "--from", "2026-12-01 07:00"]
    run = CliRunner().invoke(command, arguments)
    assert run.exit_code == 0, run.output
    assert "crew nights from 18:00 to 06:00 looks after 1 heat at once" in run.output
    page = (tmp_path / "out" / "plan.md").read_text("utf-8")
    assert "2026-12-01 07:00 to 2026-12-01 18:00: days" in page
    rows = list(csv.DictReader(io.StringIO((tmp_path / "out" / "plan.csv").read_text("utf-8"))))
    for row in rows:
        by_day = "06:00" <= row["program from"][-5:] < "18:00"
        assert row["crews at the start"] == ("days" if by_day else "nights")
    # Somebody who says it on the command line knows better.
    run = CliRunner().invoke(command, [*arguments[:1], "--crews", "3"])
    assert "crew nights" not in run.output
