"""A record as the detectors look at it: what each thermocouple reads, and what the others do."""

from __future__ import annotations

from functools import cached_property, lru_cache
from statistics import median

import numpy as np

from hts.job.compiler.program import PREHEAT
from hts.job.compiler.units import Units
from hts.job.demands.watched import Watched
from hts.record.faults.digits import last_digits
from hts.record.faults.fault import Fault, Spell
from hts.record.faults.fault_kinds import COPIED, EXCHANGED, LEFT_OUT, MISLEADING, PASSING
from hts.record.faults.matrix import Mask, Matrix, Middles, Rows, highest_of, lowest_of
from hts.record.judging.words import Words
from hts.record.plan import CONTROLS, Plan
from hts.record.record import OUTSIDE, Floats, Record, Series

__all__ = ["OFF_PART", "Chain", "Mask", "Rows", "Signals", "ends_of_runs", "runs", "spells"]

#: Rows that slow changes are looked at on; a change of level shows on every few minutes of a run.
_COARSE = 400
#: K/s. No part under heat treatment is heated or cooled faster: 540 K/h. Basis: practice, twice and
#: more what codes allow.
QUICKEST = 0.15
#: Places that are not on the part, or not meant to follow it.
OFF_PART = ("ambient", "nearby item")
#: degC. A record that begins above it began with a hot part, and does not show the air; then the
#: air is taken to be at AIR. Basis: practice, no source.
COOL, AIR = 40.0, 20.0
#: s from the start in which a chain shows its first reading. Basis: practice, ours.
_FIRST = 1800.0
#: Pairs of rows that slopes are taken from: what most of them do shows on a part of them.
_PAIRS = 3000


class Chain:
    """One thermocouple: `values` float64 [rows] degC, NaN where nothing is known or a fault
    found before has explained the reading, the `row` of the matrix; `raw` and `status` as in the
    file. `held` tells whether it sits where the part is held: required, or the spare of such one.
    `extremes` degC are its lowest and highest reading, with those a fault has explained, NaN
    where there is none: most chains can be passed over by that. `resolution` is the last digit of
    its readings, K; 0 where nothing changes."""

    def __init__(self, series: Series, watched: Watched | None, row: int, values: Floats) -> None:
        self.tag = series.tag
        self.row = row
        self.values = values
        self.raw = series.as_read
        self.status = series.status
        self.watched = watched
        self.on_part = watched is None or watched.place not in OFF_PART
        self.required = self.held = watched is not None and watched.required
        self.zone = watched.zone if watched is not None else ""
        self.extremes = (float("nan"), float("nan"))
        self.resolution = 0.0

    @cached_property
    def whole(self) -> bool:
        """Whether every cell held a reading."""
        return not self.status.any()

    @property
    def every(self) -> Floats:
        """The values, and the numbers that are no possible temperature."""
        if self.whole:
            return self.values
        outside = self.status == OUTSIDE
        return np.where(outside, self.raw, self.values) if outside.any() else self.values


