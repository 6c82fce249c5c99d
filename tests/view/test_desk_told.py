"""What the desk and the page of a judged record show of ways a run can go, word for word, and where
on the map, as a digest."""

from __future__ import annotations

import re
from pathlib import Path

from hts.job.compiler import compile_spec
from hts.record import plan as plans
from hts.record.judging.words import Words
from hts.record.watch import Row, View, look
from hts.view import desk_alarms, desk_page, record_page
from hts.view.desk_map import desk_map
from tests import told
from tests.record.judging.made import file_plan
from tests.record.judging.ways import PLANS, WAYS, judged, made
from tests.record.watch.test_told import MOMENTS, SOME, _until
from tests.texts import spec_of
from tests.view.test_told import told_page

KEPT = Path(__file__).with_name("told")
_PLACED = re.compile(r"\b(?:[xy][12]?|width|height|stroke-dasharray|text-anchor)=\"([^\"]*)")


def test_the_desk() -> None:
    pages: dict[str, str] = {}
    for plan, ways in SOME.items():
        asked = PLANS[plan]()
        words = Words(asked.job.units)
        for way in ways:
            for minutes in MOMENTS:
                run = _until(WAYS[way](), minutes)
                view = look(made(run), asked, run.faults, "2026-11-20")
                parts = (
                    desk_page._now(view),
                    desk_page._zones(view, words),
                    desk_alarms.count(view),
                    desk_alarms.lines(view, first=True),
                    desk_alarms.lines(view, first=False),
                )
                drawn = desk_map(asked, view, words)
                lines = [told_page("".join(map(str, parts))), told.digest([str(drawn)])]
                pages[f"{plan}, {way}, after {minutes:g} min"] = "\n".join(lines)
    kept = {name: text for name, text in pages.items() if name.startswith("strict")}
    others = [text for name, text in pages.items() if name not in kept]
    told.each_once(KEPT / "desk.txt", {**kept, "the others": "\n".join(others)})


def test_the_page_of_a_record() -> None:
    pages = {}
    for plan, way in (
        ("plain", "sound"), ("strict", "two hot, one twice"), ("lenient", "heater loss seen"),
        ("strict", "no rows for a while"), ("several", "without a date"),
    ):  # fmt: skip
        found = judged(plan, way)
        parts = (
            record_page._verdicts(found), record_page._failures(found), record_page._faults(found),
            record_page._assumed(found),
        )  # fmt: skip
        pages[f"{plan}, {way}"] = told_page("".join(map(str, parts)))
    told.each_once(KEPT / "record.txt", pages)


def _drawn(asked: plans.Plan) -> list[str]:
    """Each thing of the map: what it is, its numbers in units of the picture, its words. One
    thermocouple is not read, one has an alarm."""
    rows = tuple(
        Row(t.tag, t.duty, None if t.tag == "T3" else 700.0, None, None, None, None,
            "no reading" if t.tag == "T3" else "", t.zone)
        for t in asked.watched
    )  # fmt: skip
    view = View("", "", 0.0, 1, "", "", None, None, None, False, rows, ("T4 is cold",), (), False)
    drawn = str(desk_map(asked, view, Words(asked.job.units)))
    things = re.findall(r"<(text|rect|line|p)\b([^>]*)>([^<]*)", drawn)
    return [f"{kind} {' '.join(_PLACED.findall(marks))} {words}" for kind, marks, words in things]


def test_where_things_stand_on_the_map() -> None:
    """Round a pipe, along a seam (its zones in parts of it, and over all of it) and round a pad."""
    weld = "specs/right/seam-and-pad.hts"
    text = (Path(__file__).parents[1] / weld).read_text("utf-8")
    whole = re.sub(r"(zone z\d) +along \S+ mm \.\. \S+ mm", r"\1", text)
    maps = {
        "round a pipe": _drawn(PLANS["plain"]()),
        "a branch": _drawn(file_plan("branch-unequal.hts")),
    }
    for name, of, joint in (
        ("along a seam", text, "L1"), ("zones over all of it", whole, "L1"),
        ("round a pad", text, "P1"),
    ):  # fmt: skip
        maps[name] = _drawn(plans.plan(compile_spec(spec_of(of)), joint, None))
    told.each_once(KEPT / "map.txt", {name: "\n".join(each) for name, each in maps.items()})
