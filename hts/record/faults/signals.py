"""A record as the detectors look at it: what each thermocouple reads, and what the others do."""

from __future__ import annotations

from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from hts.job.compiler.units import Units
from hts.job.demands.watched import Watched
from hts.record.faults.fault import Fault, Spell
from hts.record.faults.fault_kinds import EXCHANGED, LEFT_OUT, PASSING
from hts.record.judging.words import Words
from hts.record.plan import Plan
from hts.record.record import OUTSIDE, Floats, Record, Series

Rows = NDArray[np.intp]
Mask = NDArray[np.bool_]

#: Rows that slow changes are looked at on; a change of level shows on every few minutes of a run.
_COARSE = 400
#: K/s. No part under heat treatment is heated or cooled faster: 540 K/h. Basis: practice, twice and
#: more what codes allow.
QUICKEST = 0.15
#: Places that are not on the part, or not meant to follow it.
_OFF_PART = ("ambient", "nearby item")
#: degC. A record that begins above it began with a hot part, and does not show the air; then the
#: air is taken to be at _AIR. Basis: practice, no source.
_COOL, _AIR = 40.0, 20.0
#: s from the start in which a chain shows its first reading. Basis: practice, ours.
_FIRST = 1800.0
#: K. Finer digits are those of a conversion from another unit. Basis: practice, ours.
_FINEST = 0.01
#: Pairs of rows that slopes are taken from: what most of them do shows on a part of them.
_PAIRS = 3000


