"""Ways a run can go, and sets of demands to judge them by."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime, timedelta
from functools import cache
from typing import NamedTuple
from zoneinfo import ZoneInfo

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import CLOCK_JUMP, HEATER_LOSS
from hts.record.judging import Judgement, judge
from hts.record.plan import Plan
from hts.record.record import (
    HEATER_BACK,
    HEATER_LOST,
    INSULATION_OPENED,
    NOTE,
    POWER_BACK,
    POWER_LOST,
    REPLACED,
    Event,
    Floats,
    Jump,
    Record,
)
from tests.record.judging.made import MINUTE, course, every, record, spec_plan
from tests.record.judging.test_papers import PREHEAT, WITH_PREHEAT

_HISTORY = (
    "  axis horizontal\n",
    '  axis horizontal\n  qualified "PQR-9" hold 3 h with toughness\n'
    '  already heated 1 h at 700 degC "shop"\n',
)
_LONGEST = ("for 2 h\n", "for 2 h at most 165 min\n")
_SLOWEST = ("at most 120 degC/h\n  hold", "at most 120 degC/h at least 90 degC/h\n  hold")
_OWNER = (
    "joint ",
    'procedure P-T "Invented" {\n  revision  1 on 2026-01-01 status for construction\n'
    "  tempering parameter at most 20.15\n}\n\njoint ",
)
_FOLLOWS = ("  governed by", "  follows P-T\n  governed by")
_US = ('number       "HT-1"', 'number       "HT-1"\n  show         US')
_STRICT = """\
rate over 30 min
heating spread at most 60 K
heating spread at most 40 K within 60 mm
holding spread at most 12 K
share of hold at least 50 % at most 80 % at heated edge
mean of hold 697 .. 712 degC of all
mean of hold 697 .. 712 degC of highest and lowest
guard band expanded uncertainty
begin within 24 h
first cool below 260 degC
remove insulation below 360 degC
on over-rate resume at the allowed rate
on cooling fault repeat half of the hold
on power loss resume at the present temperature within 20 min
on thermocouple loss change to the spare
on heater loss replace
"""
_LENIENT = """\
hold counts while controlling in range
interrupted hold adds up
excursion at most 12 min each
excursion at most 20 min in total
rate excursion at most 10 min each
rate excursion at most 25 min in total
mean of hold 697 .. 712 degC of controlling
guard band one-sided 95 %
begins from preheat
on over-rate restart the cycle
on cooling fault cool on at the allowed rate
on power loss restart the cycle
on thermocouple loss ask the engineer
on heater loss adjust neighbouring heaters
"""

#: Two holds, the second without an end said of control; things beside the weld; no target to speak
#: of, and the longest delays of a power cut.
_SEVERAL = (
    (
        "heat to 705 degC  at most 120 degC/h",
        "heat to 500 degC at most 120 degC/h\n  hold 480 .. 520 degC for 15 min\n"
        "  heat to 705 degC at most 115 degC/h above 520 degC at least 60 degC/h",
    ),
    ("at most 120 degC/h\n  cool in still air", "at most 110 degC/h at least 50 degC/h\n"
     "  cool in still air at most 200 degC/h above 200 degC"),
    (
        "  axis horizontal\n",
        '  axis horizontal\n'
        '  nearby "valve seat" 200 mm upstream at most 480 degC monitored by T4\n'
        '  nearby "gauge" 700 mm upstream at most 200 degC\n',
    ),
)  # fmt: skip
PLANS: dict[str, Callable[[], Plan]] = {
    "several": lambda: spec_plan(
        "excursion at most 30 min in total\non power loss resume at the present temperature\n"
        "interrupted hold adds up\nholding spread at most 20 K\n",
        *_SEVERAL,
    ),
    "plain": spec_plan,
    "strict": lambda: spec_plan(_STRICT, _HISTORY, _LONGEST, _SLOWEST, _OWNER, _FOLLOWS),
    "lenient": lambda: spec_plan(_LENIENT, _US, (PREHEAT, WITH_PREHEAT), cycle="stress-relief"),
}
#: A sound run: each its own small way off the straight lines, so that each row has one highest.
_LINES = ((0.0, 250.0), (30.0, 300.0), (260.0, 705.0), (405.0, 705.0), (645.0, 290.0))
_OFF = {"T1": 0.0, "T2": -2.25, "T1S": 0.5, "T3": -4.75, "T4": -230.0}


_WHEN = re.compile(r"(fastest [^;()]*\([^()]*\)) from [-0-9: ]*[0-9]")


def _steady(text: str) -> str:
    """Without when the fastest window was: of a straight line all are equally fast, and which is
    named hangs on rounding."""
    return _WHEN.sub(r"\1", text)


class Run(NamedTuple):
    times: Floats
    courses: dict[str, Floats]
    events: tuple[Event, ...] = ()
    faults: tuple[Fault, ...] = ()
    jumps: tuple[Jump, ...] = ()
    start: datetime | None = datetime(2026, 11, 21, 6, 0, tzinfo=ZoneInfo("UTC"))


def sound(lines: tuple[tuple[float, float], ...] = _LINES, seconds: float = 60.0) -> Run:
    times = every(seconds, lines[-1][0])
    base = course(lines, times)
    share = (base - 250.0) / 455.0
    courses = {tag: base + off * share for tag, off in _OFF.items()}
    return Run(times, courses, (Event(NOTE, -20 * 3600.0, text="end of welding"),))


def _noted(run: Run, *events: Event) -> Run:
    return run._replace(events=(*run.events, *events))


def moved(run: Run, tag: str, by: float, start: float, end: float, ramp: float = 2.0) -> Run:
    """A thermocouple moved by so many K between two minutes, there and back in `ramp` minutes."""
    bump = np.interp(run.times / MINUTE, (start, start + ramp, end - ramp, end), (0.0, by, by, 0.0))
    return run._replace(courses={**run.courses, tag: run.courses[tag] + bump})


def _all_moved(run: Run, by: float, start: float, end: float, ramp: float = 2.0) -> Run:
    for tag in run.courses:
        run = moved(run, tag, by, start, end, ramp)
    return run


def _blank(run: Run, tag: str, start: float, end: float) -> Run:
    minutes = run.times / MINUTE
    values = np.where((minutes > start) & (minutes < end), np.nan, run.courses[tag])
    return run._replace(courses={**run.courses, tag: values})


def _without_rows(run: Run, start: float, end: float) -> Run:
    minutes = run.times / MINUTE
    kept = (minutes <= start) | (minutes >= end)
    courses = {tag: values[kept] for tag, values in run.courses.items()}
    return run._replace(times=run.times[kept], courses=courses)


def _power(run: Run, start: float, end: float) -> Run:
    return _noted(run, Event(POWER_LOST, start * MINUTE), Event(POWER_BACK, end * MINUTE))


def _doubt(run: Run, kind: str, tag: str, start: float, end: float, **more: object) -> Run:
    fault = Fault(
        kind, tag, (), start * MINUTE, end * MINUTE, "as the test says", "high", "kept"
    )._replace(**more)
    return run._replace(faults=(*run.faults, fault))


_FAST = ((0.0, 250.0), (30.0, 300.0), (50.0, 335.0), (75.0, 435.0), *_LINES[2:])
_FAST_TWICE = (*_FAST[:4], (120.0, 470.0), (135.0, 520.0), *_LINES[2:])
_FAST_DOWN = (*_LINES[:4], (430.0, 605.0), (650.0, 290.0))
_AGAIN = (*_FAST_DOWN[:5], (490.0, 560.0), (580.0, 705.0), (650.0, 705.0), (890.0, 290.0))
_SHORT = (*_LINES[:3], (370.0, 705.0), (610.0, 290.0))
_LONG = (*_LINES[:3], (430.0, 705.0), (670.0, 290.0))
_COLD = (*_LINES[:2], (250.0, 680.0), (420.0, 680.0), (645.0, 290.0))
_DOWN_AND_UP = (*_LINES[:3], (320.0, 705.0), (350.0, 600.0), (413.0, 705.0), (560.0, 705.0),
                (800.0, 290.0))  # fmt: skip
_BEGUN_ANEW = (*_LINES[:3], (320.0, 705.0), (530.0, 290.0), (780.0, 705.0), (925.0, 705.0),
               (1165.0, 290.0))  # fmt: skip
_SLOW = ((0.0, 250.0), (30.0, 300.0), (320.0, 705.0), (465.0, 705.0), (705.0, 290.0))


def _noisy(run: Run) -> Run:
    chance = np.random.RandomState(7)
    courses = {
        tag: values + chance.normal(0.0, 1.5, len(values)) for tag, values in run.courses.items()
    }
    return run._replace(courses=courses)


def _one_away(run: Run, tag: str) -> Run:
    return run._replace(courses={k: v for k, v in run.courses.items() if k != tag})


WAYS: dict[str, Callable[[], Run]] = {
    "sound": sound,
    "sound, every 5 s": lambda: sound(seconds=5.0),
    "sound, every 5 min": lambda: sound(seconds=300.0),
    "noise": lambda: _noisy(sound()),
    "too fast up": lambda: sound(_FAST),
    "too fast up twice": lambda: sound(_FAST_TWICE),
    "too fast up by one": lambda: moved(sound(), "T2", 40.0, 100.0, 160.0, 10.0),
    "too fast to the end": lambda: sound(_FAST[:4]),
    "too fast down": lambda: sound(_FAST_DOWN),
    "too fast down, held again": lambda: sound(_AGAIN),
    "too slow": lambda: sound(_SLOW),
    "held too short": lambda: sound(_SHORT),
    "held too long": lambda: sound(_LONG),
    "too cold": lambda: sound(_COLD),
    "one hot": lambda: moved(sound(), "T1", 14.5, 300.0, 320.0),
    "two hot, one twice": lambda: moved(
        moved(moved(sound(), "T1", 24.0, 300.0, 308.0), "T1", 19.0, 340.0, 349.0),
        "T3", 26.0, 344.0, 358.0),
    "hot beyond the lower critical": lambda: moved(sound(), "T2", 110.0, 300.0, 330.0, 5.0),
    "one cold": lambda: moved(sound(), "T3", -14.0, 310.0, 325.0),
    "two cold in turn": lambda: moved(
        moved(sound(), "T3", -24.0, 300.0, 311.0), "T2", -30.0, 350.0, 358.0),
    "one cold for long": lambda: moved(sound(), "T2", -40.0, 290.0, 370.0),
    "edge of the heated band cold": lambda: moved(sound(), "T4", -150.0, 200.0, 400.0, 30.0),
    "edge of the heated band hot": lambda: moved(sound(), "T4", 110.0, 200.0, 400.0, 30.0),
    "wide apart on the way": lambda: moved(sound(), "T3", -75.0, 120.0, 220.0, 40.0),
    "mean high": lambda: moved(moved(sound(), "T1", 9.0, 290.0, 380.0), "T2", 12.0, 290.0,
                                380.0),
    "mean low": lambda: _all_moved(sound(), -8.0, 290.0, 380.0),
    "one blank for a while": lambda: _blank(sound(), "T2", 310.0, 330.0),
    "one blank in the end": lambda: _blank(sound(), "T1", 500.0, 900.0),
    "one blank at first": lambda: _blank(sound(), "T3", -1.0, 60.0),
    "one not there": lambda: _one_away(sound(), "T3"),
    "one replaced": lambda: _noted(sound(), Event(REPLACED, 300 * MINUTE, "T1", "T1S")),
    "one replaced by another": lambda: _noted(sound(), Event(REPLACED, 300 * MINUTE, "T1", "T4")),
    "one replaced when blank": lambda: _noted(_blank(sound(), "T1", 300.0, 900.0),
                                              Event(REPLACED, 305 * MINUTE, "T1", "T1S")),
    "no rows for a while": lambda: _without_rows(sound(), 310.0, 330.0),
    "no rows twice, without power": lambda: _power(
        _without_rows(_without_rows(sound(), 140.0, 150.0), 310.0, 330.0), 311.0, 329.0),
    "power off in the hold": lambda: _power(sound(_DOWN_AND_UP), 320.0, 350.0),
    "power off in the hold, begun anew": lambda: _power(sound(_BEGUN_ANEW), 320.0, 335.0),
    "power off on the way": lambda: _power(sound(), 100.0, 115.0),
    "power off, never back": lambda: _noted(sound(), Event(POWER_LOST, 300 * MINUTE)),
    "power off in cooling": lambda: _power(_power(sound(), 450.0, 480.0), 500.0, 501.0),
    "cold in between, nothing noted": lambda: sound(_DOWN_AND_UP),
    "heated twice": lambda: sound(_BEGUN_ANEW),
    "heater lost": lambda: _noted(sound(), Event(HEATER_LOST, 280 * MINUTE, zone="top")),
    "heater lost and back": lambda: _noted(
        sound(), Event(HEATER_LOST, 280 * MINUTE, zone="bottom"),
        Event(HEATER_BACK, 300 * MINUTE, zone="bottom")),
    "heater loss seen": lambda: _doubt(sound(), HEATER_LOSS.name, "T2", 280.0, 330.0,
                                       zone="bottom", over=False),
    "clock set": lambda: sound()._replace(jumps=(Jump(300 * MINUTE, -90.0), Jump(420 * MINUTE,
                                                                                  30.0))),
    "clock jumped in a gap": lambda: _doubt(_without_rows(sound(), 310.0, 330.0), CLOCK_JUMP.name,
                                            "", 311.0, 330.0),
    "insulation opened hot": lambda: _noted(sound(), Event(INSULATION_OPENED, 560 * MINUTE)),
    "insulation opened cold": lambda: _noted(sound(), Event(INSULATION_OPENED, 630 * MINUTE)),
    "welded long before": lambda: sound()._replace(
        events=(Event(NOTE, -30 * 3600.0, text="End of welding"),)),
    "welded in the record": lambda: sound()._replace(
        events=(Event(NOTE, 5 * 60.0, text="start of welding"),
                Event(NOTE, 12 * 60.0, text="end of welding"))),
    "begins hot": lambda: sound(((0.0, 330.0), (20.0, 340.0), *_LINES[2:])),
    "begins cold": lambda: sound(((0.0, 20.0), (100.0, 250.0),
                                   *((at + 100.0, to) for at, to in _LINES[1:]))),
    "ends hot": lambda: sound((*_LINES[:4], (580.0, 402.0))),
    "without a date": lambda: sound()._replace(start=None),
    "after the calibration": lambda: sound()._replace(
        start=datetime(2027, 2, 28, 20, 0, tzinfo=ZoneInfo("Europe/Oslo")) + timedelta(days=1)),
    "one with two readings": lambda: moved(
        _blank(_blank(sound(), "T3", -1.0, 99.5), "T3", 101.5, 900.0), "T3", -9.0, 99.0, 103.0),
    "one with one reading": lambda: _blank(_blank(sound(), "T2", -1.0, 99.5), "T2", 100.5, 900.0),
    "beside the weld blank for a while": lambda: _blank(sound(), "T4", 300.0, 320.0),
    "nothing beside the weld": lambda: _one_away(sound(), "T4"),
    "just in range, just at the foot": lambda: _all_moved(sound(), -10.25, 270.0, 380.0, 4.0),
    "just at the top": lambda: _all_moved(sound(), 14.5, 300.0, 330.0),
    "cold to half the heat, heated twice": lambda: sound(
        (*_LINES[:4], (600.0, 345.0), (610.0, 345.0), (820.0, 705.0), (960.0, 705.0),
         (1200.0, 290.0))),
    "cold to a third of the heat, heated twice": lambda: sound(
        (*_LINES[:4], (660.0, 260.0), (670.0, 230.0), (690.0, 240.0), (960.0, 705.0),
         (1100.0, 705.0), (1360.0, 290.0))),
    "falls but a little without power": lambda: _power(
        _all_moved(sound(), -4.0, 320.0, 335.0, 5.0), 318.0, 345.0),
    "falls, and is back before the power": lambda: _power(
        _all_moved(sound(), -30.0, 318.0, 340.0, 9.0), 318.0, 360.0),
    "without power and readings": lambda: _power(
        _without_rows(_all_moved(sound(), -30.0, 318.0, 350.0, 9.0), 319.0, 345.0), 318.0, 346.0),
    "in the range again and again": lambda: moved(moved(moved(
        sound(), "T1", -40.0, 280.0, 292.0, 5.0), "T2", -40.0, 310.0, 340.0, 5.0),
        "T3", -40.0, 360.0, 370.0, 4.0),
    "a peak of one reading": lambda: moved(sound(), "T2", 25.0, 319.0, 321.0, 1.0),
    "cold all day": lambda: sound(((0.0, 150.0), (640.0, 155.0))),
}  # fmt: skip


def made(run: Run) -> Record:
    whole = record(run.courses, run.times, run.events, run.start)
    return whole._replace(jumps=run.jumps)


@cache
def judged(plan: str, way: str) -> Judgement:
    run = WAYS[way]()
    found = judge(made(run), PLANS[plan](), run.faults)
    for one in found.verdicts:
        one.actual = _steady(one.actual)
    return found
