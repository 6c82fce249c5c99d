"""What a judgement tells of each way a run can go, by each set of demands, word for word.

Of a sound run all is kept; of the others what they tell otherwise. The outcomes are worked by hand
in the other tests of this room; here the same runs are put to plans that ask for more.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from hts.record.judging import Judgement, document, judge, text
from hts.record.record import (
    NOTE,
    Event,
)
from tests import told
from tests.record.judging.made import MINUTE, spec_plan
from tests.record.judging.test_papers import PREHEAT, WITH_PREHEAT
from tests.record.judging.ways import PLANS, WAYS, judged, made, moved, sound

KEPT = Path(__file__).with_name("told")


def _lines(judgement: Judgement) -> Iterator[str]:
    """All there is to tell, a line for each thing."""
    yield f"overall: {judgement.overall}"
    yield from (f"assumed: {one}" for one in judgement.assumed)
    for one in judgement.verdicts:
        elsewhere = ", by other documents" if one.elsewhere else ""
        guarded = "" if one.guarded is None else f", with guard band {one.guarded}"
        yield f"{one.requirement}: {one.verdict}{guarded}{elsewhere}: {one.actual}"
        yield f"    asks {one.specified}"
        for each in one.failures:
            tags = ", ".join(each.tags)
            yield f"    {tags} {each.start:.1f} to {each.end:.1f}: {each.sentence}"
    for clock in judgement.holds:
        pieces = ", ".join(f"{a:.1f} to {b:.1f}" for a, b in clock.intervals)
        lost = ", ".join(f"{a:.1f} to {b:.1f}" for a, b in clock.lost)
        yield (
            f"hold of {clock.low:g} to {clock.high:g}: {pieces or 'never'}; lost {lost or 'none'}; "
            f"{clock.last} last, {clock.worst} worst, complete {clock.complete}"
        )
    for segment in judgement.segments:
        yield f"part {segment.number} {segment.action}: {segment.start:.1f} to {segment.end:.1f}"
    yield from (f"{one.name}: {one.sentence}" for one in judgement.noted)


def _told(plan: str, way: str) -> str:
    usual = set(_lines(judged(plan, "sound")))
    return "\n".join(line for line in _lines(judged(plan, way)) if line not in usual)


@pytest.mark.parametrize("way", [way for way in WAYS if way != "sound"])
@pytest.mark.parametrize("plan", PLANS)
def test_each_way_a_run_can_go(plan: str, way: str) -> None:
    told.same(KEPT / f"{plan}.txt", way, _told(plan, way))


@pytest.mark.parametrize("plan", PLANS)
def test_a_sound_run(plan: str) -> None:
    """The whole report, and what the document holds beside it."""
    judgement = judged(plan, "sound")
    told.same(KEPT / "reports.txt", plan, text.write(judgement))
    told.same(KEPT / "documents.txt", plan, "\n".join(_document(judgement)))
    told.same(KEPT / f"{plan}.txt", "sound", "\n".join(_lines(judgement)))


def _document(judgement: Judgement) -> Iterator[str]:
    """Line by line, without what it says of the program and of the text."""
    without = frozenset(("hts", "fingerprint", "sha256"))
    return told.leaves(json.loads(document.write(judgement)), without)


def test_a_preheat() -> None:
    """Lapses before and after the arc, a soak too short, hotter than the greatest preheat."""
    preheat = WITH_PREHEAT.replace("  interpass ", "  at most          250 degC\n  interpass ")
    plan = spec_plan("", (PREHEAT, preheat), cycle="preheat")
    lines = ((0.0, 20.0), (60.0, 165.0), (360.0, 160.0), (480.0, 40.0))
    for name, (tag, by, start, end) in {
        "sound": ("T1", 0.0, 0.0, 9.0),
        "lapse before the arc": ("T2", -20.0, 65.0, 80.0),
        "lapse": ("T3", -20.0, 200.0, 215.0),
        "too hot for a bead": ("T1", 170.0, 200.0, 240.0),
        "too hot before the arc": ("T2", 110.0, 62.0, 80.0),
        "blank": ("T1", np.nan, 200.0, 230.0),
    }.items():
        run = moved(sound(lines), tag, by, start, end, 4.0)
        notes = (
            Event(NOTE, 90 * MINUTE, text="start of welding"),
            Event(NOTE, 350 * MINUTE, text="end of welding"),
        )
        judgement = judge(made(run._replace(events=notes)), plan)
        told.same(KEPT / "preheat.txt", name, "\n".join(_lines(judgement)))


def test_nothing_else_is_kept() -> None:
    for plan in PLANS:
        assert set(told.kept(KEPT / f"{plan}.txt")) == set(WAYS)
