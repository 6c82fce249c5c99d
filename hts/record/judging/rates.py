"""Heating and cooling rates, against limits that hang on temperature.

The rates are those of the straight stretches the readings lie on (hts.record.judging.corners). A
limit is taken as the least time that a change of temperature may take: where no rate is limited a
change takes no time, so a window that reaches into a free stretch is judged by the part of it that
is limited, and windows across several limits need no special case.

Where no time over the limit is tolerated, the rate over the window decides. Where one is, the time
the rate itself was over the limit does, whatever the window.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from hts.job.compiler.program import PREHEAT
from hts.job.compiler.why import Why
from hts.record.judging.courses import (
    COVERAGE,
    SAME,
    Course,
    Range,
    Windows,
    courses,
    windows_of,
    windows_over,
)
from hts.record.judging.evidence import Evidence, draw_lines
from hts.record.judging.hidden_rates import Hidden, Hiding, look_together, smallest_seen
from hts.record.judging.limits import Piece, counted_from, limit_at, pieces
from hts.record.judging.line import Line
from hts.record.judging.spells import spells
from hts.record.judging.stretches import touch, union
from hts.record.judging.verdict import MET, NOT_SHOWN, Failure, HoldClock, Outcome, Stretch, Verdict
from hts.record.judging.words import time
from hts.record.plan import COOL, HEAT, Bound, Plan, Watched

#: Parts of a limit beyond it that do not show in the readings: told, and too coarse to show that
#: the limit was kept. Basis: practice, ours.
_TELLING, _TOO_COARSE = 0.1, 0.5


class Fastest(NamedTuple):
    """The fastest rate of a thermocouple over the window where it is limited: `rate` K/h, `unsure`
    K/h either side of it, `times` the limit; over the window that begins at `at`, s."""

    times: float
    rate: float
    unsure: float
    tag: str
    at: float


class _Moved(NamedTuple):
    """A required thermocouple along its course, the windows that its rate is told over, and when it
    was over its limit for as long as matters; `worst` is the number of the fastest window."""

    watched: Watched
    line: Line
    course: Course
    windows: Windows
    over: list[Stretch]
    worst: int

    @property
    def times(self) -> float:
        """The fastest rate, times the limit."""
        return float(self.windows.ratio[self.worst])


class _Fast(NamedTuple):
    """A time a thermocouple was too fast; `decided` what follows from it, None: tolerated."""

    failure: Failure
    decided: Outcome | None


class Moved(NamedTuple):
    """`by_action`, of those that are limited: the required thermocouples that moved that way.
    `hiding` is what these may hide."""

    by_action: dict[str, list[_Moved]]
    hiding: Hiding


def moved(runs: Sequence[tuple[Evidence, Sequence[HoldClock]]]) -> list[Moved]:
    """Of each run with its clocks; those of one plan are looked at together."""
    of_plan: dict[int, list[int]] = {}
    for at, (evidence, _) in enumerate(runs):
        of_plan.setdefault(id(evidence.plan), []).append(at)
    limited = [
        (some, action, limits)
        for some in of_plan.values()
        for action in (HEAT, COOL)
        if (limits := pieces(runs[some[0]][0].plan, action))
    ]
    draw_lines([runs[at][0] for some, _, _ in limited for at in some])
    by_action: list[dict[str, list[_Moved]]] = [{} for _ in runs]
    for some, action, limits in limited:
        its = _moved([runs[at] for at in some], action, limits)
        for at, one in zip(some, its, strict=True):
            by_action[at][action] = one
    hiding = [Hiding(run, _reach(run.plan)) for run, _ in runs]
    for some in of_plan.values():
        look_together([hiding[at] for at in some if by_action[at]])
    return [Moved(*its) for its in zip(by_action, hiding, strict=True)]


def verdicts(evidence: Evidence, clocks: list[HoldClock], moved: Moved) -> list[Verdict]:
    """A verdict on heating and one on cooling, where the program limits their rate."""
    return [
        _verdict(evidence, clocks, action, one, moved.hiding)
        for action, one in moved.by_action.items()
    ]


def _allowed(plan: Plan) -> list[Bound]:
    return [b for b in (plan.rate_excursion_each, plan.rate_excursion_total) if b is not None]


def _reach(plan: Plan) -> float:
    """s. The least time over which a rate that is too fast matters."""
    return max(1.0, min([plan.window.value, *(bound.value for bound in _allowed(plan))]))


def _verdict(
    evidence: Evidence,
    clocks: list[HoldClock],
    action: str,
    moved: list[_Moved],
    hiding: Hiding,
) -> Verdict:
    plan, words = evidence.plan, evidence.words
    reach, limits = _reach(plan), pieces(plan, action)
    fast: list[_Fast] = []
    for one in moved:
        if one.over:
            judged = _tolerating if _allowed(plan) else _strictly
            fast += judged(evidence, one, limits)
        if tilted := hiding.found(one.watched.tag, one.line, one.course, limits):
            fast.append(_unexplained(evidence, one.watched, tilted))
    coarsest = max(
        (smallest_seen(one.line, evidence.record.interval, reach) for one in moved), default=0.0
    )
    specified = "; ".join(_limit_words(evidence, piece) for piece in limits)
    specified += f", over {words.limit(plan.window.written)}"
    for bound, how in ((plan.rate_excursion_each, "each time"),
                       (plan.rate_excursion_total, "in total")):  # fmt: skip
        if bound is not None:
            specified += f", beyond it no longer than {words.limit(bound.written)} {how}"
    counted = [one for one in fast if one.decided is not None]
    failed = any(one.decided != NOT_SHOWN for one in counted)
    outcome, blanks = evidence.outcome(failed, *_phase(evidence, clocks, action))
    if counted and not failed:
        outcome = NOT_SHOWN
    if not moved:
        actual, outcome = "no part of the record shows it", NOT_SHOWN
    else:
        quickest = max(moved, key=lambda one: one.times)
        _, rate, unsure, tag, at = _fastest(quickest, limits, plan.window.value)
        at_limit = limit_at(limits, evidence.reading(tag, at + plan.window.value)).limit
        actual = (
            f"fastest {words.rate(rate, at_limit)} ({evidence.name(tag, at)}) from "
            f"{evidence.clock(at)}"
        )
        if unsure >= 0.5:
            actual += f", to within {words.rate(unsure)}"
        if fast and not counted:
            often = "once" if len(fast) == 1 else f"{len(fast)} times"
            actual += f"; {often} beyond the limit within the allowance"
        if coarsest > _TELLING * at_limit:
            actual += (
                f"; {words.rate(coarsest)} more for {time(reach)} would not show in these readings"
            )
            if outcome == MET and coarsest > _TOO_COARSE * at_limit:
                outcome = NOT_SHOWN
        actual += blanks
    return Verdict(
        "heating rate" if action == HEAT else "cooling rate",
        plan.address,
        specified,
        actual,
        outcome,
        None,
        tuple(sorted((one.failure for one in counted), key=lambda one: one.start)),
        _why(limits),
    )


def fastest_of_each(
    evidence: Evidence, clocks: Sequence[HoldClock], action: str
) -> dict[str, Fastest]:
    """By tag, for the required thermocouples whose rate shows; empty where none is limited."""
    limits = pieces(evidence.plan, action)
    its = _moved([(evidence, clocks)], action, limits)[0] if limits else []
    return {one.watched.tag: _fastest(one, limits, evidence.plan.window.value) for one in its}


def _moved(
    runs: Sequence[tuple[Evidence, Sequence[HoldClock]]], action: str, limits: list[Piece]
) -> list[list[_Moved]]:
    """Of each of some runs of one plan."""
    plan = runs[0][0].plan
    whose: list[tuple[int, Watched]] = []
    lines: list[Line] = []
    for at, (evidence, _) in enumerate(runs):
        for one, line in zip(evidence.required, evidence.lines, strict=True):
            if line is not None:
                whose.append((at, one))
                lines.append(line)
    ranges = [_ranges(evidence, clocks) for evidence, clocks in runs]
    along = courses(lines, limits, 1.0 if action == HEAT else -1.0, [ranges[at] for at, _ in whose])
    every = windows_of(along, plan.window.value)
    over = windows_over(along, _reach(plan))
    found: list[list[_Moved]] = [[] for _ in runs]
    for (at, one), line, its, windows, spans in zip(whose, lines, along, every, over, strict=True):
        worst = int(np.argmax(windows.ratio)) if len(windows.ratio) else None
        if worst is not None and windows.ratio[worst] > 0:
            found[at].append(_Moved(one, line, its, windows, spans, worst))
    return found


def _ranges(evidence: Evidence, clocks: Sequence[HoldClock]) -> list[Range]:
    # A preheat goes on after its soak, and then the arc heats as well.
    end = evidence.record.end if evidence.plan.kind == PREHEAT else 0.0
    return [
        Range(clock.low, clock.high, Stretch(clock.arrived, max(clock.left, end)))
        for clock in clocks
        if clock.arrived is not None and clock.left is not None
    ]


def _fastest(one: _Moved, limits: list[Piece], seconds: float) -> Fastest:
    at = float(one.windows.starts[one.worst])
    rate = _rate(one.course, limits, at, seconds, one.times)
    unsure = COVERAGE * float(one.windows.slack[one.worst])
    return Fastest(
        one.times, rate, unsure * _limit(one.course, limits, at, seconds), one.watched.tag, at
    )


def _phase(evidence: Evidence, clocks: list[HoldClock], action: str) -> Stretch:
    """From when to when the part is heated, or cooled, as far as its limits are concerned."""
    arrived = [clock.arrived for clock in clocks if clock.arrived is not None]
    left = [clock.left for clock in clocks if clock.left is not None]
    start, end = evidence.controlled
    if action == HEAT:
        return Stretch(start, max(arrived, default=end))
    return Stretch(max(left, default=start), end)


def _limit(found: Course, limits: list[Piece], start: float, seconds: float) -> float:
    top = float(max(np.interp((start, start + seconds), found.times, found.values)))
    return limit_at(limits, top).limit


def _rate(found: Course, limits: list[Piece], start: float, seconds: float, ratio: float) -> float:
    """K/h over a window, positive in the direction of the action."""
    rate = abs(found.rise(start, start + seconds))
    # A window partly in a free stretch is not faster than the limit over all of it.
    return max(rate, ratio * _limit(found, limits, start, seconds)) if ratio > 1 else rate


def _strictly(evidence: Evidence, one: _Moved, limits: list[Piece]) -> list[_Fast]:
    """Each time the rate over the window was over the limit."""
    seconds = evidence.plan.window.value
    found, (starts, ratio, slack) = one.course, one.windows
    fast = []
    for stretch in one.over:
        mine = np.flatnonzero(
            (starts >= stretch.start - 1.0) & (starts + seconds <= stretch.end + 1.0)
        )
        worst = int(mine[np.argmax(ratio[mine])]) if len(mine) else one.worst
        said = _said(evidence, one, limits, float(starts[worst]), float(ratio[worst]), stretch)
        sure = ratio[worst] - COVERAGE * slack[worst] > 1 + SAME
        if not sure:
            unsure = COVERAGE * float(slack[worst]) * _limit(found, limits, starts[worst], seconds)
            said += f": no more than its uncertainty of {evidence.words.rate(unsure)} over it"
        failure = Failure((one.watched.tag,), stretch.start, stretch.end, said)
        fast.append(_Fast(failure, "not met" if sure else NOT_SHOWN))
    return fast


def _tolerating(evidence: Evidence, one: _Moved, limits: list[Piece]) -> list[_Fast]:
    """Each time the rate itself was over the limit, against what is tolerated."""
    plan, found = evidence.plan, one.course
    its = [spell for spell in spells(found) if any(touch(spell.when, w) for w in one.over)]
    each, whole = plan.rate_excursion_each, plan.rate_excursion_total
    sum_of = sum(spell.when.length for spell in its)
    doubt = float(np.sqrt(sum(spell.doubt**2 for spell in its)))
    in_all = _against(sum_of, sum(spell.sure for spell in its), doubt, whole)
    fast = []
    for spell in its:
        when = spell.when
        limit = each or whole
        assert limit is not None
        ratio = float(np.max(found.ratio[_within(found, when)]))
        said = _said(evidence, one, limits, when.start, ratio, when, over=when.length)
        said += f": {time(when.length, limit.value)} too fast"
        if COVERAGE * spell.doubt >= 0.5:
            said += f", to within {time(COVERAGE * spell.doubt)}"
        if len(its) > 1 and whole is not None:
            said += f", {time(sum_of, whole.value)} in all"
        decided = {_against(when.length, spell.sure, spell.doubt, each), in_all} - {None}
        outcome: Outcome | None = "not met" if "not met" in decided else None
        if outcome is None and decided:
            outcome = NOT_SHOWN
        fast.append(_Fast(Failure((one.watched.tag,), when.start, when.end, said), outcome))
    return fast


def _unexplained(evidence: Evidence, one: Watched, tilted: Hidden) -> _Fast:
    """Readings that bend in a way that no stretches could be made out in."""
    words, when = evidence.words, tilted.when
    said = (
        f"{evidence.name(one.tag, when.start)} was {words.rate(tilted.rate)} faster, give or take "
        f"{words.rate(tilted.unsure)}, than the stretches that show in its readings, from "
        f"{evidence.clock(when.start)} to {evidence.clock(when.end)}: how long it was over the "
        "limit does not show"
    )
    return _Fast(Failure((one.tag,), when.start, when.end, said), NOT_SHOWN)


def _against(seconds: float, sure: float, doubt: float, bound: Bound | None) -> Outcome | None:
    """None where a time is surely within its allowance; `sure` s of it was surely too fast."""
    if bound is None or seconds + COVERAGE * doubt <= bound.value + 1e-3:
        return None
    return "not met" if sure - COVERAGE * doubt > bound.value else NOT_SHOWN


def _within(found: Course, when: Stretch) -> slice:
    first = int(np.searchsorted(found.times, when.start - 1e-9))
    return slice(first, max(first + 1, int(np.searchsorted(found.times, when.end - 1e-9))))


def _said(
    evidence: Evidence,
    one: _Moved,
    limits: list[Piece],
    start: float,
    ratio: float,
    stretch: Stretch,
    over: float | None = None,
) -> str:
    words, window = evidence.words, evidence.plan.window
    seconds = window.value if over is None else over
    top = float(max(np.interp((start, start + seconds), one.course.times, one.course.values)))
    limit = limit_at(limits, top)
    rate = max(abs(one.course.rise(start, start + seconds)) if over is None else 0.0,
               ratio * limit.limit)  # fmt: skip
    tag = evidence.name(one.watched.tag, stretch.start)
    verb = "rose" if limit.span.action == HEAT else "fell"
    over_what = f" over {words.limit(window.written)}" if over is None else ""
    return (
        f"{tag} {verb} {words.rate(rate, limit.limit)}{over_what}, limit "
        f"{words.rate(limit.limit)}{counted_from(words, limit)}, "
        f"from {evidence.clock(stretch.start)} to {evidence.clock(stretch.end)}"
    )


def _limit_words(evidence: Evidence, piece: Piece) -> str:
    words = evidence.words
    limit = piece.span.step.limit
    assert limit is not None
    shown = f"at most {words.limit(limit)}{counted_from(words, piece)}"
    return shown if piece.high == np.inf else f"{shown} to {words.edge(piece.high)}"


def _why(limits: list[Piece]) -> Why | None:
    return min(limits, key=lambda piece: piece.limit).span.step.limit_why


def too_fast(verdicts: list[Verdict], action: str) -> list[Stretch]:
    """When heating, or cooling, was too fast, for the rule on what is done then."""
    return union(
        Stretch(failure.start, failure.end)
        for verdict in verdicts
        if verdict.requirement == f"{action}ing rate"
        for failure in verdict.failures
    )
