"""Thermocouples of one card of the recorder: they step together in one row, and no other does.

Each card has a cold junction of its own, which it adds to all its channels. Metal never steps, and
least of all at several places at once.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.record.faults.fault import Fault, Spell, fault
from hts.record.faults.fault_kinds import COLD_JUNCTION, HIGH, LEFT_OUT
from hts.record.faults.matrix import Mask, beside_steps
from hts.record.faults.signals import Chain, Signals
from hts.record.faults.stack import Stack
from hts.record.record import Floats

#: K that each steps by at the least, and at the most: more is an open circuit or another place. K
#: for each second between two rows that a program may bend by, and last digits: readings in coarse
#: digits step by one or two together. Basis: practice, no source.
_LEAST, _MOST, _BEND, _DIGITS = 4.0, 60.0, 0.066, 2.6
#: Times what it usually is off the steps around, so that noise makes no step. Basis: practice.
_TIMES = 5.0
#: Part, and K, that their steps may be unlike by; part of the step that others may step by, and
#: part of these that may step farther. Basis: practice, no source.
_ALIKE, _ALIKE_BY, _STILL, _RESTLESS = 0.3, 2.0, 0.4, 0.1
#: Rows either side whose level is compared, and intervals between rows that count.
#: Basis: practice, ours.
_ROWS, _REGULAR = 10, 1.5
#: Least squares: height, slope for each row and step of two lines of one slope, [3, rows], and what
#: makes them of the readings.
_SHAPES = np.stack(
    (np.ones(2 * _ROWS), np.arange(2 * _ROWS) - _ROWS, np.arange(2 * _ROWS) >= _ROWS)
).astype(np.float64)
_LINES = np.linalg.pinv(_SHAPES.T)
#: Times that they may be farther off two such lines than the others, or a part of the step.
#: Basis: practice, ours.
_UNEVEN, _EVEN = 2.0, 0.02
#: Part of the step by which a step back may be unlike it, and by which those that were wrong from
#: the start are off the others while all is cold; degC of a part that is. Basis: practice, ours.
_BACK, _OFF, _COLD = 0.4, 0.6, 45.0
#: Part of the step by which most of the others go the same way about it, where it is heat.
#: Basis: practice, no source.
_WITH = 0.25
#: Most steps of a recorder in one run: more is a loose contact. Basis: practice, no source.
_SEVERAL, _LOOSE = 2, 12


class _Step(NamedTuple):
    """Before this row these `chains` (a mask of them) went up by `level` K at once."""

    row: int
    chains: Mask
    level: float


def cards(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple that stepped with others."""
    chains = [one for one in signals.chains.values() if not signals.faulty(one.tag)]
    least = max(
        _LEAST,
        _DIGITS * max((one.resolution for one in chains), default=0.0),
        _BEND * signals.record.interval,
    )
    # A step is off those around by twice the largest at the most.
    may = 2 * signals.matrix.largest_steps[[one.row for one in chains]] >= least
    if signals.arc_heats or len(chains) <= _SEVERAL or np.count_nonzero(may) < _SEVERAL:
        return []
    steps = _together(signals, chains, may, least)
    if not 0 < len(steps) < _LOOSE:
        return []
    found = []
    for at, chain in enumerate(chains):
        own = [step for step in steps if step.chains[at]]
        if own:
            found.append(_fault(signals, chains, chain, own))
    return found


def may_step_in_part(stack: Stack) -> Mask:
    """Those in which two and more step by so much in one row."""
    return stack.step_together(max(_LEAST, _BEND * stack.like.record.interval))


def _together(signals: Signals, chains: list[Chain], may: Mask, least: float) -> list[_Step]:
    """The rows before which several stepped, and the others did not."""
    values = signals.rows(signals.matrix.values, chains)
    steps = signals.rows(signals.matrix.steps, chains)
    off = beside_steps(steps[may])
    with np.errstate(invalid="ignore"):
        large = np.abs(off) >= least
    rows = np.flatnonzero(np.count_nonzero(large, axis=0) >= _SEVERAL)
    if not len(rows):
        return []
    usual = _TIMES * np.nanmedian(np.abs(off), axis=1) if off.size else np.zeros(len(off))
    found = []
    for row in rows.tolist():
        stepped = np.zeros(len(chains), dtype=np.bool_)
        stepped[may] = large[:, row] & (np.abs(off[:, row]) >= usual)
        step = _step(signals, values, row + 3, stepped)
        if step is not None and abs(step.level) >= least:
            found.append(step)
    return found


