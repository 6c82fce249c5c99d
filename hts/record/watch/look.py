"""What a record says at its last row."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from hts.record.judging import HoldClock, Judgement, judge
from hts.record.judging.evidence import Evidence
from hts.record.judging.limits import counted_from, least_hours, pieces
from hts.record.judging.words import Words, time
from hts.record.plan import COOL, HEAT, HOLD, Plan, Span, Watched
from hts.record.record import Record
from hts.record.watch.view import Row, View

if TYPE_CHECKING:
    from hts.record.faults import Fault

#: Requirements whose failures are alarms while they last; the others wait for the end of the run.
_LIVE = ("highest temperature", "margin below", "spread", "temperature of", "longest hold")
#: A rate is judged once the record is this part of the window long.
_ENOUGH = 0.999
_OVER = 1 + 1e-9


class _Due(NamedTuple):
    """The hold that is due or going on, and its clock."""

    span: Span
    clock: HoldClock


def look(record: Record, plan: Plan, faults: tuple[Fault, ...], today: str | None = None) -> View:
    """The view at the last row; `record` is without the readings `faults` set aside."""
    evidence = Evidence(record, plan, faults)
    judgement = judge(record, plan, faults, today)
    due = _due(judgement)
    rows = tuple(_row(evidence, thermocouple, due, faults) for thermocouple in plan.watched)
    rows = tuple(row for row in rows if row.tag in record.series or row.duty != "spare")
    clock = due.clock if due is not None else judgement.hold
    counting = clock is not None and any(
        interval.end >= record.end - 1e-6 for interval in clock.intervals
    )
    phase, then = _phase(evidence, due, counting)
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
        tuple(_alarms(evidence, judgement, rows, due, counting)),
        (*record.assumed, *judgement.assumed),
        record.simulated,
    )


def _due(judgement: Judgement) -> _Due | None:
    """The first hold that is not complete; None when all are."""
    holds = [span for span in judgement.plan.spans if span.action == HOLD]
    for clock in judgement.holds:
        complete = clock.arrived is not None and (
            clock.least is None or clock.total >= clock.least - 1e-3
        )
        if not complete:
            span = next((s for s in holds if (s.low, s.high) == (clock.low, clock.high)), None)
            if span is not None:
                return _Due(span, clock)
    return None


def _phase(evidence: Evidence, due: _Due | None, counting: bool) -> tuple[str, str]:
    """What goes on and what follows."""
    plan, words = evidence.plan, evidence.words
    hottest = _hottest(evidence)
    if due is None:
        end = plan.control_end
        if end is not None and hottest is not None and hottest < end:
            return "below the end of control", "nothing: the run can be ended"
        if counting:
            return "held long enough", _said(words, _after(plan, None))
        return "cooling", f"end of control at {words.edge(end)}" if end is not None else ""
    following = _said(words, _after(plan, due.span))
    hold = f"hold, step {due.span.number}"
    if counting:
        return f"{hold}: the clock runs", following
    if due.clock.arrived is not None:
        return f"{hold}: interrupted", f"back into {_range(words, due.span)}"
    start, end, peak = plan.control_start, plan.control_end, _peak(evidence)
    if end is not None and hottest is not None and hottest < end and peak >= due.clock.low:
        return "below the end of control", f"the hold of step {due.span.number} was not shown"
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
    evidence: Evidence, thermocouple: Watched, due: _Due | None, faults: tuple[Fault, ...]
) -> Row:
    record = evidence.record
    series = record.series.get(thermocouple.tag)
    value = float(series.values[-1]) if series is not None else float("nan")
    known = not np.isnan(value)
    rate, limit, _ = _rate(evidence, thermocouple)
    below = above = None
    if known and due is not None and thermocouple.required:
        low, high = due.clock.low, due.clock.high
        below = high - value
        above = value - low if due.clock.arrived is not None else None
    note = "" if series is not None else "not recorded"
    for fault in faults:
        if fault.tag == thermocouple.tag and fault.end >= record.end - evidence.longest_gap:
            note = f"{fault.kind}: {fault.evidence}"
            break
    if not note and not known:
        note = "no reading"
    if not thermocouple.required:
        limit = None
    return Row(
        thermocouple.tag,
        thermocouple.duty,
        value if known else None,
        rate,
        limit,
        below,
        above,
        note,
    )


def _rate(evidence: Evidence, thermocouple: Watched) -> tuple[float | None, float | None, float]:
    """Rate over the window up to now, K/h; the limit in force; and how many times faster than
    allowed that is, 0 where it cannot be judged."""
    record, window = evidence.record, evidence.plan.window.value
    if thermocouple.tag not in record.series or len(record.elapsed) < 2:
        return None, None, 0.0
    values = evidence.of(thermocouple.tag)
    start = max(record.end - window, 0.0)
    first = int(np.searchsorted(record.elapsed, start, "right")) - 1
    then, now = float(values[max(first, 0)]), float(values[-1])
    hours = (record.end - float(record.elapsed[max(first, 0)])) / 3600
    if np.isnan(then) or np.isnan(now) or hours <= 0:
        return None, None, 0.0
    rate = (now - then) / hours
    limits = pieces(evidence.plan, HEAT if rate >= 0 else COOL)
    here = [piece for piece in limits if piece.low < max(then, now)]
    limit = here[-1].limit if here else None
    needed = abs(np.diff(least_hours(np.array([then, now]), limits))[0]) if limits else 0.0
    whole = record.end >= window * _ENOUGH
    return rate, limit, float(needed / hours) if whole and thermocouple.required else 0.0


def _alarms(
    evidence: Evidence,
    judgement: Judgement,
    rows: tuple[Row, ...],
    due: _Due | None,
    counting: bool,
) -> list[str]:
    """What has to be acted on, in words."""
    record, words, plan = evidence.record, evidence.words, evidence.plan
    found: list[str] = []
    for thermocouple in plan.required:
        rate, limit, times = _rate(evidence, thermocouple)
        if (
            times > _OVER
            and rate is not None
            and limit is not None
            and not _held(evidence, thermocouple, due)
        ):
            verb, action = ("rises", HEAT) if rate > 0 else ("falls", COOL)
            piece = next(piece for piece in pieces(plan, action) if piece.limit == limit)
            found.append(
                f"{thermocouple.tag} {verb} {words.rate(abs(rate), limit)}, "
                f"limit {words.rate(limit)}{counted_from(words, piece)}"
            )
    if due is not None and due.clock.arrived is not None and not counting:
        out = [row for row in rows if row.above_bottom is not None and row.above_bottom < 0]
        out += [row for row in rows if row.below_top is not None and row.below_top < 0]
        for row in out:
            assert row.reading is not None
            side, edge = (
                ("below", due.clock.low)
                if (row.above_bottom or 0) < 0
                else ("above", due.clock.high)
            )
            found.append(
                f"{row.tag} {words.temperature(row.reading, edge)}, {side} the range of the hold "
                f"({_range(words, due.span)}): the clock stands at {time(due.clock.total)}"
            )
    recent = record.end - 1.5 * record.interval
    for verdict in judgement.verdicts:
        if verdict.requirement.startswith(_LIVE):
            found += [failure.sentence for failure in verdict.failures if failure.end >= recent]
    found += [f"{row.tag}: {row.note}" for row in rows if row.note and _matters(plan, row)]
    if evidence.power_cuts and evidence.power_cuts[-1].end >= record.end:
        found.append(f"no power since {record.clock(evidence.power_cuts[-1].start)}")
    return list(dict.fromkeys(found))


def _matters(plan: Plan, row: Row) -> bool:
    return (row.duty != "spare" and row.note != "not recorded") or plan.by_tag[row.tag].required


def _held(evidence: Evidence, thermocouple: Watched, due: _Due | None) -> bool:
    """Whether a thermocouple only moves within the range of a hold that was reached."""
    if due is None or due.clock.arrived is None:
        return False
    values = evidence.of(thermocouple.tag)[
        evidence.record.between(
            evidence.record.end - evidence.plan.window.value, evidence.record.end
        )
    ]
    return bool(np.all((values >= due.clock.low) & (values <= due.clock.high)))


def _peak(evidence: Evidence) -> float:
    """The highest reading so far of a required thermocouple."""
    values = evidence.values[~np.isnan(evidence.values)]
    return float(values.max()) if values.size else float("-inf")


def _hottest(evidence: Evidence) -> float | None:
    """The highest of the required thermocouples that read now; None where none does."""
    now = evidence.values[:, -1] if len(evidence.values) else evidence.times[:0]
    known = now[~np.isnan(now)]
    return float(known.max()) if len(known) else None
