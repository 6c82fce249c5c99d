"""What each fault of a chain makes of the true temperature, fitted to what was read.

`true` is what the thermocouple should read by those beside it, `read` what it does. The fault whose
course explains the most of the difference is named; where none explains enough, none is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from hts.record.faults.fault_kinds import (
    DETACHED,
    DRIFT,
    EXTENSION_REVERSED,
    LEAKS,
    NEAR_HEATER,
    OFFSET,
    SHORTED,
    WRONG_SCALE,
    WRONG_TYPE,
    WRONG_UNIT,
    FaultKind,
)
from hts.record.faults.matrix import Mask, Rows
from hts.record.record import Floats
from hts.science.thermocouples.errors import ThermocoupleError
from hts.science.thermocouples.faults import wrong_input

#: Types a recorder is set to by mistake.
_TYPES = ("K", "N", "J", "E", "T", "S", "R")
#: Those whose wire is attached by mistake: of base metal, and for such heat. Basis: practice.
_WIRES = ("K", "N", "J", "E")
#: degC of the terminals of the recorder. Basis: practice, no source; a few K shift all by little.
_TERMINALS = 25.0
#: Part of the squared difference a fault must explain; by how much the logarithm of what is left
#: must fall for each free figure, for a step fits anything a little; and the part that is noise.
#: Basis: practice, no source.
_EXPLAINS, _EACH, _NOISE = 0.85, 0.5, 1e-4
#: A setting has nothing free: one that explains this much is it, though a share fits as well.
#: Basis: practice, ours.
SETTINGS, _EXACT = (WRONG_TYPE, WRONG_UNIT, WRONG_SCALE), 0.99
#: Part of a step that is there within four rows. Basis: practice, ours.
_SHARP = 0.6
#: Places a change is looked for at, and time constants, s, of a fall. Basis: practice, no source.
_MOMENTS, _FALLS = 400, (120.0, 300.0, 600.0)
#: Share of the rise by which a junction that is off the part may read lower at the most, and what
#: is put down to rounding where fits at all moments are made together. Basis: practice, ours.
_LEAST_LEFT, _BY_ROUNDING = -1.05, 1e-6
#: degC from which insulation may leak. Basis: practice: braid and binder go from 450 degC.
_LEAKING = (350.0, 450.0, 550.0)
#: s. Time constant of a lagged part's loss, for what heaters give. Basis: practice, no source.
_LOSS = 7.0 * 3600.0
#: Share of the rise, and K, that a reversed extension costs at the most (derived: its head is up to
#: 80 K warmer than the instrument, 2 [E(head) - E(instrument)]).
_MOST_SHARE, _MOST = 0.5, 160.0
#: Share of the highest rise that a part is held at. Basis: practice, ours.
_HELD = 0.97
#: Share of it from which a wire may change by its heat, part of the reading it changes by at the
#: most, and the part of the difference this must explain: a place that is left cold looks alike.
#: Basis: practice, no source.
_CHANGES, _CHANGES_BY, _PLAINLY = 0.5, 0.1, 0.98
#: Share of the rise at which the hold begins, s before and after that are compared; the part by
#: which a junction near a heater reads lower then, and K. Basis: practice, no source; derived for
#: an extension: its head goes with a time constant of hours, and makes a twentieth.
_ARRIVED, _BEFORE, _AFTER = 0.99, (-2400.0, -600.0), (900.0, 2700.0)
_FOLLOWS, _FALLS_BY = 0.12, 4.0
#: K of rise at which the part is yet cold, and K above the others then that no sound wire has
#: beside others of its lot. Basis: practice, no source.
_COLD, _HIGH_BY = 10.0, 4.0
#: K by which a decimal point or a unit set wrong may miss what is read while the part is cold.
#: Basis: practice, ours.
_AS_COLD = 8.0
#: Part of the readings that must be on the scale of a type to say that it is set, and the share of
#: the rise from which more is no offset. Basis: practice, no source.
_ON_SCALE, _NO_OFFSET = 0.8, 0.5
#: K a type or unit set wrong shifts a reading at the hold, at the least, to be told from error.
#: Basis: practice, ours.
_PLAIN = 15.0


class Look(NamedTuple):
    """One thermocouple: `times` s, `true` and `read` degC on the same rows, all known; `air` degC,
    `type` the letter of its wire. `own` tells whether `true` is by those of its own zone: zones
    differ by some kelvin, and never by the same."""

    times: Floats
    true: Floats
    read: Floats
    air: float
    type: str
    own: bool = True

    @property
    def held_until(self) -> float:
        """s, the last moment at which the part is as hot as it gets: from then on it cools, at
        every place in its own way."""
        rise = self.true - self.air
        return float(self.times[np.flatnonzero(rise >= _HELD * np.max(rise))[-1]])


class Signature(NamedTuple):
    """A fault that explains the difference, the part of it, from when to when (None: to the end),
    its figure in words, and the share of the rise that is left."""

    kind: FaultKind
    explains: float
    since: float
    figure: str
    until: float | None = None
    share: float = 1.0


def signature(look: Look) -> Signature | None:
    """The fault that explains the difference best, None where none does well enough."""
    error = look.read - look.true
    whole = float(error @ error)
    if whole <= 0:
        return None
    found: list[tuple[float, Signature]] = []
    for fit in _all(look):
        rest = error - fit.expected
        explains = 1 - float(rest @ rest) / whole
        named = Signature(fit.kind, explains, fit.since, fit.figure, fit.until, fit.share)
        if explains >= fit.least:
            found.append((np.log(1 - explains + _NOISE) + _EACH * fit.free, named))
    exact = [named for _, named in found if named.kind in SETTINGS and named.explains >= _EXACT]
    if exact:
        return max(exact, key=lambda named: named.explains)
    if not found:
        return None
    best = min(found, key=lambda item: item[0])[1]
    if best.kind is EXTENSION_REVERSED and best.until is None and look.own:
        followed = _follows_output(look)
        if followed is not None and not _high_while_cold(look):
            figure = f"{best.figure}, off the metal as well, and {followed}"
            return best._replace(kind=NEAR_HEATER, figure=figure)
    return best


def _follows_output(look: Look) -> str | None:
    """Words for the fall of a reading beside the others when the heaters give less as the hold
    begins; None where it hardly falls.

    A heater is hotter than the part it heats by what it gives times the resistance between the two,
    so a junction at a heater reads high, most while heating, less in the hold, and right without
    power (derived); that is told by `_by_heat`. One that is off the metal as well, between heater
    and insulation, is low throughout and still falls by minutes with the output. An error of the
    extension goes with its head, which cools and warms over hours: no wiring falls like that.
    """
    rise = look.true - look.air
    arrived = float(look.times[np.argmax(rise >= _ARRIVED * rise.max())])
    share = (look.read - look.true) / np.maximum(rise, 1.0)
    before, after = (
        share[(look.times >= arrived + start) & (look.times <= arrived + end)]
        for start, end in (_BEFORE, _AFTER)
    )
    if min(len(before), len(after)) < 3:
        return None
    fall = float(after.mean() - before.mean())
    if fall / float(before.mean()) < _FOLLOWS or -fall * float(rise.max()) < _FALLS_BY:
        return None
    return f"{-fall * rise.max():.0f} K more when the heaters gave less at the hold"


def _high_while_cold(look: Look) -> bool:
    """Whether it begins above the others: an extension reversed at both ends reads high while its
    head is yet cooler than the instrument (derived), and what touches a heater does not."""
    cold = look.true - look.air <= _COLD
    return bool(cold.any()) and float(np.median((look.read - look.true)[cold])) >= _HIGH_BY


class _Fit(NamedTuple):
    """`free` figures were fitted; `expected` is the difference the fault makes [rows], K. `least`
    is the part that it must explain."""

    kind: FaultKind
    free: int
    since: float
    figure: str
    expected: Floats
    until: float | None = None
    share: float = 1.0
    least: float = _EXPLAINS


def _all(look: Look) -> Iterator[_Fit]:
    yield from _settings(look)
    yield from _shares(look)
    yield from _in_time(look)
    yield from _by_heat(look)


def _settings(look: Look) -> Iterator[_Fit]:
    """Settings of the recorder: nothing is free in them."""
    start = float(look.times[0])
    pairs = [(look.type, input, reading) for input, reading in settings(look.type)]
    # As well the wire may be another than the text says, on an input that is set by it.
    pairs += [(one, look.type, _Reading(one, look.type)) for one in _WIRES if one != look.type]
    for wire, input, reading in pairs:
        expected = reading(look.true)
        known = np.isfinite(expected)
        # Off the scale of that type nothing is expected, and nothing explained.
        expected = np.where(known, expected, look.read)
        if known.mean() >= _ON_SCALE and np.abs(expected - look.true)[known].max() >= _PLAIN:
            figure = f"as type {input} where the wire is {wire}"
            yield _Fit(WRONG_TYPE, 0, start, figure, expected - look.true)
    cold = look.true - look.air <= _COLD
    for kind, figure, expected in (
        (WRONG_UNIT, "degF read as degC", look.true * 1.8 + 32),
        (WRONG_UNIT, "degC read as degF", (look.true - 32) / 1.8),
        (WRONG_SCALE, "ten times too much", look.true * 10.0),
        (WRONG_SCALE, "a tenth", look.true * 0.1),
    ):
        # Wires that touch, and what is off the metal, read the air as it is while all is cold.
        if not cold.any() or abs(float(np.median((look.read - expected)[cold]))) <= _AS_COLD:
            yield _Fit(kind, 0, start, figure, expected - look.true)


def settings(wire: str) -> list[tuple[str, Callable[[Floats], Floats]]]:
    """Each other type a recorder may be set to, and what a wire then reads, NaN off its scale."""
    return [(input, _Reading(wire, input)) for input in _TYPES if input != wire]


class _Reading:
    def __init__(self, wire: str, input: str) -> None:
        self._wire, self._input = wire, input

    def __call__(self, true: Floats) -> Floats:
        grid, table = _table(self._wire, self._input)
        return np.asarray(np.interp(true, grid, table, left=np.nan, right=np.nan))


@lru_cache(maxsize=64)
def _table(wire: str, input: str) -> tuple[Floats, Floats]:
    grid = np.arange(-20.0, 1000.0, 5.0)
    table = np.full(len(grid), np.nan)
    for at, celsius in enumerate(grid.tolist()):
        try:
            table[at] = wrong_input(wire, input, celsius, _TERMINALS)
        except ThermocoupleError:
            continue
    return grid, table


def _shares(look: Look) -> Iterator[_Fit]:
    """The same share of the rise throughout, or the same difference."""
    start = float(look.times[0])
    rise, error = look.true - look.air, look.read - look.true
    share = _least(rise, error)
    if share < 0:
        figure = f"low by {-share:.0%} of the rise throughout"
        # A head is much cooler than the part: half of the rise, or 160 K, it cannot cost.
        cable = share >= -_MOST_SHARE and float(np.max(-share * rise)) <= _MOST
        kind = EXTENSION_REVERSED if cable else SHORTED
        yield _Fit(kind, 1 if cable else 3, start, figure, share * rise)
    elif share <= _NO_OFFSET:
        figure = f"high by {share:.0%} of the rise throughout"
        yield _Fit(OFFSET, 1, start, figure, share * rise)
    even = float(np.mean(error))
    yield _Fit(OFFSET, 1, start, f"{even:+.0f} K throughout", np.full(len(error), even))


def _in_time(look: Look) -> Iterator[_Fit]:
    """Something happened at one moment: a step, a drift, a fall to another place."""
    count = len(look.times)
    moments = np.unique(np.linspace(3, count - 4, min(_MOMENTS, count - 7)).astype(int))
    for at in _best_moments(look, moments).tolist():
        yield from _at_moment(look, at)


def _at_moment(look: Look, at: int) -> Iterator[_Fit]:
    times, error, rise = look.times, look.read - look.true, look.true - look.air
    since = float(times[at])
    after = times >= since
    passed = np.where(after, times - since, 0.0)
    step = float(np.mean(error[after]))
    figure = f"a step of {step:+.0f} K"
    if _is_sharp(error, at, step):
        yield _Fit(OFFSET, 2, since, figure, np.where(after, step, 0.0))
    hours = passed / 3600
    share = _least(hours * look.true, error)
    figure = f"{share:+.1%} of the reading more each hour"
    yield _Fit(DRIFT, 2, since, figure, share * hours * look.true)
    if _is_hot(look)[at]:
        hours = np.minimum(passed, look.held_until - since) / 3600
        share = _least(hours * look.true, error)
        figure = f"{share:+.1%} of the reading more each hour of heat"
        if abs(share) * hours[-1] < _CHANGES_BY:
            yield _Fit(DRIFT, 2, since, figure, share * hours * look.true, least=_PLAINLY)
    whole = np.where(after, rise, 0.0)
    share = _least(whole, error)
    if _LEAST_LEFT < share < 0:
        figure = f"at once to {1 + share:.0%} of the rise"
        yield _Fit(SHORTED, 2, since, figure, share * whole, None, 1 + share)
    for constant in _FALLS:
        slowly = whole * (1 - np.exp(-passed / constant))
        share = _least(slowly, error)
        if _LEAST_LEFT < share < 0:
            figure = f"within {3 * constant / 60:.0f} min to {1 + share:.0%} of the rise"
            yield _Fit(DETACHED, 3, since, figure, share * slowly, None, 1 + share)
    mended = np.where(after, 0.0, rise)
    share = _least(mended, error)
    if -_MOST_SHARE < share < 0:
        figure = f"low by {-share:.0%} of the rise until it was mended"
        start = float(times[0])
        yield _Fit(EXTENSION_REVERSED, 2, start, figure, share * mended, since)


def _is_hot(look: Look) -> Mask:
    """The rows at which a wire may begin to change: it does so while it is hot, and what has
    changed stays as the part cools."""
    rise = look.true - look.air
    return np.asarray((rise >= _CHANGES * rise.max()) & (look.times < look.held_until))


def _is_sharp(error: Floats, at: int, step: float) -> bool:
    sharp = float(error[min(at + 1, len(error) - 1)] - error[max(at - 2, 0)])
    return bool(step) and sharp / step >= _SHARP


def _best_moments(look: Look, moments: Rows) -> Rows:
    """Those at which one of the fits of `_at_moment` may be the best of all, worked out for all
    moments together, and to within rounding: the others need not be made."""
    times, error, rise = look.times, look.read - look.true, look.true - look.air
    since = times[moments]
    passed = np.maximum(times - since[:, None], 0.0)

    def later(values: Floats) -> Floats:
        """Sums from each moment on."""
        return np.cumsum(values[::-1])[::-1][moments]

    scores = []

    def fitted(free: int, with_error: Floats, size: Floats, *may_be: Floats | float) -> None:
        """Takes in the fits of a shape: its products with the difference and with itself; the least
        and the most factor that it may have, and the part it must explain."""
        least, most, enough = may_be if len(may_be) > 2 else (*may_be, _EXPLAINS)
        with np.errstate(invalid="ignore", divide="ignore"):
            share = np.where(size > 0, with_error / size, 0.0)
            explains = share * with_error / float(error @ error)
            score = np.log(1 - explains + _NOISE) + _EACH * free
        may = (explains >= enough - _BY_ROUNDING) & (share > least) & (share < most)
        scores.append(np.where(may, score, np.inf))

    fitted(2, later(error), later(np.ones(len(error))), -np.inf, np.inf)
    grows = passed * look.true / 3600
    fitted(2, grows @ error, np.einsum("mr,mr->m", grows, grows), -np.inf, np.inf)
    hours = np.minimum(passed, (look.held_until - since)[:, None]) / 3600
    grows = np.where(_is_hot(look)[moments, None], hours * look.true, 0.0)
    most = _CHANGES_BY / np.maximum(hours[:, -1], 1e-9)
    fitted(2, grows @ error, np.einsum("mr,mr->m", grows, grows), -most, most, _PLAINLY)
    fitted(2, later(rise * error), later(rise * rise), _LEAST_LEFT - _BY_ROUNDING, _BY_ROUNDING)
    for constant in _FALLS:
        slowly = 1 - np.exp(-passed / constant)
        size = np.square(slowly) @ (rise * rise)
        fitted(3, slowly @ (rise * error), size, _LEAST_LEFT - _BY_ROUNDING, _BY_ROUNDING)
    before, size = (np.cumsum(rise * one)[moments - 1] for one in (error, rise))
    fitted(2, before, size, -_MOST_SHARE - _BY_ROUNDING, _BY_ROUNDING)
    best = np.min(scores, axis=0)
    least = float(best.min(initial=np.inf))
    return moments[best <= least + _BY_ROUNDING] if np.isfinite(least) else moments[:0]


def _by_heat(look: Look) -> Iterator[_Fit]:
    """High while heaters give much; low while the cable is hot."""
    start = float(look.times[0])
    error = look.read - look.true
    power = heat_given(look.times, look.true, look.air)
    share = _least(power, error)
    if share > 0:
        most = float(np.percentile(share * power, 95))
        figure = f"up to {most:.0f} K high while heated"
        yield _Fit(NEAR_HEATER, 1, start, figure, share * power)
    for begins in _LEAKING:
        hot = np.maximum(look.true - begins, 0.0) ** 1.5
        if not hot.any():
            continue
        share = _least(hot, error)
        if share < 0:
            figure = f"low only above {begins:.0f} degC, right again below"
            yield _Fit(LEAKS, 2, start, figure, share * hot)


def heat_given(times: Floats, true: Floats, air: float | Floats) -> Floats:
    """K/s, what heaters give to a part that is `true` degC at `times` s, or to several [parts,
    rows], over the heat capacity: what it stores and what it loses (derived)."""
    power: Floats = np.maximum(np.gradient(true, times, axis=-1) + (true - air) / _LOSS, 0.0)
    return power


def _least(shape: Floats, error: Floats) -> float:
    """The factor of a shape that comes nearest to the difference (least squares)."""
    size = float(shape @ shape)
    return float(shape @ error) / size if size > 0 else 0.0