class Signals:
    """`chains` by tag. `coarse` are the rows that slow changes are looked at on."""

    def __init__(self, record: Record, plan: Plan | None) -> None:
        self.record = record
        self.plan = plan
        self.words = Words(plan.job.units if plan is not None else Units())
        self.elapsed = record.elapsed
        watched = plan.by_tag if plan is not None else {}
        connected = {
            tag: series
            for tag, series in record.series.items()
            if (its := watched.get(tag)) is None or its.source.connected
        }
        values = np.empty((len(connected), len(self.elapsed)))
        self.chains: dict[str, Chain] = {}
        for row, (tag, series) in enumerate(connected.items()):
            values[row] = series.values
            self.chains[tag] = Chain(series, watched.get(tag), row, values[row])
        for chain in self.chains.values():
            if chain.watched is not None and chain.watched.spare_of in self.chains:
                chain.held |= self.chains[chain.watched.spare_of].required
        lowest, highest = lowest_of(values), highest_of(values)
        chains = self.chains.values()
        for chain, *extremes in zip(chains, lowest.tolist(), highest.tolist(), strict=True):
            chain.extremes = (extremes[0], extremes[1])
        digits = last_digits(values)
        for chain, digit in zip(chains, digits.tolist(), strict=True):
            chain.resolution = digit
        self.coarse = _coarse(len(self.elapsed))
        self.matrix = Matrix(values, self.coarse, digits)
        self.found: list[Fault] = []
        #: Rows that are left out of all; None where there are none.
        self.gone: Mask | None = None
        self._faulty: set[str] = set()
        self._explained: set[str] = set()
        self._exchanged: set[str] = set()
        self._copied: set[str] = set()
        self._unheated: set[str] = set()
        self._misled: set[str] = set()
        self._sound: tuple[list[Chain], list[Chain]] | None = None
        self._references: dict[str, Floats] = {}
        self._behind: list[float] | None = None
        self._peers: dict[str, list[Chain]] = {}
        self._middles: dict[tuple[int, ...], Middles] = {}
        self._air: float | None = None
        self._quick: float | None = None

    @property
    def arc_heats(self) -> bool:
        """Whether it is welded meanwhile: an arc warms a place by tens of kelvin within a row."""
        return self.plan is not None and self.plan.kind == PREHEAT

    def degrees(self, celsius: float) -> str:
        """`610 degC`, in the unit of the job."""
        return self.words.temperature(celsius, places=0)

    def kelvin(self, difference: float) -> str:
        return self.words.difference(difference, places=0)

    def rate(self, kelvin_per_hour: float) -> str:
        return self.words.rate(kelvin_per_hour)

    def add(self, faults: list[Fault]) -> None:
        """Takes faults in; readings that are left out explain nothing any more."""
        for fault in faults:
            self.found.append(fault)
            if fault.zone:
                self._unheated.add(fault.zone)
            if fault.kind not in PASSING:
                self._explained.add(fault.tag)
            if fault.kind == EXCHANGED.name:
                self._explained.update(fault.others)
                self._exchanged.update((fault.tag, *fault.others))
            self._mislead(fault)
            if fault.kind == COPIED.name:
                self._copied.update((fault.tag, *fault.others))
            tags = [fault.tag] if fault.tag else list(self.chains)
            if fault.treatment != LEFT_OUT or fault.tag not in ("", *self.chains):
                continue
            rows = self.record.within(fault.wrong)
            if not fault.tag:
                self.gone = rows if self.gone is None else self.gone | rows
            for tag in tags:
                self.chains[tag].values[rows] = np.nan
            if sum(spell.end - spell.start for spell in fault.wrong) >= 0.5 * self.record.end:
                self._faulty.update(tags)
            self.matrix = Matrix(self.matrix.values, self.coarse, self.matrix.digits)
            self._sound = None
            self._peers.clear()
            self._middles.clear()
            self._references.clear()
            self._behind = None
            self._air = self._quick = None

    def _mislead(self, fault: Fault) -> None:
        its = self.chains.get(fault.tag)
        if its is None or its.watched is None or fault.kind not in MISLEADING:
            return
        if its.watched.duty == CONTROLS and its.zone:
            self._misled.add(its.zone)

    def misled(self, chain: Chain) -> bool:
        """Whether the control of its zone reads wrong: then what it reads may well be true, however
        far from the rest."""
        assert chain.watched is not None
        return chain.zone in self._misled and chain.watched.duty != CONTROLS

    def as_measured(self) -> Signals:
        """The same on the rows at which each has a reading of its own; itself where that are all.
        Faults are added to this one alone."""
        series = self.record.series
        if all(its.rows is None for its in series.values()):
            return self
        rows = np.flatnonzero(np.all([its.measured for its in series.values()], axis=0))
        if len(rows) == len(self.elapsed):
            return self
        thin = {
            tag: its._replace(
                values=self.chains[tag].values[rows] if tag in self.chains else its.values[rows],
                status=its.status[rows],
                raw=None if its.raw is None else its.raw[rows],
                rows=None,
            )
            for tag, its in series.items()
        }
        elapsed = self.elapsed[rows]
        apart = float(np.median(np.diff(elapsed))) if len(rows) > 1 else self.record.interval
        record = self.record._replace(elapsed=elapsed, series=thin, interval=apart)
        found = Signals(record, self.plan)
        found.found, found._faulty = self.found, self._faulty
        found.gone = None if self.gone is None else self.gone[rows]
        found._explained, found._exchanged = self._explained, self._exchanged
        found._copied, found._unheated = self._copied, self._unheated
        found._misled = self._misled
        return found

    def rows(self, array: Floats, chains: list[Chain]) -> Floats:
        """Those of an array of the matrix that are of these chains; no copy where all are."""
        if len(chains) == len(array):
            return array
        return np.asarray(array[[one.row for one in chains]], dtype=np.float64)

    def sampled(self, chain: Chain) -> Floats:
        """Its values on the coarse rows."""
        return np.asarray(self.matrix.sampled[chain.row], dtype=np.float64)

    def explained(self, tag: str) -> bool:
        """Whether a fault has been found that may be behind whatever else is odd about it."""
        return tag in self._explained

    def exchanged(self, tag: str) -> bool:
        """Whether its channel is changed over with another: then it tells nothing of its place."""
        return tag in self._exchanged

    def copied(self, tag: str) -> bool:
        """Whether it is a copy of another, or the other: one of them tells nothing of its place."""
        return tag in self._copied

    def unheated(self, chain: Chain) -> bool:
        """Whether its zone lost its heat: then it is low because the part is."""
        return bool(chain.zone) and chain.zone in self._unheated

    @property
    def zone_cold(self) -> Mask:
        """The coarse rows at which a zone is without its heat: then places near it are colder than
        the others of their own zone, and no chain is wrong for it."""
        times = self.elapsed[self.coarse]
        cold = np.zeros(len(times), dtype=np.bool_)
        for fault in self.found:
            if fault.zone:
                end = fault.end if fault.over else np.inf
                cold |= (times >= fault.start) & (times <= end)
        return cold

    def faulty(self, tag: str) -> bool:
        """Whether most of what it reads was left out."""
        return tag in self._faulty

    def peers(self, tag: str) -> list[Chain]:
        """The others on the part; those that must be in range, where there are two."""
        if tag not in self._peers:
            self._peers[tag] = [chain for chain in self.with_peers(tag) if chain.tag != tag]
        return self._peers[tag]

    def with_peers(self, tag: str) -> list[Chain]:
        """Those that its peers are among, and itself where it is one of them."""
        if self._sound is None:
            sound = [one for one in self.chains.values() if one.on_part]
            sound = [one for one in sound if not self.faulty(one.tag)]
            self._sound = (sound, [one for one in sound if one.required])
        sound, required = self._sound
        alone = len(required) < 2 or (len(required) == 2 and tag in [one.tag for one in required])
        return sound if alone else required

    def reference(self, tag: str) -> Floats:
        """Median of the peers on the coarse rows, degC, NaN where none of them reads."""
        if tag not in self._references:
            group, own = self.with_peers(tag), self.chains.get(tag)
            among = own is not None and own in group
            if len(group) == among:
                self._references[tag] = np.full(len(self.coarse), np.nan)
            elif own is None or not among:
                self._references[tag] = self.middles(group).of_all
            else:
                self._references[tag] = self.beside(own, group)
        return self._references[tag]

    def behind(self, chain: Chain) -> float:
        """K that it is below its reference at the most, on the coarse rows; NaN where that is not
        known."""
        if self._behind is None:
            references = np.array([self.reference(tag) for tag in self.chains])
            below = references - self.matrix.sampled
            self._behind = highest_of(below).tolist()
        return self._behind[chain.row]

    def beside(self, chain: Chain, group: list[Chain]) -> Floats:
        """Median of the others of a group on the coarse rows, degC."""
        return np.asarray(self.middles(group).without_each[group.index(chain)], dtype=np.float64)

    def middles(self, chains: list[Chain]) -> Middles:
        """Medians of these on the coarse rows."""
        rows = tuple([one.row for one in chains])
        if rows not in self._middles:
            self._middles[rows] = Middles(self.rows(self.matrix.sampled, chains))
        return self._middles[rows]

    def air(self) -> float:
        """degC of the air round the part."""
        if self._air is None:
            self._air = self._measured_air()
        return self._air

    def _measured_air(self) -> float:
        for chain in self.chains.values():
            if chain.watched is not None and chain.watched.place == "ambient":
                known = chain.values[np.isfinite(chain.values)]
                if len(known):
                    return float(np.median(known))
        on_part = [one for one in self.chains.values() if one.on_part]
        beginnings = (self.first(one, _FIRST) for one in on_part)
        first = [value for value in beginnings if value is not None]
        start = median(first) if first else AIR
        return start if start <= COOL else AIR

    def first(self, chain: Chain, within: float) -> float | None:
        """degC, its first reading within so many s from the start; None where it has none then."""
        # Nearly all begin with the first row.
        first = float(chain.values[0])
        if first == first:
            return first
        values = chain.values[self.record.between(0.0, within)]
        known = values[np.isfinite(values)]
        return float(known[0]) if len(known) else None

    def quick(self) -> float:
        """K/s that no reading of the part exceeds: QUICKEST, or what most of the chains do."""
        if self._quick is None:
            self._quick = max(QUICKEST, 3 * self._typical())
        return self._quick

    def _typical(self) -> float:
        pairs = np.unique(np.linspace(0, len(self.elapsed) - 2, _PAIRS).astype(np.intp))
        dt = self.elapsed[pairs + 1] - self.elapsed[pairs]
        typical = []
        for chain in self.chains.values():
            slopes = np.abs(chain.values[pairs + 1] - chain.values[pairs]) / dt
            slopes = slopes[np.isfinite(slopes)]
            if len(slopes) > 20:
                # The step of the last digit is no slope.
                last_digit = 2 * chain.resolution / float(dt.min())
                typical.append(float(np.percentile(slopes, 95)) - last_digit)
        return float(np.median(typical)) if typical else 0.0


def runs(mask: Mask, least: int = 1) -> list[tuple[int, int]]:
    """First and last row of each run of True that has `least` rows and more."""
    first, last = ends_of_runs(mask, least)
    return list(zip(first.tolist(), last.tolist(), strict=True))


def ends_of_runs(mask: Mask, least: int = 1) -> tuple[Rows, Rows]:
    """The first rows of them, and the last."""
    edges = np.flatnonzero(mask[1:] != mask[:-1]) + 1
    ends = ([0] if mask[:1].any() else [], [len(mask)] if mask[-1:].any() else [])
    edges = np.concatenate((ends[0], edges, ends[1])).astype(np.intp)
    first, after = edges[::2], edges[1::2]
    long = after - first >= least
    return first[long], after[long] - 1


def spells(elapsed: Floats, mask: Mask) -> tuple[Spell, ...]:
    """The runs of True as stretches of time."""
    return tuple(Spell(float(elapsed[a]), float(elapsed[b])) for a, b in runs(mask))


@lru_cache(maxsize=16)
def _coarse(rows: int) -> Rows:
    return np.unique(np.linspace(0, rows - 1, min(rows, _COARSE)).astype(np.intp))
