"""A run of our own making, written straight into arrays: no model of metal, but its shape.

A part is heated from 20 degC at 150 K/h, held at 610 degC and cooled; two zones differ a little
while heating, the edges of the heated band follow slowly with two thirds of the rise.
"""

from functools import cache
from pathlib import Path

import numpy as np

from hts.generate import ROOT
from hts.job.compiler import compile_spec
from hts.language.model import Spec
from hts.record.plan import Plan, plan
from hts.record.reading.gaps import gaps
from hts.record.record import BLANK, READ, TEXT, FileRead, Floats, Record, Series
from tests.texts import examples

#: Zone and part of the rise of the thermocouples of specs/carbon-steel-butt.hts.
TAGS = {"T1": ("top", 1.0), "T2": ("bottom", 1.0), "T3": ("top", 0.99), "T4": ("bottom", 0.99)}
EDGES = {"T5": ("top", 0.66), "T6": ("bottom", 0.66), "T7": ("top", 0.66)}
AIR, HOLD = 20.0, 610.0


@cache
def stress_relief() -> Plan:
    path = str(Path(ROOT, "specs", "carbon-steel-butt.hts"))
    loader = examples()
    return plan(compile_spec(Spec(loader.read(path), loader)), None, "stress-relief")


def times(interval: float = 30.0) -> Floats:
    return np.arange(0.0, 12.5 * 3600, interval)


def readings(
    interval: float = 30.0, noise: float = 0.25, resolution: float = 0.1, seed: int = 1
) -> dict[str, Floats]:
    """Per thermocouple, degC."""
    random = np.random.default_rng(seed)
    at = times(interval)
    top = np.interp(at / 3600, [0, 0.3, 4.2, 6.5, 12.5], [AIR, AIR, HOLD, HOLD, 80.0])
    # The lower zone lags a little in the ramp and catches up in the hold.
    wave = 6 * np.sin(at / 3600 * 2.1) * (top - AIR) / HOLD
    zones = {"top": top + wave, "bottom": top - wave}
    found = {}
    for tag, (zone, part) in (TAGS | EDGES).items():
        course = AIR + (zones[zone] - AIR) * part
        if tag in EDGES:
            course = late(at, course, 900.0)
        course = course + random.normal(0.0, noise, at.size) + random.normal(0.0, 0.5)
        found[tag] = np.round(course / resolution) * resolution
    return found


def late(at: Floats, course: Floats, lag: float) -> Floats:
    """The course as what lags behind by a time constant follows it."""
    out = course.copy()
    keep = float(np.exp(-(at[1] - at[0]) / lag))
    for row in range(1, at.size):
        out[row] = course[row] + (out[row - 1] - course[row]) * keep
    return out


def record(
    values: dict[str, Floats],
    interval: float = 30.0,
    elapsed: Floats | None = None,
    texts: dict[str, list[int]] | None = None,
    blanks: dict[str, list[int]] | None = None,
) -> Record:
    """A record of these readings; `texts` and `blanks` are rows without one."""
    at = times(interval) if elapsed is None else elapsed
    series = {}
    for tag, course in values.items():
        course = course.copy()
        status = np.where(np.isfinite(course), READ, BLANK).astype(np.uint8)
        for rows, mark in ((texts or {}, TEXT), (blanks or {}, BLANK)):
            status[rows.get(tag, [])] = mark
            course[rows.get(tag, [])] = np.nan
        series[tag] = Series(tag, course, status, tag, "degC")
    step = float(np.median(np.diff(at)))
    file = FileRead("log.csv", "0" * 64, at.size)
    return Record(at, None, series, {}, (), (), step, gaps(at, step), (file,), False)
