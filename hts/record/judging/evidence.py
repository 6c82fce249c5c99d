"""A record as the judge looks at it: the required thermocouples, spares standing in."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property
from math import isnan
from typing import TYPE_CHECKING

import numpy as np

from hts.job.demands.asked import GAP
from hts.record.faults.fault_kinds import BY_NAME, EITHER_MAY_BE, KEPT, LOW, OF_HEATING
from hts.record.judging.courses import Readings, lines_of
from hts.record.judging.line import Line
from hts.record.judging.stretches import runs, total, union, within
from hts.record.judging.verdict import MET, NOT_MET, NOT_SHOWN, Outcome, Stretch
from hts.record.judging.words import Words, time
from hts.record.plan import CONTROLS, Plan, Watched
from hts.record.record import POWER_BACK, POWER_LOST, REPLACED, Event, Floats, Record

if TYPE_CHECKING:
    from hts.record.faults import Fault

#: Places that are not on the part, or not meant to be as hot as it.
OFF_PART = ("nearby item", "ambient")


class Evidence:
    """The readings to judge by, shape [thermocouples, rows], and when nothing is known.

    `times` s; `values` degC of the required thermocouples in the order of `required`; from the
    event that a thermocouple was replaced, the readings of its spare are its own. Blanks no
    longer than `longest_gap` s are bridged by a straight line, as the chart would be; longer ones
    stay NaN.
    """

    def __init__(self, record: Record, plan: Plan, faults: tuple[Fault, ...] = ()) -> None:
        self.record = record
        self.plan = plan
        self.faults = faults
        self.words = Words(plan.job.units)
        self.times = record.elapsed
        self.required = plan.required
        self._required = {thermocouple.tag for thermocouple in plan.required}
        self._columns: dict[str, Floats] = {}
        self._peaks: dict[str, tuple[float, float] | None] = {}

    @cached_property
    def interval(self) -> float:
        """s between readings: what the specification says of the recorder, else as recorded."""
        recorder = self.plan.run.program.recorder
        stated = recorder.interval if recorder is not None else None
        return float(stated.value) if stated is not None else self.record.interval

    @cached_property
    def longest_gap(self) -> float:
        # A record read more often than asked for is not thereby held to more.
        return GAP * max(self.interval, self.record.interval)

    @cached_property
    def values(self) -> Floats:
        if not self.required:
            return np.empty((0, len(self.times)))
        return np.stack([self.of(thermocouple.tag) for thermocouple in self.required])

    @cached_property
    def readings(self) -> Readings:
        """Those of the required thermocouples."""
        return Readings(self.times, self.values, self.longest_gap)

    @cached_property
    def lines(self) -> list[Line | None]:
        """The line with corners through each of the required thermocouples."""
        return lines_of([self.readings])[0]

    def reading(self, tag: str, at: float) -> float:
        """degC that a thermocouple read then, by the line between its readings."""
        values = self.of(tag)
        known = ~np.isnan(values)
        return float(np.interp(at, self.times[known], values[known]))

    @cached_property
    def complete(self) -> bool:
        """Whether every required thermocouple has a reading in every row."""
        return not np.isnan(self.lowest).any() if self.required else True

    @cached_property
    def lowest(self) -> Floats:
        """The lowest of the required thermocouples, NaN where one is not known."""
        return self._extreme(self.values, np.min)

    @cached_property
    def highest(self) -> Floats:
        return self._extreme(self.values, np.max)

    @cached_property
    def hottest(self) -> Floats:
        """The highest of the required thermocouples that are known."""
        return self.highest if self.complete else np.fmax.reduce(self.values)

    @cached_property
    def spread(self) -> Floats:
        """The greatest difference of the required thermocouples that are known, NaN where fewer
        than two are."""
        if self.complete:
            return self.highest - self.lowest
        known = np.count_nonzero(~np.isnan(self.values), axis=0)
        found = np.fmax.reduce(self.values) - np.fmin.reduce(self.values)
        return np.where(known > 1, found, np.nan)

    @cached_property
    def inside_zones(self) -> dict[str, Floats]:
        """Zones with two required thermocouples and more, and the greatest difference between
        those of each in every row; NaN where one is not known."""
        found = {}
        for zone in self.plan.zones:
            rows = [i for i, one in enumerate(self.required) if one.zone == zone]
            if len(rows) > 1:
                values = self.values[rows]
                found[zone] = self._extreme(values, np.max) - self._extreme(values, np.min)
        return found

    @cached_property
    def counting(self) -> tuple[Floats, Floats]:
        """Lowest and highest of the thermocouples the hold clock hangs on."""
        rows = [i for i, thermocouple in enumerate(self.required) if self.counts(thermocouple)]
        if len(rows) == len(self.required):
            return self.lowest, self.highest
        values = self.values[rows]
        return self._extreme(values, np.min), self._extreme(values, np.max)

    def counts(self, thermocouple: Watched) -> bool:
        """Whether the hold clock hangs on it."""
        return self.plan.counts_all or thermocouple.duty == CONTROLS

    @cached_property
    def on_part(self) -> tuple[Watched, ...]:
        """Every recorded thermocouple on the part, spares too: what they read is hot as well."""
        return tuple(
            thermocouple
            for thermocouple in self.plan.watched
            if thermocouple.place not in OFF_PART and thermocouple.tag in self.record.series
        )

    @cached_property
    def doubts(self) -> tuple[Fault, ...]:
        """The faults that leave readings in place and put them in doubt, those of thermocouples
        that need not be in range aside unless they speak of one that must."""
        return tuple(
            fault
            for fault in self._kept
            if not fault.tag or self._required & {fault.tag, *fault.others}
        )

    @cached_property
    def _kept(self) -> tuple[Fault, ...]:
        return tuple(
            fault
            for fault in self.faults
            if (fault.treatment == KEPT or fault.kind in EITHER_MAY_BE)
            and fault.confidence != LOW
            and fault.kind not in OF_HEATING
        )

    def doubt_of(self, tags: Iterable[str]) -> str:
        """Which of these readings are in doubt by themselves, whatever they are for:
        `; in doubt: T12 (wrong unit)`; nothing where none is."""
        told = {
            f"{tag} ({BY_NAME[fault.kind].title})": None
            for tag in tags
            for fault in self._kept
            if tag in (fault.tag, *fault.others)
        }
        return f"; in doubt: {', '.join(told)}" if told else ""

    @cached_property
    def doubtful(self) -> frozenset[str]:
        """The thermocouples these faults are about."""
        return frozenset(tag for fault in self.doubts for tag in (fault.tag, *fault.others))

    def of(self, tag: str) -> Floats:
        """Readings of one thermocouple [rows], NaN where none; all NaN where it has no column."""
        if tag not in self._columns:
            series = self.record.series.get(tag)
            raw = series.values if series is not None else np.full(len(self.times), np.nan)
            for event in self.replaced:
                if event.tag == tag and event.by in self.record.series:
                    spare = self.record.series[event.by].values
                    raw = np.where(self.times >= event.at, spare, raw)
            self._columns[tag] = bridged(self.times, raw, self.longest_gap)
        return self._columns[tag]

    def peak(self, tag: str) -> tuple[float, float] | None:
        """The highest reading of a thermocouple, and when; None where it has none."""
        if tag not in self._peaks:
            values = self.of(tag)
            at = int(values.argmax())
            most = float(values[at])
            if isnan(most):
                # Blanks never compare higher; a series of nothing else has no peak.
                at = int(np.fmax(values, -np.inf).argmax())
                most = float(values[at])
            self._peaks[tag] = None if isnan(most) else (most, float(self.times[at]))
        return self._peaks[tag]

    @cached_property
    def top(self) -> tuple[float, str, float] | None:
        """The highest reading on the part."""
        return self.highest_of(self.on_part)

    def highest_of(self, ones: Iterable[Watched]) -> tuple[float, str, float] | None:
        """The highest reading of some thermocouples, which one, and when."""
        found = None
        for one in ones:
            peak = self.peak(one.tag)
            if peak is not None and (found is None or peak[0] > found[0]):
                found = (peak[0], one.tag, peak[1])
        return found

    def name(self, tag: str, at: float) -> str:
        """The thermocouple as it was read then: `T1`, or `T1S for T1`."""
        standing = [event.by for event in self.replaced if event.tag == tag and event.at <= at]
        return f"{standing[-1]} for {tag}" if standing else tag

    def clock(self, seconds: float) -> str:
        return self.record.clock(seconds)

    @cached_property
    def replaced(self) -> tuple[Event, ...]:
        found = [event for event in self.record.events if event.kind == REPLACED]
        return tuple(sorted(found, key=lambda event: event.at))

    @cached_property
    def taken_over(self) -> dict[str, str]:
        """Thermocouple -> the one that was noted to stand in for it, by the end of the record."""
        return {one.tag: one.by for one in self.replaced if one.at <= self.record.end}

    def duty_of(self, thermocouple: Watched) -> Watched:
        """The one whose duty it has: its own, or that of the one it stands in for."""
        for tag, by in self.taken_over.items():
            if by == thermocouple.tag and tag in self.plan.by_tag:
                return self.plan.by_tag[tag]
        return thermocouple

    @cached_property
    def controlled(self) -> Stretch:
        """From when the first passes the start of control until all are below its end again; the
        whole record where no such temperature is known."""
        start, end = self.plan.control_start, self.plan.control_end
        first, last = 0, len(self.times) - 1
        hottest = self.hottest
        if start is not None:
            hot = np.flatnonzero(hottest >= start)
            first = int(hot[0]) if len(hot) else first
        if end is not None:
            hot = np.flatnonzero(hottest >= end)
            last = min(int(hot[-1]) + 1, last) if len(hot) else last
        return Stretch(float(self.times[first]), float(self.times[last]))

    @cached_property
    def power_cuts(self) -> tuple[Stretch, ...]:
        """From power lost to power back; to the end of the record where it never came back."""
        cuts: list[Stretch] = []
        lost: float | None = None
        for event in sorted(self.record.events, key=lambda event: event.at):
            if event.kind == POWER_LOST and lost is None:
                lost = event.at
            elif event.kind == POWER_BACK and lost is not None:
                cuts.append(Stretch(lost, event.at))
                lost = None
        if lost is not None:
            cuts.append(Stretch(lost, self.record.end))
        return tuple(cuts)

    @cached_property
    def row_gaps(self) -> tuple[Stretch, ...]:
        """Where the record itself has no rows for too long, while the run was under control."""
        at = np.flatnonzero(np.diff(self.times) > self.longest_gap)
        found = (Stretch(float(self.times[i]), float(self.times[i + 1])) for i in at)
        return tuple(one for one in found if self._matters(one))

    def missing(self, tag: str) -> list[Stretch]:
        """Stretches in which a thermocouple has no reading, from the last before to the next,
        while the run was under control."""
        if self.complete and tag in self._required:
            return []
        blank = np.isnan(self.of(tag))
        if not np.any(blank):
            return []
        last = len(self.times) - 1
        found = (
            Stretch(float(self.times[max(first - 1, 0)]), float(self.times[min(end + 1, last)]))
            for first, end in runs(blank)
        )
        return [one for one in found if self._matters(one)]

    @cached_property
    def blanks(self) -> list[Stretch]:
        """When the record as a whole or a required thermocouple has no readings."""
        return union(
            [
                *self.row_gaps,
                *(gap for thermocouple in self.required for gap in self.missing(thermocouple.tag)),
            ]
        )

    def outcome(self, failed: bool, start: float, end: float) -> tuple[Outcome, str]:
        """A verdict on what had to hold from `start` to `end`, and what to add to the actual: where
        readings are missing, that nothing failed shows nothing."""
        if failed:
            return NOT_MET, ""
        unknown = total(within(self.blanks, start, end))
        if unknown:
            return NOT_SHOWN, f"; readings missing for {time(unknown)}"
        return MET, ""

    def _matters(self, gap: Stretch) -> bool:
        return gap.end > self.controlled.start and gap.start < self.controlled.end

    def _extreme(self, values: Floats, pick: np.ufunc | object) -> Floats:
        if not len(values):
            return np.full(len(self.times), np.nan)
        found: Floats = pick(values, axis=0)  # type: ignore[operator]
        return found


def draw_lines(runs: Iterable[Evidence]) -> None:
    """Draws the lines of several runs together, those that have none yet, which takes a third of
    the time it takes one by one."""
    due = [run for run in {id(run): run for run in runs}.values() if "lines" not in vars(run)]
    for run, lines in zip(due, lines_of([run.readings for run in due]), strict=True):
        run.lines = lines


def bridged(times: Floats, values: Floats, longest_gap: float) -> Floats:
    """Blanks filled by a straight line where the readings either side are near enough in time."""
    blank = np.isnan(values)
    if not blank.any():
        return values
    known = np.flatnonzero(~blank)
    if len(known) < 2:
        return values
    holes = np.flatnonzero(blank)
    after = np.searchsorted(known, holes)
    between = (after > 0) & (after < len(known))
    holes, after = holes[between], after[between]
    near = times[known[after]] - times[known[after - 1]] <= longest_gap
    holes = holes[near]
    filled = values.copy()
    filled[holes] = np.interp(times[holes], times[known], values[known])
    return filled
