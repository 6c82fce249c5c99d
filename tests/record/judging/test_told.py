"""What a judgement tells of each way a run can go, by each set of demands, word for word.

Of a sound run all is kept; of the others what they tell otherwise. The outcomes are worked by hand
in the other tests of this room; here the same runs are put to plans that ask for more.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import numpy as np

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


def _verdicts(judgement: Judgement) -> str:
    """What is not simply met, in a line."""
    by: dict[str, list[str]] = {}
    for one in judgement.verdicts:
        if one.guarded not in (None, one.verdict):
            by.setdefault(f"with guard band {one.guarded}", []).append(one.requirement)
        if one.verdict != "met" and not one.elsewhere:
            by.setdefault(str(one.verdict), []).append(one.requirement)
    said = [f"{verdict}: {'; '.join(of)}" for verdict, of in by.items()]
    return " | ".join([str(judgement.overall), *said])


def test_each_way_a_run_can_go() -> None:
    """The verdicts of each way by each plan; then in which words, once."""
    words = {}
    for way in WAYS:
        verdicts = [f"{plan}: {_verdicts(judged(plan, way))}" for plan in PLANS]
        told.same(KEPT / "verdicts.txt", way, "\n".join(verdicts))
        words[way] = "\n".join(line for plan in PLANS for line in _lines(judged(plan, way)))
    told.each_once(KEPT / "words.txt", words)


def test_a_sound_run() -> None:
    """The whole report, and what the document holds beside it."""
    sound_runs = {plan: judged(plan, "sound") for plan in PLANS}
    told.each_once(KEPT / "reports.txt", {plan: text.write(j) for plan, j in sound_runs.items()})
    lines = [line for each in sound_runs.values() for line in _document(each)]
    kinds = {line.partition(":")[0]: line for line in reversed(lines)}
    kept = [*reversed(kinds.values()), told.digest(lines)]
    told.same(KEPT / "documents.txt", "the first of each kind of line", "\n".join(kept))


def _document(judgement: Judgement) -> Iterator[str]:
    """Line by line, without what it says of the program and of the text."""
    without = frozenset(("hts", "fingerprint", "sha256"))
    return told.leaves(json.loads(document.write(judgement)), without)


def test_a_preheat() -> None:
    """Lapses before and after the arc, a soak too short, hotter than the greatest preheat."""
    preheat = WITH_PREHEAT.replace("  interpass ", "  at most          250 degC\n  interpass ")
    plan = spec_plan("", (PREHEAT, preheat), cycle="preheat")
    lines = ((0.0, 20.0), (60.0, 165.0), (360.0, 160.0), (480.0, 40.0))
    told_of = {}
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
        told_of[name] = "\n".join(_lines(judgement))
    told.each_once(KEPT / "preheat.txt", told_of)


def test_nothing_else_is_kept() -> None:
    assert set(told.kept(KEPT / "verdicts.txt")) == set(WAYS)
