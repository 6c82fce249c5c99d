"""Alarms of the desk: gathered where they say the same, never hidden, new ones heard."""

from __future__ import annotations

import shutil
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from hts.generate import ROOT
from hts.record.watch.alike import alike
from hts.view.desk_alarms import FIRST, gathered, lines
from tests.view.reader import Reader

TAGS = {"T1", "T2", "T3S"}


def view_of(*alarms: str) -> Any:
    rows = [SimpleNamespace(tag=tag) for tag in sorted(TAGS)]
    return SimpleNamespace(alarms=alarms, rows=rows)


def test_alarms_that_differ_in_figures_alone_are_one_line() -> None:
    found = gathered(
        [
            "T1 rises 150 degC/h, limit 120 degC/h above 300 degC",
            "T2 rises 147.5 degC/h, limit 120 degC/h above 300 degC",
            "T3S falls 150 degC/h, limit 120 degC/h",
            "no power since 2026-11-20 08:21:00",
            "no power since 2026-11-20 08:25:00",
        ],
        TAGS,
    )
    assert [(one.tags, one.words) for one in found] == [
        (("T1", "T2"), "rises 147.5 to 150 degC/h, limit 120 degC/h above 300 degC"),
        (("T3S",), "falls 150 degC/h, limit 120 degC/h"),
        ((), "no power since 2026-11-20 08:21:00"),
        ((), "no power since 2026-11-20 08:25:00"),
    ]


def test_times_are_no_figures_to_spread() -> None:
    found = gathered(["T1 frozen since 08:21:00", "T2 frozen since 08:25:00"], TAGS)
    assert [one.words for one in found] == ["frozen since 08:21:00", "frozen since 08:25:00"]


def test_every_alarm_is_shown_above_or_below_the_readings() -> None:
    view = view_of(*(f"T1 is wrong in way {chr(97 + k)}" for k in range(6)), "T2 is wrong in way a")
    first, more = (Reader(lines(view, first=at)) for at in (True, False))
    assert len(first.elements("li")) == FIRST and len(more.elements("li")) == 6 - FIRST
    assert "3 more below the readings" in first.text and "#more-alarms" in str(first.found)
    heard = [
        a["data-alarm"] for r in (first, more) for a in r.elements("span") if "data-alarm" in a
    ]
    assert sorted(heard) == sorted(alike(alarm) for alarm in view.alarms)
    assert "no alarm" in Reader(lines(view_of(), first=True)).text
    assert lines(view_of(), first=False) == ""


def test_the_same_alarm_of_another_thermocouple_is_a_new_one() -> None:
    first = alike("T1 rises 150 degC/h, limit 120 degC/h")
    assert alike("T1 rises 151 degC/h, limit 120 degC/h") == first
    assert alike("T2 rises 150 degC/h, limit 120 degC/h") != first


def test_errors_of_the_sheet_are_an_alarm_at_the_top(tmp_path: Path) -> None:
    """Of a run that goes on, also where they come while it does, and where the text can no longer
    be made out at all."""
    pytest.importorskip("polars", reason="records need the extra `record`")
    from hts.record.reading import Options
    from hts.record.simulation import Ask, simulate
    from hts.record.watch import Growing
    from hts.view.desk_page import Desk
    from hts.view.shelf import Shelf
    from tests.record.judging.made import file_plan

    shutil.copytree(Path(ROOT, "specs"), tmp_path / "specs")
    spec, log = tmp_path / "specs" / "p22-header.hts", tmp_path / "run.csv"
    good = spec.read_text()
    rows = simulate(file_plan("p22-header.hts"), Ask()).splitlines(keepends=True)
    log.write_text("".join(rows[:100]))
    shelf = Shelf(str(spec))
    with Growing([], str(log)) as growing:
        desk = Desk(shelf, shelf.keys[0], growing, Options(), (None, None), 0.0)

        def shown() -> tuple[str, str, str]:
            state = desk.state()
            sections = desk.sections({})
            return state, str(desk.head()), str(sections[0].body) if sections else ""

        state, head, alarms = shown()
        assert "the specification" not in head + alarms
        spec.write_text(good.replace("hold 690 .. 720 degC", "hold 690 .. 840 degC"))
        worse, head, alarms = shown()
        first = alarms.partition("</li>")[0]
        assert worse != state and "the specification has 2 errors" in first, (head, alarms)
        assert "data-alarm" in first and "ask who wrote it" in first
        spec.write_text(good.replace("hold 690", "hold hold 690"))
        lost, head, _ = shown()
        assert lost != worse and "cannot be compiled" in head and "data-alarm" in head
        spec.write_text(good)
        again, head, alarms = shown()
        assert again != lost and "the specification" not in head + alarms