class Chain:
    """One thermocouple: `values` float64 [rows] degC, NaN where nothing is known or a fault
    found before has explained the reading; `raw` and `status` as in the file."""

    def __init__(self, tag: str, series: Series, watched: Watched | None) -> None:
        self.tag = tag
        self.values = series.values
        self.raw = series.as_read
        self.status = series.status
        self.watched = watched
        self._read = series.values

    def leave_out(self, rows: slice) -> None:
        if self.values is self._read:
            self.values = self.values.copy()
        self.values[rows] = np.nan

    @cached_property
    def resolution(self) -> float:
        """The last digit of its readings, K; 0 where nothing changes."""
        values = self._read
        sample = values[: 20000 : max(1, min(len(values), 20000) // 2000)]
        steps = np.diff(np.unique(np.round(sample[np.isfinite(sample)], 6)))
        if not len(steps):
            return 0.0
        # Of a few readings on a ramp no two need be neighbours: the digit is what all share.
        shared = float(np.gcd.reduce(np.round(steps * 1000).astype(np.int64))) / 1000
        return shared if shared >= _FINEST else float(steps.min())

    @cached_property
    def extremes(self) -> tuple[float, float]:
        """degC, the lowest and the highest reading, with those a fault has explained; NaN where
        there is none. No reading lies beyond: most chains can be passed over by that."""
        return float(np.fmin.reduce(self._read)), float(np.fmax.reduce(self._read))

    @cached_property
    def whole(self) -> bool:
        """Whether every cell held a reading."""
        return not self.status.any()

    @property
    def on_part(self) -> bool:
        return self.watched is None or self.watched.place not in _OFF_PART

    @property
    def every(self) -> Floats:
        """The values, and the numbers that are no possible temperature."""
        if self.whole:
            return self.values
        outside = self.status == OUTSIDE
        return np.where(outside, self.raw, self.values) if outside.any() else self.values

    @property
    def required(self) -> bool:
        return self.watched is not None and self.watched.required

    @property
    def zone(self) -> str:
        return self.watched.zone if self.watched is not None else ""


class Signals:
    """`chains` by tag. `coarse` are the rows that slow changes are looked at on."""

    def __init__(self, record: Record, plan: Plan | None) -> None:
        self.record = record
        self.plan = plan
        self.words = Words(plan.job.units if plan is not None else Units())
        self.elapsed = record.elapsed
        watched = plan.by_tag if plan is not None else {}
        self.chains: dict[str, Chain] = {}
        for tag, series in record.series.items():
            one = watched.get(tag)
            if one is not None and not one.source.connected:
                continue
            self.chains[tag] = Chain(tag, series, one)
        self.coarse = _coarse(len(self.elapsed))
        self._sampled: dict[str, Floats] = {}
        self.found: list[Fault] = []
        self._faulty: set[str] = set()
        self._explained: set[str] = set()
        self._exchanged: set[str] = set()
        self._unheated: set[str] = set()
        self._peers: dict[str, list[Chain]] = {}
        self._references: dict[str, Floats] = {}
        self._air: float | None = None
        self._quick: float | None = None

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
            tags = [fault.tag] if fault.tag else list(self.chains)
            if fault.treatment != LEFT_OUT or fault.tag not in ("", *self.chains):
                continue
            for tag in tags:
                for spell in fault.wrong:
                    self.chains[tag].leave_out(self.record.between(*spell))
            if sum(spell.end - spell.start for spell in fault.wrong) >= 0.5 * self.record.end:
                self._faulty.update(tags)
            self._sampled.clear()
            self._peers.clear()
            self._references.clear()
            self._air = self._quick = None

    def sampled(self, chain: Chain) -> Floats:
        """Its values on the coarse rows."""
        if chain.tag not in self._sampled:
            self._sampled[chain.tag] = chain.values[self.coarse]
        return self._sampled[chain.tag]

    def explained(self, tag: str) -> bool:
        """Whether a fault has been found that may be behind whatever else is odd about it."""
        return tag in self._explained

    def exchanged(self, tag: str) -> bool:
        """Whether its channel is changed over with another: then it tells nothing of its place."""
        return tag in self._exchanged

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
            self._peers[tag] = self._found_peers(tag)
        return self._peers[tag]

    def _found_peers(self, tag: str) -> list[Chain]:
        others = [
            chain
            for chain in self.chains.values()
            if chain.tag != tag and chain.on_part and not self.faulty(chain.tag)
        ]
        required = [one for one in others if one.required]
        return required if len(required) > 1 else others

    def reference(self, tag: str) -> Floats:
        """Median of the peers on the coarse rows, degC, NaN where none of them reads."""
        if tag not in self._references:
            peers = self.peers(tag)
            known = next((one for one in self._references if self.peers(one) == peers), None)
            if known is not None:
                self._references[tag] = self._references[known]
            elif peers:
                self._references[tag] = middle(np.array([self.sampled(peer) for peer in peers]))
            else:
                self._references[tag] = np.full(len(self.coarse), np.nan)
        return self._references[tag]

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
        beginning = self.record.between(0.0, _FIRST)
        first = [
            float(chain.values[int(np.argmax(known))])
            for chain in self.chains.values()
            if chain.on_part
            for known in [np.isfinite(chain.values[beginning])]
            if known.any()
        ]
        start = float(np.median(first)) if first else _AIR
        return start if start <= _COOL else _AIR

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
    edges = np.flatnonzero(mask[1:] != mask[:-1]) + 1
    ends = ([0] if mask[:1].any() else [], [len(mask)] if mask[-1:].any() else [])
    edges = np.concatenate((ends[0], edges, ends[1])).astype(np.intp)
    first, after = edges[::2], edges[1::2]
    long = after - first >= least
    return list(zip(first[long].tolist(), (after[long] - 1).tolist(), strict=True))


def spells(elapsed: Floats, mask: Mask) -> tuple[Spell, ...]:
    """The runs of True as stretches of time."""
    return tuple(Spell(float(elapsed[a]), float(elapsed[b])) for a, b in runs(mask))


def middle(values: Floats) -> Floats:
    """Median over the first axis, NaN left aside."""
    values = np.sort(values, axis=0)
    rows = len(values)
    if not np.isnan(values[-1]).any():
        return np.asarray((values[(rows - 1) // 2] + values[rows // 2]) / 2, dtype=np.float64)
    count = np.isfinite(values).sum(axis=0)
    at = np.arange(values.shape[1])
    low, high = np.maximum(count - 1, 0) // 2, count // 2
    high = np.minimum(high, rows - 1)
    found: Floats = np.where(count > 0, (values[low, at] + values[high, at]) / 2, np.nan)
    return found


@lru_cache(maxsize=16)
def _coarse(rows: int) -> Rows:
    return np.unique(np.linspace(0, rows - 1, min(rows, _COARSE)).astype(np.intp))
