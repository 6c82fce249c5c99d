"""Junctions that feel a heater: high while it gives much, less in the hold, right without power.

A heater is hotter than the metal below it by what it gives times the resistance between the two
(derived), so the excess of such a junction over those of its zone goes with the output. What sound
ones differ by does not: an error of the wire or of the place is a share of the rise or constant,
and one place is later than another by seconds. That is why a few kelvin tell here, where they are
well within what two sound chains may differ by.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import KEPT, MEDIUM, NEAR_HEATER
from hts.record.faults.matrix import middle
from hts.record.faults.misreading import held_by_zone
from hts.record.faults.signals import Chain, Mask, Rows, Signals
from hts.record.faults.signatures import heat_given
from hts.record.faults.stack import Stack
from hts.record.judging.courses import COVERAGE
from hts.record.plan import SPARE
from hts.record.record import Floats

#: Coarse rows it takes, and of those without power while the part is yet warm: without them a place
#: that is only quicker than the others shows alike. Basis: practice, ours.
_ENOUGH, _WITHOUT_POWER = 24, 8
#: Part of the highest rise that is warm, and of the most heat that is as good as no power.
#: Basis: practice, ours.
_WARM, _NO_POWER = 0.2, 0.1
#: K at the most heat that sound ones of simulated runs reach: one at a heater is surely beyond it.
#: Basis: practice, no source.
_SOUND = 5.0
#: Part of what is left after the best constant and share that the heat must explain, and the part
#: of the excess by which those two may make it warmer still: more is a place that is really warm.
#: Basis: practice, no source.
_EXPLAINS, _OTHER = 0.7, 0.35
#: K by which one place of a zone may be cooler than the others. Basis: practice, no source.
_COOLER = 15.0
#: s by which metal follows its heater, 70 mm of steel (derived: length^2 / diffusivity, that being
#: 8 mm2/s), and part of what that leaves unexplained that following at once may leave.
#: Basis: practice, ours.
_METAL, _AT_ONCE = 600.0, 0.97
#: Part of what the heat leaves unexplained that the rate of change leaves at the least: a place
#: that is ahead of the others goes with the rate, and without power as well.
#: Basis: practice, no source.
_AHEAD = 0.8
#: Part of the excess that those beside it may lie apart. Basis: practice, no source.
_TIGHT = 0.5
#: Others of its zone it takes. Basis: practice, ours.
_BESIDE = 2
#: Part, and K, that are put down to rounding where all are looked at together; and how unlike heat
#: and rise must be for that, a part of what they are. Basis: practice, ours.
_BY_ROUNDING, _UNSURE = 1e-5, 1e-6


def near_heaters(signals: Signals) -> list[Fault]:
    """A fault for each thermocouple whose excess over its zone goes with the heat given."""
    looked_at = [
        (chain, zone)
        for zone in held_by_zone(signals)
        if len(zone) > _BESIDE
        for chain in zone
        if not signals.explained(chain.tag) and not signals.unheated(chain)
    ]
    # In the order of the record.
    looked_at.sort(key=lambda item: item[0].row)
    found = []
    for chain, zone in _may_go_with_heat(signals, looked_at):
        fault = _of(signals, chain, [one for one in zone if one is not chain])
        if fault is not None:
            found.append(fault)
    return found


def _may_go_with_heat(
    signals: Signals, looked_at: list[tuple[Chain, list[Chain]]]
) -> list[tuple[Chain, list[Chain]]]:
    """Those whose excess heat may explain, all fitted together; those with gaps as well."""
    whole = signals.matrix.whole.tolist()
    sure = [item for item in looked_at if all(whole[one.row] for one in item[1])]
    if not sure or len(signals.coarse) < _ENOUGH:
        return looked_at
    values = signals.matrix.sampled[[chain.row for chain, _ in sure]]
    true = np.array([signals.beside(chain, zone) for chain, zone in sure])
    excess = values - true
    rows = np.flatnonzero(np.ptp(excess, axis=1) >= _SOUND)
    times = signals.elapsed[signals.coarse]
    rows = rows[_goes_with_heat(times, excess[rows], true[rows], signals.air())]
    fits = {sure[row][0] for row in rows.tolist()}
    return [(c, zone) for c, zone in looked_at if c in fits or not all(whole[o.row] for o in zone)]


def may_be_near_heaters(stack: Stack) -> Mask:
    """Those in which heat may explain the excess of one."""
    times = stack.like.elapsed[stack.like.coarse]
    found = stack.none
    for zone in held_by_zone(stack.like):
        if len(zone) <= _BESIDE:
            continue
        true = stack.middles(zone).without_each
        excess = stack.sampled[[one.row for one in zone]] - true
        chains, records = np.nonzero(np.ptp(excess, axis=2) >= _SOUND)
        if not len(chains):
            continue
        its, air = true[chains, records], stack.air[records, None]
        may = _goes_with_heat(times, excess[chains, records], its, air)
        found[records[may]] = True
    return found


def _goes_with_heat(times: Floats, excess: Floats, true: Floats, air: float | Floats) -> Rows:
    """Which of these [chains, rows] heat may explain."""
    heat, rise = heat_given(times, true, air), true - air
    most, highest = _percentile(heat, 0.95), rise.max(axis=1)
    heats = np.flatnonzero((most > 0) & (highest > 0))
    heat, rise = heat[heats] / most[heats, None], rise[heats] / highest[heats, None]
    return heats[_heat_may_explain(excess[heats], heat, rise)]


def _heat_may_explain(excess: Floats, heat: Floats, rise: Floats) -> Mask:
    """Whether a share of the heat is as high as it must be, beside one of the rise and a constant,
    and explains as much [chains]: as in `_fitted`, for all together, and to within rounding."""
    middles = [one.mean(axis=1) for one in (excess, heat, rise)]
    excess, heat, rise = (
        one - mean[:, None] for one, mean in zip((excess, heat, rise), middles, strict=True)
    )
    of_heat, of_rise, of_all = (_products(o, o) for o in (heat, rise, excess))
    both, with_heat, with_rise = (
        _products(one, other) for one, other in ((heat, rise), (heat, excess), (rise, excess))
    )
    own = of_heat * of_rise - both * both
    with np.errstate(invalid="ignore", divide="ignore"):
        high = (with_heat * of_rise - with_rise * both) / own
        share = (with_rise * of_heat - with_heat * both) / own
        more = high * high * own / of_rise
    left = of_all - high * with_heat - share * with_rise
    warmer = share + middles[0] - high * middles[1] - share * middles[2]
    fits = (high >= _SOUND - _BY_ROUNDING) & (warmer <= _OTHER * high + _BY_ROUNDING)
    fits &= warmer >= -np.maximum(high, _COOLER) - _BY_ROUNDING
    fits &= more * (1 - _EXPLAINS) >= _EXPLAINS * left - _BY_ROUNDING * of_all
    # Where heat and rise are hardly unlike, rounding may do anything.
    return np.asarray(fits | ~(own > _UNSURE * of_heat * of_rise))


def _products(one: Floats, other: Floats) -> Floats:
    return np.asarray(np.einsum("cr,cr->c", one, other), dtype=np.float64)


def _percentile(values: Floats, part: float) -> Floats:
    """Of each [chains, rows]."""
    at = part * (values.shape[1] - 1)
    low = int(at)
    in_order = np.partition(values, (low, low + 1), axis=1)
    found = in_order[:, low] + (in_order[:, low + 1] - in_order[:, low]) * (at - low)
    return np.asarray(found, dtype=np.float64)


def _of(signals: Signals, chain: Chain, beside: list[Chain]) -> Fault | None:
    around = np.array([signals.sampled(one) for one in beside])
    values, true = signals.sampled(chain), middle(around)
    known = np.isfinite(values) & np.isfinite(around).all(axis=0)
    if np.count_nonzero(known) < _ENOUGH:
        return None
    excess, true = (values - true)[known], true[known]
    if float(np.ptp(excess)) < _SOUND:
        return None
    rise = true - signals.air()
    heat = heat_given(signals.elapsed[signals.coarse][known], true, signals.air())
    most = float(np.percentile(heat, 95))
    if most <= 0 or rise.max() <= 0:
        return None
    heat, rise = heat / most, rise / rise.max()
    off = (heat <= _NO_POWER) & (rise >= _WARM)
    if np.count_nonzero(off) < _WITHOUT_POWER:
        return None
    fit = _fitted(excess, heat, rise)
    spread = float(np.median(np.ptp(around[:, known], axis=0)))
    if fit.high < max(_SOUND, spread / _TIGHT) or fit.explains < _EXPLAINS:
        return None
    cooler = max(fit.high, _COOLER)
    if not -cooler <= fit.warmer <= _OTHER * fit.high or fit.least < _SOUND:
        return None
    times = signals.elapsed[signals.coarse][known]
    if fit.left > _AT_ONCE * _fitted(excess, _late(times, heat), rise).left:
        return None
    if _fitted(excess, np.gradient(true, times) / most, rise).left < _AHEAD * fit.left:
        return None
    hot = heat >= np.percentile(heat, 90)
    full = float(np.median(excess[hot]))
    partner = _partner(signals, chain)
    if partner is not None and partner.on_part:
        # One that touches a heater stands off the one beside it, too.
        apart = (values - signals.sampled(partner))[known][hot]
        if np.isfinite(apart).any() and float(np.nanmedian(apart)) < _TIGHT * full:
            return None
    without = float(np.median(excess[off]))
    sentence = (
        f"reads {signals.kelvin(full)} more than those of its zone at the most heat and "
        f"{signals.kelvin(abs(without))} {'more' if without >= 0 else 'less'} without power: "
        f"what the heaters give explains {fit.explains:.0%} of the change"
    )
    assert chain.watched is not None
    others = (chain.watched.spare_of,) if chain.watched.duty == SPARE else ()
    end = signals.record.end
    return Fault(NEAR_HEATER.name, chain.tag, others, 0.0, end, sentence, MEDIUM, KEPT)


def _partner(signals: Signals, chain: Chain) -> Chain | None:
    """Its spare, or whose spare it is."""
    for other in signals.chains.values():
        mine, its = chain.watched, other.watched
        if mine is None or its is None:
            continue
        if its.spare_of == chain.tag or mine.spare_of == other.tag:
            return other
    return None


class _Fit(NamedTuple):
    """`high` K at the most heat, and surely `least`; `warmer` K at the highest rise without heat;
    the part that heat `explains`; K `left`, root mean square."""

    high: float
    least: float
    warmer: float
    explains: float
    left: float


def _fitted(excess: Floats, heat: Floats, rise: Floats) -> _Fit:
    """A share of the heat, a share of the rise and a constant, fitted together (least squares); the
    heat explains a part of what the other two alone leave."""
    shapes = np.stack((heat, rise, np.ones_like(rise)))
    products, with_excess = shapes @ shapes.T, shapes @ excess
    inverse = np.linalg.pinv(products, hermitian=True)
    fitted = inverse @ with_excess
    rest = excess - fitted @ shapes
    left, high = float(rest @ rest), float(fitted[0])
    # Without the heat that much more is left (derived: the square of a fitted share over its
    # variance is what leaving it out costs).
    more = high * high / float(inverse[0, 0]) if inverse[0, 0] > 0 else 0.0
    explains = more / (left + more) if left + more > 0 else 0.0
    # What is left hangs on what was left before: it counts as that many readings the fewer.
    alike = max(float(rest[1:] @ rest[:-1]) / left, 0.0) if left > 0 else 0.0
    count = max(len(rest) * (1 - alike) / (1 + alike), len(shapes) + 1.0)
    variance = max(float(inverse[0, 0]), 0.0) * left / (count - len(shapes))
    least = high - COVERAGE * float(np.sqrt(variance))
    warmer = float(fitted[1] + fitted[2])
    return _Fit(high, least, warmer, explains, float(np.sqrt(left / len(excess))))


def _late(times: Floats, heat: Floats) -> Floats:
    """The heat as metal follows it."""
    late = heat[:1].tolist()
    keep = np.exp(-np.diff(times) / _METAL).tolist()
    for kept, given in zip(keep, heat[1:].tolist(), strict=True):
        late.append(kept * late[-1] + (1 - kept) * given)
    return np.array(late)
