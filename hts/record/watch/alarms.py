"""What has to be acted on now, in words: what is beyond its limits, what is measured wrong, what
the recorder does not write; and why the clock of a hold stands."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.base.quantities import Quantity
from hts.record.faults.fault_kinds import BY_NAME, PASSING
from hts.record.judging import HoldClock, Judgement
from hts.record.judging.courses import course
from hts.record.judging.evidence import Evidence
from hts.record.judging.limits import counted_from, limit_at, pieces
from hts.record.judging.words import time
from hts.record.plan import CONTROLS, COOL, HEAT, Span
from hts.record.record import Event, Gap
from hts.record.watch.view import Row

#: Requirements whose failures are alarms while they last; the others wait for the end of the run.
_LIVE = ("highest temperature", "margin below", "spread", "temperature of", "longest hold")
_OVER = 1 + 1e-9
#: s. What lies farther back is told by the report, not by an alarm. Basis: practice, no source.
_RECENT = 900.0


class Due(NamedTuple):
    """The hold that is due or going on, and its clock."""

    span: Span
    clock: HoldClock


def alarms(
    evidence: Evidence,
    noted: Evidence,
    judgement: Judgement,
    rows: tuple[Row, ...],
    due: Due | None,
    counted: float | None,
    ahead: tuple[Gap, ...] = (),
) -> list[str]:
    """All of them, each thermocouple with the worst that is wrong with it. `evidence` has others in
    the place of those that are lost, `noted` only where somebody noted it. `counted` is what the
    clock of the hold stands at, s, None where it runs; `ahead` the gaps that only the clock of the
    recorder made."""
    record = evidence.record
    recent = record.end - 1.5 * record.interval
    out = _out_of_range(evidence, rows, due, counted)
    found = [*_faults(evidence, noted), *_fast(evidence, due), *out.values()]
    found += _of_the_sheet(noted, [row for row in rows if row.tag not in out], due)
    for verdict in judgement.verdicts:
        if verdict.requirement.startswith(_LIVE):
            found += [failure.sentence for failure in verdict.failures if failure.end >= recent]
    found += _not_written(evidence, rows, ahead)
    if evidence.power_cuts and evidence.power_cuts[-1].end >= record.end:
        found.append(f"no power since {record.clock(evidence.power_cuts[-1].start)}")
    return list(dict.fromkeys(found))


def stands(
    evidence: Evidence, due: Due | None, counting: bool, instead: tuple[Event, ...] = ()
) -> str:
    """Why the clock of a hold that has begun stands; nothing where it runs or has not begun.
    `instead` are the changes that would let others count for those that are lost."""
    if due is None or counting or due.clock.arrived is None:
        return ""
    words, low, high = evidence.words, due.clock.low, due.clock.high
    reasons = []
    for thermocouple in evidence.required:
        if not evidence.counts(thermocouple):
            continue
        value = float(evidence.of(thermocouple.tag)[-1])
        if np.isnan(value):
            reason = f"{thermocouple.tag} has no reading"
            by = next((one.by for one in instead if one.tag == thermocouple.tag), "")
            spare = evidence.plan.by_tag.get(by)
            if spare is not None and spare.spare_of == thermocouple.tag:
                reason += f" (go over to {by} and note it as an event)"
            reasons.append(reason)
        elif value < low:
            reasons.append(f"{thermocouple.tag} is at {words.temperature(value, low)}, too cold")
        elif value > high:
            reasons.append(f"{thermocouple.tag} is at {words.temperature(value, high)}, too hot")
    return "; ".join(reasons)


def _fast(evidence: Evidence, due: Due | None) -> list[str]:
    """Too fast over the window that ends now."""
    record, words, plan = evidence.record, evidence.words, evidence.plan
    seconds = plan.window.value
    if record.end < seconds * 0.999:
        return []
    found = []
    for thermocouple, line in zip(evidence.required, evidence.lines, strict=True):
        if line is None or line.times[-1] < record.end - evidence.longest_gap:
            continue
        start = max(float(line.times[-1]) - seconds, float(line.times[0]))
        then, now = np.interp((start, line.times[-1]), line.times, line.values)
        held = due is not None and due.clock.arrived is not None and (
            due.clock.low <= min(then, now) and max(then, now) <= due.clock.high
        )  # fmt: skip
        for action, sign in ((HEAT, 1.0), (COOL, -1.0)):
            limits = pieces(plan, action)
            if not limits or held:
                continue
            along = course(line, limits, sign, [])
            starts, ratio, slack = along.over(float(line.times[-1]) - start)
            if not len(starts) or ratio[-1] - 2 * slack[-1] <= _OVER:
                continue
            limit = limit_at(limits, float(max(then, now)))
            rate = max(abs(along.rise(start, float(line.times[-1]))), ratio[-1] * limit.limit)
            found.append(
                f"{evidence.name(thermocouple.tag, record.end)} {'rises' if sign > 0 else 'falls'} "
                f"{words.rate(rate, limit.limit)}, limit {words.rate(limit.limit)}"
                f"{counted_from(words, limit)}"
            )
    return found


def _out_of_range(
    evidence: Evidence, rows: tuple[Row, ...], due: Due | None, counted: float | None
) -> dict[str, str]:
    """Thermocouple -> what to say of it, and of all that are off to that side with it."""
    if due is None or due.clock.arrived is None or counted is None:
        return {}
    words, window = evidence.words, due.span.step.window
    assert window is not None
    found = {}
    for where, low in (("below", True), ("above", False)):
        off = {row.tag: row.reading for row in rows if row.reading is not None and _off(row, low)}
        if not off:
            continue
        edge = due.clock.low if low else due.clock.high
        farthest = words.temperature((min if low else max)(off.values()), edge)
        if len(off) > 1:
            farthest = f"the farthest at {farthest}"
        said = (
            f"{', '.join(off)} {where} the range of the hold ({words.range(window)}), {farthest}: "
            f"the clock stands at {time(counted)}"
        )
        found.update(dict.fromkeys(off, said))
    return found


def _off(row: Row, low: bool) -> bool:
    """Whether it is below the range, or above it."""
    beyond = row.above_bottom if low else row.below_top
    return row.above_bottom is not None and beyond is not None and beyond < 0


def _of_the_sheet(evidence: Evidence, rows: list[Row], due: Due | None) -> list[str]:
    """The alarms the sheet sets: high always, low and deviation while a hold goes on."""
    plan, words = evidence.plan, evidence.words
    found: list[str] = []
    highs = [span.step.alarm_high for span in plan.holds if span.step.alarm_high is not None]
    most = max(highs, key=lambda one: one.value, default=None)
    holding = due is not None and due.clock.arrived is not None
    least = due.span.step.alarm_low if due is not None and holding else None
    deviation = plan.stated("deviation")
    aimed = due.span.end if due is not None and holding else None
    part = {one.tag for one in evidence.on_part}
    taken = evidence.taken_over
    for row in rows:
        if row.reading is None or row.tag not in part:
            continue
        required = row.tag not in taken and evidence.duty_of(plan.by_tag[row.tag]).required
        if most is not None and row.reading > float(most.value):
            shown = words.temperature(row.reading, float(most.value))
            found.append(f"{row.tag} {shown}, above the alarm of {words.limit(most)}")
        elif least is not None and required and row.reading < float(least.value):
            shown = words.temperature(row.reading, float(least.value))
            found.append(f"{row.tag} {shown}, below the alarm of {words.limit(least)}")
        elif isinstance(deviation, Quantity) and aimed is not None and row.duty == CONTROLS:
            off = row.reading - aimed
            if abs(off) > float(deviation.value):
                found.append(
                    f"{row.tag} is {words.difference(abs(off))} {'above' if off > 0 else 'below'} "
                    f"its setpoint, alarm at {words.limit(deviation)}"
                )
    return found


def _faults(evidence: Evidence, noted: Evidence) -> list[str]:
    """Faults that last, or that were a short while ago, with what to do."""
    record, found = evidence.record, []
    for fault in evidence.faults:
        lasts = fault.end >= record.end - evidence.longest_gap
        if not lasts and (fault.kind in PASSING or fault.end < record.end - _RECENT):
            continue
        tags = [tag for tag in (fault.tag, *fault.others) if tag]
        if tags and not any(_counts(noted, tag) for tag in tags):
            continue
        if fault.tag in noted.taken_over and not fault.others:
            continue  # whoever noted that another stands in knows of it
        kind = BY_NAME[fault.kind]
        found.append(
            f"{fault.whose}: {kind.summary}: {fault.evidence}, "
            f"since {evidence.clock(fault.start)}; to do: {kind.remedy}"
        )
    return found


def _counts(evidence: Evidence, tag: str) -> bool:
    one = evidence.plan.by_tag.get(tag)
    if one is None:
        return False
    one = evidence.duty_of(one)
    return one.duty != "spare" or one.required


def _not_written(evidence: Evidence, rows: tuple[Row, ...], ahead: tuple[Gap, ...]) -> list[str]:
    """Thermocouples without a reading or a column, and rows that are missing."""
    record = evidence.record
    told = {tag for fault in evidence.faults for tag in (fault.tag, *fault.others)}
    found = [
        f"{row.tag}: {row.note}"
        for row in rows
        if row.note in ("no reading", "not recorded")
        and row.tag not in told
        and (evidence.plan.by_tag[row.tag].required or row.note == "no reading")
    ]
    for gap in evidence.row_gaps:
        if gap.end < record.end - _RECENT:
            continue
        between = f"from {evidence.clock(gap.start)} to {evidence.clock(gap.end)}"
        if any(abs(gap.end - one.end) < 1.0 for one in ahead):
            found.append(
                f"the clock of the recorder went ahead by {time(gap.length)}, {between}: the rows "
                "came without such a pause; set it right and note both"
            )
        else:
            found.append(f"no rows {between}: is the recorder writing, or was its clock set ahead?")
    for jump in record.jumps:
        if jump.at >= record.end - _RECENT:
            found.append(
                f"the clock of the recorder was set by {time(abs(jump.by))} at "
                f"{evidence.clock(jump.at)}: note it"
            )
    return found
