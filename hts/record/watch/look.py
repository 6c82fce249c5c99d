"""What a record says at its last row."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from hts.record.faults.fault_kinds import BY_NAME
from hts.record.judging import HoldClock, Judgement, judge
from hts.record.judging.evidence import Evidence
from hts.record.judging.limits import pieces
from hts.record.judging.words import Words
from hts.record.plan import COOL, HEAT, HOLD, Plan, Span, Watched
from hts.record.record import Gap, Record
from hts.record.watch.alarms import Due, alarms, stands
from hts.record.watch.standing_in import standing_in
from hts.record.watch.view import Row, View

if TYPE_CHECKING:
    from hts.record.faults import Fault


_BELOW = "below the end of control"


def look(
    record: Record,
    plan: Plan,
    faults: tuple[Fault, ...],
    today: str | None = None,
    ahead: tuple[Gap, ...] = (),
    besides: tuple[str, ...] = (),
) -> View:
    """The view at the last row; `record` is without the readings `faults` set aside, `ahead` are
    the gaps that only its clock made (hts.record.watch.pace), `besides` further alarms."""
    evidence = Evidence(record, plan, faults)
    judgement = judge(record, plan, faults, today)
    # What goes on is told with others in the place of those that are lost; what counts is not.
    instead = standing_in(evidence)
    seen, with_them = evidence, judgement
    if instead:
        present = record._replace(events=(*record.events, *instead))
        seen, with_them = Evidence(present, plan, faults), judge(present, plan, faults, today)
    due, open_hold = _due(with_them), _due(judgement)
    rows = tuple(_row(evidence, thermocouple, due, faults) for thermocouple in plan.watched)
    rows = tuple(row for row in rows if row.tag in record.series or row.duty != "spare")
    told = due or open_hold
    clock = _clock_of(judgement, told)
    counting, there = _runs(record, clock), _runs(record, due.clock if due is not None else clock)
    over = _over(seen)
    stood = None if there or over or clock is None else clock.total
    phase, then = _phase(seen, due, there, open_hold, counting)
    left = None
    if clock is not None and clock.least is not None:
        left = max(0.0, clock.least - clock.total)
    return View(
        plan.address,
        record.clock(record.end),
        record.end,
        len(record.elapsed),
        phase,
        then,
        clock.total if clock is not None else None,
        clock.least if clock is not None else None,
        left,
        counting,
        rows,
        (*besides, *alarms(seen, evidence, with_them, rows, due, stood, ahead)),
        (*record.assumed, *judgement.assumed),
        record.simulated,
        _step(seen, due),
        _ends(evidence, clock, left, counting),
        "" if over else stands(evidence, told, counting, instead),
    )


def _over(evidence: Evidence) -> bool:
    """Whether the run came to its end: colder than the end of control, after it was hotter."""
    end, hottest = evidence.plan.control_end, _hottest(evidence)
    return end is not None and hottest is not None and hottest < end <= _peak(evidence)


def _clock_of(judgement: Judgement, due: Due | None) -> HoldClock | None:
    """The clock that counts, of the hold that is told of."""
    if due is None:
        return judgement.hold
    ranges = [(clock.low, clock.high) for clock in judgement.holds]
    return judgement.holds[ranges.index((due.clock.low, due.clock.high))]


def _runs(record: Record, clock: HoldClock | None) -> bool:
    return clock is not None and any(
        interval.end >= record.end - 1e-6 for interval in clock.intervals
    )


def _step(evidence: Evidence, due: Due | None) -> str:
    """The step that goes on, as the sheet says it."""
    plan, words = evidence.plan, evidence.words
    if due is None or due.clock.arrived is not None:
        return _said(words, due.span if due is not None else _after(plan, None))
    hottest = _hottest(evidence)
    before = [one for one in plan.spans if one.number < due.span.number and one.action == HEAT]
    here = next(
        (one for one in before if hottest is None or one.end is None or hottest < one.end), None
    )
    return _said(words, here or due.span)


def _ends(evidence: Evidence, clock: HoldClock | None, left: float | None, counting: bool) -> str:
    """The time of day a hold that counts is complete; nothing where none does."""
    if clock is None or not left or not counting:
        return ""
    return evidence.clock(evidence.record.end + left)


def _due(judgement: Judgement) -> Due | None:
    """The first hold that is not complete; None when all are."""
    holds = [span for span in judgement.plan.spans if span.action == HOLD]
    for clock in judgement.holds:
        complete = clock.arrived is not None and (
            clock.least is None or clock.total >= clock.least - 1e-3
        )
        if not complete:
            span = next((s for s in holds if (s.low, s.high) == (clock.low, clock.high)), None)
            if span is not None:
                return Due(span, clock)
    return None


def _phase(
    evidence: Evidence, due: Due | None, counting: bool, open_hold: Due | None, runs: bool
) -> tuple[str, str]:
    """What goes on and what follows; `open_hold` is the hold whose time has not counted, and `runs`
    whether its clock does, which it may not though all that read are in range."""
    plan, words = evidence.plan, evidence.words
    hottest, end = _hottest(evidence), plan.control_end
    if due is None:
        if end is not None and hottest is not None and hottest < end:
            if open_hold is not None:
                return _BELOW, f"the hold of step {open_hold.span.number} was not shown"
            return _BELOW, "nothing: the run can be ended"
        if counting:
            return "held long enough", _said(words, _after(plan, None))
        return "cooling", f"end of control at {words.edge(end)}" if end is not None else ""
    following = _said(words, _after(plan, due.span))
    hold = f"hold, step {due.span.number}"
    if counting:
        here = "the clock runs" if open_hold is None or runs else "in range, but the clock stands"
        return f"{hold}: {here}", following
    if due.clock.arrived is not None:
        if end is not None and hottest is not None and hottest < end:
            return _BELOW, f"the hold of step {due.span.number} was not shown"
        return f"{hold}: interrupted", f"back into {_range(words, due.span)}"
    start, peak = plan.control_start, _peak(evidence)
    if end is not None and hottest is not None and hottest < end and peak >= due.clock.low:
        return _BELOW, f"the hold of step {due.span.number} was not shown"
    if start is not None and peak < start:
        return "before the start of control", f"start of control at {words.edge(start)}"
    return f"heating to step {due.span.number}", f"hold in {_range(words, due.span)}"


def _after(plan: Plan, span: Span | None) -> Span | None:
    """The step that follows a hold; the last cooling where no hold is due."""
    if span is None:
        return next((one for one in plan.spans if one.action == COOL), None)
    return next((one for one in plan.spans if one.number > span.number), None)


def _said(words: Words, span: Span | None) -> str:
    if span is None:
        return "nothing: the program ends"
    if span.action == HOLD:
        return f"hold in {_range(words, span)}"
    to = f" to {words.edge(span.end)}" if span.end is not None else ""
    rate = f" at most {words.rate(span.limit)}" if span.limit is not None else ""
    return f"{span.action}{to}{rate}"


def _range(words: Words, span: Span) -> str:
    assert span.step.window is not None
    return words.range(span.step.window)


def _row(
    evidence: Evidence, thermocouple: Watched, due: Due | None, faults: tuple[Fault, ...]
) -> Row:
    record = evidence.record
    series = record.series.get(thermocouple.tag)
    value = float(series.values[-1]) if series is not None else float("nan")
    known = not np.isnan(value)
    by, stands_for = evidence.taken_over.get(thermocouple.tag), evidence.duty_of(thermocouple)
    required = stands_for.required and by is None
    rate, limit = _rate(evidence, thermocouple) if by is None else (None, None)
    below = above = None
    if known and due is not None and required:
        low, high = due.clock.low, due.clock.high
        below = high - value
        above = value - low if due.clock.arrived is not None else None
    note = f"replaced by {by}" if by is not None else ""
    note = note or ("" if series is not None else "not recorded")
    for fault in faults if by is None else ():
        whose = fault.tag == thermocouple.tag or (fault.zone and fault.zone == thermocouple.zone)
        if whose and fault.end >= record.end - evidence.longest_gap:
            note = BY_NAME[fault.kind].title
            break
    if not note and not known:
        note = "no reading"
    if not required:
        limit = None
    return Row(
        thermocouple.tag,
        stands_for.duty if by is None else "replaced",
        value if known else None,
        rate,
        limit,
        below,
        above,
        note,
        thermocouple.zone,
        _place(thermocouple),
    )


def _rate(evidence: Evidence, thermocouple: Watched) -> tuple[float | None, float | None]:
    """Rate over the window up to now by its two readings, K/h, and the limit in force."""
    record, window = evidence.record, evidence.plan.window.value
    if thermocouple.tag not in record.series or len(record.elapsed) < 2:
        return None, None
    values = evidence.of(thermocouple.tag)
    start = max(record.end - window, 0.0)
    first = int(np.searchsorted(record.elapsed, start, "right")) - 1
    then, now = float(values[max(first, 0)]), float(values[-1])
    hours = (record.end - float(record.elapsed[max(first, 0)])) / 3600
    if np.isnan(then) or np.isnan(now) or hours <= 0:
        return None, None
    rate = (now - then) / hours
    limits = pieces(evidence.plan, HEAT if rate >= 0 else COOL)
    here = [piece for piece in limits if piece.low < max(then, now)]
    return rate, here[-1].limit if here else None


def _peak(evidence: Evidence) -> float:
    """The highest reading so far of a required thermocouple."""
    values = evidence.values[~np.isnan(evidence.values)]
    return float(values.max()) if values.size else float("-inf")


def _hottest(evidence: Evidence) -> float | None:
    """The highest of the required thermocouples that read now; None where none does."""
    now = evidence.values[:, -1] if len(evidence.values) else evidence.times[:0]
    known = now[~np.isnan(now)]
    return float(known.max()) if len(known) else None


def _place(thermocouple: Watched) -> str:
    """`weld 12:00`, `soak edge 6:00`."""
    source = thermocouple.source
    place = thermocouple.place or ("weld" if source.on_weld else "")
    return f"{place} {source.clock}".strip() if source.clock is not None else place