def _step(signals: Signals, values: Floats, row: int, stepped: Mask) -> _Step | None:
    """The step of these before this row; None where it does not last, or others step as well."""
    if np.count_nonzero(stepped) < _SEVERAL or stepped.all():
        return None
    if not _ROWS <= row <= values.shape[1] - _ROWS:
        return None
    about = slice(row - _ROWS, row + _ROWS)
    if np.any(np.diff(signals.elapsed[about]) > _REGULAR * signals.record.interval):
        return None
    # A line of the same slope before and after, and a step between the two.
    fitted = values[:, about] @ _LINES.T
    levels, slopes = fitted[:, 2], fitted[:, 1]
    rest = np.sqrt(np.mean((values[:, about] - fitted @ _SHAPES) ** 2, axis=1))
    at_once = values[:, row] - values[:, row - 1] - slopes
    level, others = float(np.median(levels[stepped])), ~stepped & np.isfinite(levels)
    if not _LEAST <= abs(level) <= _MOST or not others.any():
        return None
    alike = np.abs(levels - level) <= max(_ALIKE_BY, _ALIKE * abs(level))
    # All of it in that row: what stood still and caught up was wrong before.
    alike &= np.abs(at_once - level) <= max(_ALIKE_BY, _ALIKE * abs(level))
    alike &= rest <= max(_UNEVEN * float(np.median(rest[others])), _EVEN * abs(level))
    with_them = np.abs(at_once[others]) > max(_STILL * abs(level), _ALIKE_BY)
    if not alike[stepped].all() or np.mean(with_them) > _RESTLESS:
        return None
    if _all_go(values, row, slopes, others, level):
        return None
    return _Step(row, stepped, level)


def _all_go(values: Floats, row: int, slopes: Floats, others: Mask, level: float) -> bool:
    """Whether the others go the same way about that row, beyond their slope: contactors that close
    warm all, and what lies at a heater by more."""
    change = values[:, row + 1] - values[:, row - 2] - 3 * slopes
    return bool(np.nanmedian(change[others]) * np.sign(level) >= _WITH * abs(level))


def _fault(signals: Signals, chains: list[Chain], chain: Chain, own: list[_Step]) -> Fault:
    tags = [one.tag for one, its in zip(chains, own[0].chains.tolist(), strict=True) if its]
    level, times, clock = own[0].level, signals.elapsed, signals.record.clock
    sentence = f"{', '.join(tags[:-1])} and {tags[-1]} step {'up' if level > 0 else 'down'} by "
    sentence += f"{signals.kelvin(abs(level))} in one row at {clock(times[own[0].row])}"
    spells, sound_at_first = _wrong(signals, chains, own)
    if sound_at_first and spells[-1].end < signals.record.end:
        sentence += f", and back at {clock(times[own[-1].row])}"
    elif not sound_at_first:
        sentence += ", from off the others while cold to where they are"
    sentence += "; the others do not"
    return fault(
        COLD_JUNCTION, chain.tag, spells[0].start, spells[-1].end, sentence, HIGH, LEFT_OUT,
        tuple(spells) if len(spells) > 1 else (),
    )  # fmt: skip


def _wrong(signals: Signals, chains: list[Chain], own: list[_Step]) -> tuple[list[Spell], bool]:
    """The stretches in which they are off, and whether they were right at first."""
    times = signals.elapsed
    off = 0.0 if (right := not _off_at_first(signals, chains, own[0])) else -own[0].level
    since, spells = 0, []
    for step in own:
        back = bool(off) and abs(off + step.level) <= _BACK * abs(off)
        if back:
            spells.append(Spell(float(times[since]), float(times[step.row - 1])))
            off = 0.0
            continue
        since, off = (since if off else step.row), off + step.level
    if off:
        spells.append(Spell(float(times[since]), signals.record.end))
    return spells, right


def _off_at_first(signals: Signals, chains: list[Chain], step: _Step) -> bool:
    """Whether they stood off the others, the other way than they step, while all was cold."""
    first = np.array([one.values[0] for one in chains])
    its, others = (float(np.nanmedian(first[which])) for which in (step.chains, ~step.chains))
    return others <= _COLD and (others - its) / step.level >= _OFF
