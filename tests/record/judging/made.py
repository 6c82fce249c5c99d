"""Records made for a plan by straight lines, and the plan of a small specification."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from datetime import UTC, datetime
from functools import lru_cache

import numpy as np

from hts.generate import ROOT
from hts.job.compiler import compile_spec
from hts.language.model import Spec
from hts.record.judging import Judgement, Verdict, judge
from hts.record.plan import Plan, plan
from hts.record.record import BLANK, READ, Event, FileRead, Record, Series
from tests.texts import examples, spec_of

#: A joint of three required thermocouples: two control, one at the edge of the soak band; and
#: one beyond the band. Held at 690 .. 720 degC for 2 h, at most 120 degC/h above 300 degC.
SPEC = """\
spec 1
job "Tern Island: invented weld" {
  number       "HT-1"
  revision     A on 2026-11-01 status for construction
  governed by  local-heating
  signed {
    prepared  "Heat-treatment engineer"
  }
}
material pipe-p22 {
  grade           "A335 P22"
  lower critical  805 degC
}
joint W1 {
  kind girth butt
  between pipe-p22 and pipe-p22
  pipe NPS 12 schedule 120
  axis horizontal
  heating by resistance {
    soak band      100 mm total
    heated band    400 mm total
    gradient band  600 mm total
    zone top       from 9:00 to 3:00
    zone bottom    from 3:00 to 9:00
  }
  thermocouples type K class 1 {
    colours  IEC 60584-3
    T1   controls top           at 12:00  on weld           channel 1
    T2   controls bottom        at 6:00   on weld           channel 2
    T1S  spare for T1           at 12:05  on weld           channel 3
    T3   monitors soak edge     at 12:00, 50 mm upstream    channel 4
    T4   monitors heated edge   at 12:00, 200 mm upstream   channel 5
  }
}
cycle stress-relief for W1 {
  recorded by       R1
  start of control  300 degC
  heat to 300 degC
  heat to 705 degC  at most 120 degC/h
  hold 690 .. 720 degC for 2 h
  cool to 300 degC  at most 120 degC/h
  cool in still air
  end of control    300 degC
END
}
recorder R1 {
  channels    12 type K range 0 .. 1200 degC
  interval    60 s
  error       +/- 1.5 degC
  calibrated  2026-09-01 until 2027-03-01
}
"""
START = datetime(2026, 11, 21, 6, 0, tzinfo=UTC)
MINUTE, HOUR = 60.0, 3600.0


Points = tuple[tuple[float, float], ...]

#: The example specifications, for what needs more than SPEC has.
SPECS = os.path.join(ROOT, "specs")
#: Course of a cycle that meets SPEC: minutes and degC, straight in between.
GOOD = (
    (0.0, 250.0),
    (30.0, 300.0),
    (260.0, 705.0),  # 405 K in 230 min: 106 degC/h
    (400.0, 705.0),
    (640.0, 290.0),  # 104 degC/h
)


@lru_cache
def spec_plan(more: str = "", *changes: tuple[str, str], cycle: str | None = None) -> Plan:
    """The plan of SPEC with lines added to its cycle and pieces of its text changed."""
    text = SPEC.replace("END", more)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    spec = spec_of(text, "invented.hts")
    assert [found.message for found in spec.findings] == []
    return plan(compile_spec(spec), None, cycle)


@lru_cache
def file_plan(name: str, cycle: str | None = None) -> Plan:
    """The plan of one of the example specifications."""
    path = os.path.join(SPECS, name)
    loader = examples()
    return plan(compile_spec(Spec(loader.read(path), loader)), None, cycle)


def course(points: Iterable[tuple[float, float]], times: np.ndarray) -> np.ndarray:
    """Temperatures at times (s) along straight lines between points (minutes, degC)."""
    minutes, degrees = zip(*points, strict=True)
    return np.interp(times / MINUTE, minutes, degrees)


def record(
    courses: Mapping[str, np.ndarray],
    times: np.ndarray,
    events: Iterable[Event] = (),
    start: datetime | None = START,
) -> Record:
    """A record of the courses given; NaN is a blank."""
    series = {
        tag: Series(tag, values, np.where(np.isnan(values), BLANK, READ).astype(np.uint8), tag, "C")
        for tag, values in courses.items()
    }
    return Record(
        times,
        start,
        series,
        {},
        tuple(events),
        (),
        float(np.median(np.diff(times))),
        (),
        (FileRead("log.csv", "0" * 64, len(times)),),
        True,
    )


def every(seconds: float, minutes: float) -> np.ndarray:
    return np.arange(0.0, minutes * MINUTE + seconds / 2, seconds)


def run(
    plan: Plan,
    changes: Mapping[str, Iterable[tuple[float, float]]] = {},
    events: Iterable[Event] = (),
    points: Iterable[tuple[float, float]] = GOOD,
    seconds: float = 60.0,
) -> Judgement:
    """The judgement of a run in which all follow `points`, but those in `changes`."""
    points = tuple(points)
    times = every(seconds, points[-1][0])
    tags = [one.tag for one in plan.watched]
    courses = {tag: course(changes.get(tag, points), times) for tag in tags}
    return judge(record(courses, times, events), plan)


def verdict(judgement: Judgement, requirement: str) -> Verdict:
    """The one verdict on a requirement."""
    (found,) = [one for one in judgement.verdicts if one.requirement == requirement]
    return found
