"""Faults of a record, found and acted on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

import numpy as np

from hts.record.faults import (
    agreement,
    at_the_top,
    came_off,
    cards,
    changed_over,
    clocks,
    coarse,
    copied_late,
    copied_part,
    copies,
    drawn_in,
    exchanged,
    filled_in,
    for_a_part,
    heater_output,
    heating,
    in_the_loop,
    leapt_back,
    levelled,
    levels,
    mark_lost,
    misreading,
    missing,
    noisy,
    other_column,
    other_unit,
    put_in_again,
    repeats,
    resampled,
    scale,
    scattered,
    seams,
    spikes,
    steps,
    still,
    too_still,
    unit_changed,
    whole_record,
    worked_out,
)
from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import LEFT_OUT as LEAVE_OUT
from hts.record.faults.signals import Mask, Signals
from hts.record.faults.stack import Stack, stacks
from hts.record.plan import Plan
from hts.record.record import LEFT_OUT, READ, Record, Series


def _as_measured(detector: Callable[[Signals], list[Fault]]) -> Callable[[Signals], list[Fault]]:
    """The detector on the rows that every file has of its own: what stands there twice, for another
    recorder was read more often, makes the noise of all its columns alike."""
    return lambda signals: detector(signals.as_measured())


def _none(stack: Stack) -> Mask:
    """The screen of what complete records of an even clock cannot have."""
    return stack.none


class Detector(NamedTuple):
    """`may` is the screen beside it (hts.record.faults.stack)."""

    find: Callable[[Signals], list[Fault]]
    may: Callable[[Stack], Mask]


#: In this order: what is plainest first, for a reading it explains puzzles none after it.
DETECTORS = tuple(
    Detector(*one)
    for one in (
        (mark_lost.mark_lost, mark_lost.may_lose_the_mark),
        (repeats.frozen, repeats.may_stand_still),
        (filled_in.filled_in, filled_in.may_be_filled_in),
        (filled_in.never_to_and_fro, filled_in.may_never_go_to_and_fro),
        (resampled.resampled, resampled.may_be_resampled),
        (repeats.as_the_row_before, repeats.may_stand_still),
        (repeats.repeated, repeats.may_be_repeated),
        (put_in_again.put_in_again, put_in_again.may_be_put_in_again),
        (seams.seams, seams.may_have_seams),
        (unit_changed.unit_changed, unit_changed.may_change_unit),
        (missing.missing, _none),
        (missing.intermittent, _none),
        (whole_record.settings_of_all, whole_record.may_be_set_wrong),
        (whole_record.cold_junction, whole_record.may_step_as_one),
        (other_unit.before_heating, agreement.may_be_apart_when_cold),
        (levels.reversed_pairs, levels.may_be_reversed),
        (for_a_part.for_a_part, for_a_part.may_leap),
        (scale.open_circuits, scale.may_be_open),
        (coarse.coarse, coarse.may_be_coarse),
        (noisy.pick_up, noisy.may_pick_up),
        (spikes.spikes, spikes.may_have_spikes),
        (levelled.levelled, levelled.may_be_levelled),
        (leapt_back.leapt_back, for_a_part.may_leap),
        (still.flat, still.may_be_flat),
        (drawn_in.drawn_in, drawn_in.may_be_drawn_in),
        (at_the_top.at_the_top, at_the_top.may_be_cut_off),
        (scattered.scattered, scattered.may_scatter),
        (too_still.too_still, too_still.may_be_too_still),
        (still.stuck, still.may_be_stuck),
        (cards.cards, cards.may_step_in_part),
        (_as_measured(copies.copied), copies.may_be_copied),
        (_as_measured(worked_out.means_to_the_digit), worked_out.may_be_means),
        (_as_measured(copied_late.copied_late), copied_late.may_be_copied_late),
        (_as_measured(copied_part.copied_for_a_time), copied_part.may_be_copied_for_a_time),
        (heating.heater_losses, heating.may_lose_heat),
        (changed_over.with_spares, changed_over.may_go_with_other_spares),
        (changed_over.with_an_edge, changed_over.may_read_as_an_edge),
        (came_off.came_off, came_off.may_come_off),
        (in_the_loop.in_the_loop, in_the_loop.may_be_in_the_loop),
        (misreading.misreading, misreading.may_misread),
        (heater_output.near_heaters, heater_output.may_be_near_heaters),
        (steps.steps, steps.may_step),
        (other_unit.at_like_places, other_unit.may_be_like_another),
        (levels.lost_places, levels.may_have_lost_places),
        (levels.reading_low, levels.may_read_low),
        (exchanged.exchanged, exchanged.may_be_exchanged),
        (other_unit.along_the_pipe, other_unit.may_be_out_of_order),
        (agreement.apart_when_cold, agreement.may_be_apart_when_cold),
        (other_column.other_columns, _none),
        (agreement.disagreeing, agreement.may_disagree),
        (clocks.clock_jumps, _none),
        (clocks.clock_rate, _none),
        (clocks.clock_stretched, clocks.may_be_stretched),
    )
)


def find(record: Record, plan: Plan | None = None) -> tuple[Fault, ...]:
    """The faults of the measuring chains, by thermocouple and time.

    Without a plan nothing is known of places and zones: then the faults that only show against
    them are not looked for (exchanged, extension-reversed, shorted from the start).
    """
    return _found(record, plan, [True] * len(DETECTORS))


def find_each(records: Sequence[Record], plan: Plan) -> list[tuple[Fault, ...]]:
    """The same of several records; those alike are looked at together, which takes a part of the
    time."""
    looked_at: dict[int, list[bool]] = {}
    for numbers, stack in stacks(records, plan):
        screens = {may: may(stack) for may in dict.fromkeys(one.may for one in DETECTORS)}
        may_find = np.array([screens[one.may] for one in DETECTORS]).T
        looked_at |= zip(numbers, may_find.tolist(), strict=True)
    every = [True] * len(DETECTORS)
    return [
        _found(record, plan, looked_at.get(number, every)) for number, record in enumerate(records)
    ]


def _found(record: Record, plan: Plan | None, may: list[bool]) -> tuple[Fault, ...]:
    """`may` tells of each detector whether it may find anything before another has found a
    fault."""
    if not any(may):
        return ()
    signals = Signals(record, plan)
    for detector, its in zip(DETECTORS, may, strict=True):
        if its or signals.found:
            signals.add(detector.find(signals))
    order = {tag: number for number, tag in enumerate(record.series)}
    return tuple(
        sorted(signals.found, key=lambda one: (order.get(one.tag, -1), one.start, one.kind))
    )


def apply(record: Record, faults: Iterable[Fault]) -> Record:
    """The record without the readings that are left out; they become NaN with status LEFT_OUT."""
    series = dict(record.series)
    for fault in faults:
        if fault.treatment != LEAVE_OUT:
            continue
        rows = record.within(fault.wrong)
        # A fault of the record as a whole takes the readings of all.
        for tag in [fault.tag] if fault.tag else list(series):
            if tag in series:
                series[tag] = _without(series[tag], rows)
    return record._replace(series=series)


def _without(series: Series, rows: Mask) -> Series:
    values, status = series.values.copy(), series.status.copy()
    status[rows & (status == READ)] = LEFT_OUT
    values[rows] = np.nan
    return series._replace(values=values, status=status, raw=series.as_read)
