"""Heat that lies to one side of a joint: heaters slid along the pipe, or a place that loses more.

Metal away from the heat is low by a share of its rise, as a thermocouple with its extension
reversed reads. A heater that has slid leaves more than one place so: what lies on the same side is
low as well, and what lies on the other side is high (derived).
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.record import Floats

#: Part of what one is off by that another of the same side is off by, and one of the other side
#: the other way. Basis: practice, no source.
_SAME, _OTHER = 0.5, 0.3
#: The place at the end of the width that is held.
_EDGE = "soak edge"


def heat_lies_aside(signals: Signals, chain: Chain, reference: Floats, hot: Mask) -> bool:
    """Whether what a soak edge is off its `reference` degC on the `hot` coarse rows is of the part:
    others along the pipe are off as heat that lies to one side makes them."""
    side = _side(chain)
    if not side or chain.watched is None or chain.watched.place != _EDGE:
        return False
    own = _off(signals, chain, reference, hot)
    for other in signals.chains.values():
        its_side = _side(other)
        if other is chain or not its_side or signals.faulty(other.tag) or other.watched is None:
            continue
        if other.watched.place != _EDGE:
            continue
        off = _off(signals, other, reference, hot) * np.sign(own)
        if off >= _SAME * abs(own) if its_side == side else -off >= _OTHER * abs(own):
            return True
    return False


def _side(chain: Chain) -> float:
    axial = chain.watched.axial if chain.watched is not None else None
    return float(np.sign(axial)) if axial is not None else 0.0


def _off(signals: Signals, chain: Chain, reference: Floats, hot: Mask) -> float:
    off = (signals.sampled(chain) - reference)[hot]
    off = off[np.isfinite(off)]
    return float(np.median(off)) if len(off) else float("nan")
