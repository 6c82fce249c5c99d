"""What the desk and the page of a judged record show of ways a run can go, word for word, and where
on the map, as a digest."""

from __future__ import annotations

from pathlib import Path

from hts.record.judging.words import Words
from hts.record.watch import look
from hts.view import desk_alarms, desk_page, record_page
from hts.view.desk_map import desk_map
from tests import told
from tests.record.judging.ways import PLANS, WAYS, judged, made
from tests.record.watch.test_told import MOMENTS, SOME, _until
from tests.view.test_told import told_page

KEPT = Path(__file__).with_name("told")


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
