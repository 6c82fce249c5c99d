"""Junctions that feel a heater: high while it gives much, less in the hold, right without power.

A heater is hotter than the metal below it by what it gives times the resistance between the two
(derived), so the excess of such a junction over those of its zone goes with the output. What sound
ones differ by does not: an error of the wire or of the place is a share of the rise or constant,
and one place is later than another by seconds. That is why a few kelvin tell here, where they are
well within what two sound chains may differ by.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import KEPT, MEDIUM, NEAR_HEATER
from hts.record.faults.misreading import held_by_zone
from hts.record.faults.signals import Chain, Signals, middle
from hts.record.faults.signatures import heat_given
from hts.record.plan import SPARE
from hts.record.record import Floats

#: Coarse rows it takes, and of those without power while the part is yet warm: without them a place
#: that is only quicker than the others shows alike. Basis: practice, ours.
_ENOUGH, _WITHOUT_POWER = 24, 8
#: Part of the highest rise that is warm, and of the most heat that is as good as no power.
#: Basis: practice, ours.
_WARM, _NO_POWER = 0.2, 0.1
#: K at the most heat from which it is told; sound ones of our own runs reach 5 K.
#: Basis: practice, no source.
_LEAST = 8.0
#: Part of what is left after the best constant and share that the heat must explain, and the part
#: of the excess that those two may be at the hold: more is a place that is really warm.
#: Basis: practice, no source.
_EXPLAINS, _OTHER = 0.9, 0.35
#: Part of the excess that those beside it may lie apart. Basis: practice, no source.
_TIGHT = 0.5


def near_heaters(signals: Signals) -> list[Fault]:
    """A fault for each thermocouple whose excess over its zone goes with the heat given."""
    found = []
    for chain, beside in held_by_zone(signals):
        if len(beside) >= 2 and not signals.explained(chain.tag) and not signals.unheated(chain):
            fault = _of(signals, chain, beside)
            if fault is not None:
                found.append(fault)
    return found


def _of(signals: Signals, chain: Chain, beside: list[Chain]) -> Fault | None:
    around = np.array([signals.sampled(one) for one in beside])
    values, true = signals.sampled(chain), middle(around)
    known = np.isfinite(values) & np.isfinite(around).all(axis=0)
    if np.count_nonzero(known) < _ENOUGH:
        return None
    excess, true = (values - true)[known], true[known]
    spread = float(np.median(np.ptp(around[:, known], axis=0)))
    rise = true - signals.air()
    heat = heat_given(signals.elapsed[signals.coarse][known], true, signals.air())
    most = float(np.percentile(heat, 95))
    if most <= 0 or rise.max() <= 0:
        return None
    heat, rise = heat / most, rise / rise.max()
    off = (heat <= _NO_POWER) & (rise >= _WARM)
    if np.count_nonzero(off) < _WITHOUT_POWER:
        return None
    high, share, constant, explains = _parts(excess, heat, rise)
    if high < max(_LEAST, spread / _TIGHT) or explains < _EXPLAINS:
        return None
    if abs(share + constant) > _OTHER * high:
        return None
    full = float(np.median(excess[heat >= np.percentile(heat, 90)]))
    without = float(np.median(excess[off]))
    sentence = (
        f"reads {signals.kelvin(full)} more than those of its zone at the most heat and "
        f"{signals.kelvin(abs(without))} {'more' if without >= 0 else 'less'} without power: "
        f"what the heaters give explains {explains:.0%} of the change"
    )
    assert chain.watched is not None
    others = (chain.watched.spare_of,) if chain.watched.duty == SPARE else ()
    end = signals.record.end
    return Fault(NEAR_HEATER.name, chain.tag, others, 0.0, end, sentence, MEDIUM, KEPT)


def _parts(excess: Floats, heat: Floats, rise: Floats) -> tuple[float, float, float, float]:
    """K at the most heat, K at the highest rise and K throughout, fitted together (least squares),
    and the part the heat explains of what the other two leave."""
    plain = np.column_stack((rise, np.ones_like(rise)))
    both = np.column_stack((heat, plain))
    without, _, _, _ = np.linalg.lstsq(plain, excess, rcond=None)
    fitted, _, _, _ = np.linalg.lstsq(both, excess, rcond=None)
    left, rest = excess - plain @ without, excess - both @ fitted
    size = float(left @ left)
    explains = 1 - float(rest @ rest) / size if size > 0 else 0.0
    high, share, constant = (float(one) for one in fitted)
    return high, share, constant, explains
