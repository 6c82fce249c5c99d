"""Heating and cooling rates, against limits that hang on temperature.

The rates are those of the straight stretches the readings lie on (hts.record.judging.corners). A
limit is taken as the least time that a change of temperature may take: where no rate is limited a
change takes no time, so a window that reaches into a free stretch is judged by the part of it that
is limited, and windows across several limits need no special case.

Where no time over the limit is tolerated, the rate over the window decides. Where one is, the time
the rate itself was over the limit does, whatever the window.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.job.compiler.why import Why
from hts.record.judging.courses import COVERAGE, SAME, Course
from hts.record.judging.evidence import Evidence
from hts.record.judging.hidden_rates import TOO_COARSE, Hidden, Hiding, smallest_seen
from hts.record.judging.limits import Piece, counted_from, limit_at, pieces
from hts.record.judging.moving import (
    Along,
    Fastest,
    Moved,
    allowed,
    fastest_of_all,
    limit_of_window,
    moved_along,
    reach,
)
from hts.record.judging.spells import spells
from hts.record.judging.stretches import touch, union
from hts.record.judging.verdict import MET, NOT_SHOWN, Failure, HoldClock, Outcome, Stretch, Verdict
from hts.record.judging.words import time
from hts.record.plan import HEAT, Bound, Watched

#: Parts of a limit beyond it that do not show in the readings and are told. Basis: practice, ours.
_TELLING = 0.1


class _Fast(NamedTuple):
    """A time a thermocouple was too fast; `decided` what follows from it, None: tolerated."""

    failure: Failure
    decided: Outcome | None


def verdicts(evidence: Evidence, clocks: list[HoldClock], moved: Moved) -> list[Verdict]:
    """A verdict on heating and one on cooling, where the program limits their rate."""
    return [
        _verdict(evidence, clocks, action, one, moved.hiding)
        for action, one in moved.by_action.items()
    ]


def _verdict(
    evidence: Evidence,
    clocks: list[HoldClock],
    action: str,
    moved: list[Along] | None,
    hiding: Hiding,
) -> Verdict:
    plan, limits = evidence.plan, pieces(evidence.plan, action)
    fast = _all_fast(evidence, moved, limits, hiding) if moved else []
    counted = [one for one in fast if one.decided is not None]
    failed = any(one.decided != NOT_SHOWN for one in counted)
    outcome, blanks = evidence.outcome(failed, *_phase(evidence, clocks, action))
    if counted and not failed:
        outcome = NOT_SHOWN
    if moved is not None and outcome == MET and _too_coarse(evidence, moved, limits):
        outcome = NOT_SHOWN

    def actual() -> str:
        its = moved
        if its is None:
            (its,) = moved_along([(evidence, clocks)], action, limits)
        return _actual(evidence, its, limits, fast) + (blanks if its else "")

    return Verdict(
        "heating rate" if action == HEAT else "cooling rate",
        plan.address,
        lambda: _specified(evidence, limits),
        actual,
        outcome,
        None,
        tuple(sorted((one.failure for one in counted), key=lambda one: one.start)),
        _why(limits),
    )


def _all_fast(
    evidence: Evidence, moved: list[Along], limits: list[Piece], hiding: Hiding
) -> list[_Fast]:
    found: list[_Fast] = []
    for one in moved:
        if one.over:
            judged = _tolerating if allowed(evidence.plan) else _strictly
            found += judged(evidence, one, limits)
        if tilted := hiding.found(one.watched.tag, one.line, one.course, limits):
            found.append(_unexplained(evidence, one.watched, tilted))
    return found


def _specified(evidence: Evidence, limits: list[Piece]) -> str:
    plan, words = evidence.plan, evidence.words
    specified = "; ".join(_limit_words(evidence, piece) for piece in limits)
    specified += f", over {words.limit(plan.window.written)}"
    for bound, how in ((plan.rate_excursion_each, "each time"),
                       (plan.rate_excursion_total, "in total")):  # fmt: skip
        if bound is not None:
            specified += f", beyond it no longer than {words.limit(bound.written)} {how}"
    return specified


def _coarsest(evidence: Evidence, moved: list[Along]) -> float:
    """K/h, the most that does not show in the readings of one of them."""
    interval, seconds = evidence.record.interval, reach(evidence.plan)
    return max(smallest_seen(one.line.noise, one.line.digit, interval, seconds) for one in moved)


def _limit_of_fastest(evidence: Evidence, fastest: Fastest, limits: list[Piece]) -> float:
    after = fastest.at + evidence.plan.window.value
    return limit_at(limits, evidence.reading(fastest.tag, after)).limit


def _too_coarse(evidence: Evidence, moved: list[Along], limits: list[Piece]) -> bool:
    """Whether nothing is shown of the rates: where they moved so little that none is told, too."""
    if not moved:
        return True
    coarsest = _coarsest(evidence, moved)
    if coarsest <= TOO_COARSE * min(piece.limit for piece in limits):
        return False
    fastest = fastest_of_all(moved, limits, evidence.plan.window.value)
    return coarsest > TOO_COARSE * _limit_of_fastest(evidence, fastest, limits)


def _actual(evidence: Evidence, moved: list[Along], limits: list[Piece], fast: list[_Fast]) -> str:
    if not moved:
        return "no part of the record shows it"
    plan, words = evidence.plan, evidence.words
    fastest = fastest_of_all(moved, limits, plan.window.value)
    at_limit, coarsest = _limit_of_fastest(evidence, fastest, limits), _coarsest(evidence, moved)
    actual = (
        f"fastest {words.rate(fastest.rate, at_limit)} ({evidence.name(fastest.tag, fastest.at)}) "
        f"from {evidence.clock(fastest.at)}"
    )
    if fastest.unsure >= 0.5:
        actual += f", to within {words.rate(fastest.unsure)}"
    if fast and all(one.decided is None for one in fast):
        often = "once" if len(fast) == 1 else f"{len(fast)} times"
        actual += f"; {often} beyond the limit within the allowance"
    if coarsest > _TELLING * at_limit:
        more = f"{words.rate(coarsest)} more for {time(reach(plan))}"
        actual += f"; {more} would not show in these readings"
    return actual


def _phase(evidence: Evidence, clocks: list[HoldClock], action: str) -> Stretch:
    """From when to when the part is heated, or cooled, as far as its limits are concerned."""
    arrived = [clock.arrived for clock in clocks if clock.arrived is not None]
    left = [clock.left for clock in clocks if clock.left is not None]
    start, end = evidence.controlled
    if action == HEAT:
        return Stretch(start, max(arrived, default=end))
    return Stretch(max(left, default=start), end)


def _strictly(evidence: Evidence, one: Along, limits: list[Piece]) -> list[_Fast]:
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
            unsure = (
                COVERAGE
                * float(slack[worst])
                * limit_of_window(found, limits, starts[worst], seconds)
            )
            said += f": no more than its uncertainty of {evidence.words.rate(unsure)} over it"
        failure = Failure((one.watched.tag,), stretch.start, stretch.end, said)
        fast.append(_Fast(failure, "not met" if sure else NOT_SHOWN))
    return fast


def _tolerating(evidence: Evidence, one: Along, limits: list[Piece]) -> list[_Fast]:
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
    one: Along,
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
