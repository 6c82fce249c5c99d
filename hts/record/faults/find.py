"""Faults of a record, found and acted on."""

from __future__ import annotations

from collections.abc import Callable, Iterable

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
    levels,
    misreading,
    missing,
    noisy,
    other_unit,
    repeats,
    scale,
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
from hts.record.plan import Plan
from hts.record.record import LEFT_OUT, READ, Record, Series


def _as_measured(detector: Callable[[Signals], list[Fault]]) -> Callable[[Signals], list[Fault]]:
    """The detector on the rows that every file has of its own: what stands there twice, for another
    recorder was read more often, makes the noise of all its columns alike."""
    return lambda signals: detector(signals.as_measured())


#: In this order: what is plainest first, for a reading it explains puzzles none after it.
_DETECTORS = (
    repeats.frozen,
    filled_in.filled_in,
    repeats.as_the_row_before,
    repeats.repeated,
    unit_changed.unit_changed,
    missing.missing,
    missing.intermittent,
    whole_record.settings_of_all,
    whole_record.cold_junction,
    other_unit.before_heating,
    levels.reversed_pairs,
    for_a_part.for_a_part,
    scale.open_circuits,
    coarse.coarse,
    noisy.pick_up,
    spikes.spikes,
    still.flat,
    drawn_in.drawn_in,
    at_the_top.at_the_top,
    too_still.too_still,
    still.stuck,
    cards.cards,
    _as_measured(copies.copied),
    _as_measured(worked_out.means_to_the_digit),
    _as_measured(copied_late.copied_late),
    _as_measured(copied_part.copied_for_a_time),
    heating.heater_losses,
    changed_over.with_spares,
    changed_over.with_an_edge,
    came_off.came_off,
    misreading.misreading,
    heater_output.near_heaters,
    steps.steps,
    other_unit.at_like_places,
    levels.lost_places,
    levels.reading_low,
    exchanged.exchanged,
    other_unit.along_the_pipe,
    agreement.apart_when_cold,
    agreement.disagreeing,
    clocks.clock_jumps,
    clocks.clock_rate,
)


def find(record: Record, plan: Plan | None = None) -> tuple[Fault, ...]:
    """The faults of the measuring chains, by thermocouple and time.

    Without a plan nothing is known of places and zones: then the faults that only show against
    them are not looked for (exchanged, extension-reversed, shorted from the start).
    """
    signals = Signals(record, plan)
    for detector in _DETECTORS:
        signals.add(detector(signals))
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
