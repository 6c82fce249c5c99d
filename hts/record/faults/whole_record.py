"""Faults of all channels at once: the unit, the type, the cold junction of the recorder."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import COLD_JUNCTION, HIGH, KEPT, MEDIUM, WRONG_TYPE, WRONG_UNIT
from hts.record.faults.signals import Chain, Signals
from hts.record.faults.signatures import settings
from hts.record.plan import HOLD

#: K. The level of the hold may be so far from where a wrong setting would show it, and must be so
#: far from its range. Basis: practice, no source.
_NEAR, _FAR = 12.0, 15.0
#: s near one level that tell a hold from a ramp, and no less than half the time of the hold: at
#: 100 K/h a ramp crosses the band in a quarter of an hour. Basis: practice, no source.
_STANDS = 20 * 60.0
#: K that all must step by from one row to the next, part of them that must, and how alike the
#: steps are, K. No metal does that at every place alike. Basis: practice, no source.
_STEP, _MOST, _ALIKE = 4.0, 0.8, 3.0
#: Last digits, and K for each second between two rows, that a step of all must be greater than:
#: a program may bend by 120 K/h, and twice that. Basis: practice, ours.
_DIGITS, _BEND = 1.6, 0.066
#: Intervals. A step over a gap is none. Basis: practice, ours.
_REGULAR = 1.5
#: Chains it takes for that. Basis: practice, ours.
_ENOUGH = 3


def settings_of_all(signals: Signals) -> list[Fault]:
    """All read in another unit, or with the recorder set to another type: then the hold lies where
    that would show it, for every thermocouple that must be in range."""
    plan = signals.plan
    holds = [] if plan is None else [span for span in plan.spans if span.action == HOLD]
    target = plan.run.program.target if plan is not None else None
    chains = [one for one in signals.chains.values() if one.required]
    if plan is None or not holds or target is None or len(chains) < 2:
        return []
    hottest = max(holds, key=lambda span: span.high or 0.0)
    assert hottest.low is not None and hottest.high is not None
    levels = [_level(one) for one in chains]
    if np.isnan(levels).any():
        return []
    level = float(np.median(levels))
    if hottest.low - _FAR <= level <= hottest.high + _FAR:
        return []
    # A run on its way, or one given up, has had no hold at all: nothing stands anywhere.
    stood = signals.record.interval * np.median([_rows_near(one, level) for one in chains])
    if stood < max(_STANDS, (hottest.least or 0.0) / 2):
        return []
    aimed = float(target.value)
    block = plan.sheet.joint.entry.thermocouples
    wire = (block.type if block is not None else None) or "K"
    expected = [
        (WRONG_UNIT, "degF read as degC", aimed * 1.8 + 32, _NEAR * 1.8),
        (WRONG_UNIT, "degC read as degF", (aimed - 32) / 1.8, _NEAR),
        *(
            (WRONG_TYPE, f"as type {input} where the wire is {wire}", shown, _NEAR)
            for input, reading in settings(wire)
            if np.isfinite(shown := float(reading(np.array([aimed]))[0]))
        ),
    ]
    fitting = [one for one in expected if abs(level - one[2]) <= one[3]]
    if not fitting:
        return []
    kind, figure, shown, _ = min(fitting, key=lambda one: abs(level - one[2]))
    sentence = (
        f"all stand at {signals.degrees(level)} in the hold at {signals.degrees(aimed)}: {figure}, "
        f"which makes {signals.degrees(shown)} of it"
    )
    confidence = HIGH if kind is WRONG_UNIT else MEDIUM
    return [Fault(kind.name, "", (), 0.0, signals.record.end, sentence, confidence, KEPT)]


def _level(chain: Chain) -> float:
    """degC, where its reading stood highest for long."""
    values = chain.values[np.isfinite(chain.values)]
    return float(np.percentile(values, 95)) if len(values) else float("nan")


def _rows_near(chain: Chain, level: float) -> int:
    with np.errstate(invalid="ignore"):
        return int(np.count_nonzero(np.abs(chain.values - level) <= _NEAR))


def cold_junction(signals: Signals) -> list[Fault]:
    """Every reading steps by the same from one row to the next: the recorder's own temperature,
    which it adds to all, was wrong before or after."""
    chains = [one for one in signals.chains.values() if np.isfinite(one.values).any()]
    if len(chains) < _ENOUGH or len(signals.elapsed) < 8:
        return []
    values = np.array([one.values for one in chains])
    # Readings in coarse digits step by one or two all at once, and between rows far apart the
    # program itself bends.
    least = max(
        _STEP,
        _DIGITS * float(np.median([one.resolution for one in chains])),
        _BEND * signals.record.interval,
    )
    steps = np.diff(values, axis=1)
    # What it would have gone on by, by the steps around.
    around = (np.roll(steps, 2, axis=1) + np.roll(steps, -2, axis=1)) / 2
    off = steps - around
    # The middle one of a row steps by so much only where half of them do.
    with np.errstate(invalid="ignore"):
        large = np.count_nonzero(np.abs(off) >= least, axis=0)
        rows = np.flatnonzero(2 * large >= np.maximum(np.isfinite(off).sum(axis=0), 1))
        off = off[:, rows]
        typical = np.nanmedian(off, axis=0) if len(rows) else off[:0].sum(axis=0)
        alike = np.mean(np.abs(off - typical) <= _ALIKE, axis=0)
    rows = rows[(np.abs(typical) >= least) & (alike >= _MOST)]
    rows = rows[(rows >= 3) & (rows < steps.shape[1] - 3)]
    found = []
    for row in rows.tolist():
        after = float(signals.elapsed[row + 1])
        spans = np.diff(signals.elapsed[row - 2 : row + 4])
        if np.any(spans > _REGULAR * signals.record.interval):
            continue
        # What jumps and comes back at once is no step.
        level = float(np.nanmedian(values[:, row + 1 : row + 4].mean(axis=1)
                                   - values[:, row - 2 : row + 1].mean(axis=1)))  # fmt: skip
        if abs(level) < least:
            continue
        sentence = f"all step by {signals.kelvin(abs(level))} {'up' if level > 0 else 'down'} at "
        sentence += f"once at {signals.record.clock(after)}"
        end = signals.record.end
        found.append(Fault(COLD_JUNCTION.name, "", (), after, end, sentence, HIGH, KEPT))
    return found[:1]
