"""When the rate along a course was over its limit, and how well that is known."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.record.judging.courses import COVERAGE, HOUR, SAME, Course
from hts.record.judging.stretches import runs
from hts.record.judging.verdict import Stretch

#: s. Slower for no longer, and not surely, is no end of a spell. Basis: practice, no source.
_MOMENT = 120.0
#: s. A stretch no longer than this may be the bend between a slower and a faster one; and the part
#: of it that is the standard uncertainty of when in it the limit was passed. Basis: practice.
_BENDS, _WITHIN = 180.0, 0.0625


class Spell(NamedTuple):
    """A time on end that a rate was over its limit; `doubt` s is the standard uncertainty of its
    length, and `sure` s how much of it is by more than the uncertainty of the rate."""

    when: Stretch
    doubt: float
    sure: float


def spells(found: Course) -> list[Spell]:
    """When the rate was over its limit."""
    ratio = found.ratio
    over = ratio > 1 + SAME
    # A moment that may have been as fast as the rest does not make two spells of one.
    unsure = ratio + COVERAGE * found.slack > 1
    for first, last in runs(~over):
        short = found.times[last + 1] - found.times[first] <= _MOMENT
        if first > 0 and last + 1 < len(over) and short and unsure[first : last + 1].all():
            over[first : last + 1] = True
    found_spells = []
    for first, last in runs(over):
        start, at_start = _passed(found, first, -1)
        end, at_end = _passed(found, last, 1)
        # Both ends hang on the slope of the stretch between: where it is read too low, one comes
        # too early and the other too late. The errors of a line at its two ends go against each
        # other by a half (least squares), which makes the ends part by as much (derived).
        doubt = np.sqrt(at_start**2 + at_end**2 + at_start * at_end)
        within = found.times[first : last + 2].clip(start, end)
        perhaps = np.diff(within)[(ratio - COVERAGE * found.slack <= 1)[first : last + 1]]
        sure = end - start - float(np.sum(perhaps))
        found_spells.append(Spell(Stretch(start, end), float(doubt), sure))
    return found_spells


def _passed(found: Course, outermost: int, side: int) -> tuple[float, float]:
    """When the rate passed its limit at one end of a spell, and the standard uncertainty of that,
    s; `outermost` is the stretch at that end, and `side` -1 where it is the beginning.

    The rate of metal bends and does not jump, and what measures it follows late: between a stretch
    under the limit and one over it lies a short one in between. In it the rate goes from the one
    to the other as the power of time that makes its mean (derived).
    """
    ratio = found.ratio
    edge = outermost + (side > 0)
    # The short stretch is itself over the limit, or the next one outside.
    for at in (outermost, outermost + side):
        if not 0 <= at < len(ratio):
            continue
        begins, ends = float(found.times[at]), float(found.times[at + 1])
        length = ends - begins
        before = _mean(found, begins - _BENDS, begins)
        after = _mean(found, ends, ends + _BENDS)
        slow, fast = (before, after) if side < 0 else (after, before)
        if length > _BENDS or not slow < min(1.0, ratio[at]) <= max(1.0, ratio[at]) < fast:
            continue
        share = (float(ratio[at]) - slow) / (fast - slow)
        under = ((1.0 - slow) / (fast - slow)) ** (share / (1.0 - share)) * length
        moment = begins + under if side < 0 else ends - under
        # Each of its corners moves that by its part of the change: one between rates that are
        # nearly the same is hard to place, and matters little.
        inner = (fast - float(ratio[at])) / (fast - slow)
        outer, inside = (at, at + 1) if side < 0 else (at + 1, at)
        doubts = ((1.0 - inner) * found.doubt[outer], inner * found.doubt[inside], _WITHIN * length)
        return moment, float(np.linalg.norm(doubts))
    return float(found.times[edge]), float(found.doubt[edge])


def _mean(found: Course, start: float, end: float) -> float:
    """How many times faster than allowed it was on the mean from one time to another."""
    start, end = max(start, float(found.times[0])), min(end, float(found.times[-1]))
    if end <= start:
        return float("nan")
    hours = np.concatenate(([0.0], np.cumsum(found.needed)))
    first, last = np.interp((start, end), found.times, hours)
    return float((last - first) / (end - start) * HOUR)
