"""Thermocouples that must agree: two at one place always, and all of them while the part is cold.

What two sound chains can differ by is worked out from their tolerances; which of two is wrong the
readings do not tell, so neither shows anything.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import combinations
from statistics import median
from typing import NamedTuple

import numpy as np

from hts.job.demands.watched import Watched, apart
from hts.record.faults.fault import Fault, Spell
from hts.record.faults.fault_kinds import COLD_OFFSET, DISAGREE, HIGH, KEPT, LAGS, MEDIUM, OFFSET
from hts.record.faults.signals import OFF_PART, Chain, Mask, Signals, runs
from hts.record.faults.stack import Stack, in_any
from hts.record.plan import CONTROLS, Plan
from hts.record.record import REPLACED, Floats

#: mm. Nearer than this two places are one. Basis: practice: a spare sits within 25 mm.
_ONE_PLACE = 40.0
#: K. What two junctions side by side may really differ by. Basis: practice, no source.
_BESIDE = 5.0
#: K of the extension and of the recorder. IEC 60584-3 class 2 for KX and NX (2.5 degC); a usual
#: error of recorders (practice).
_EXTENSION, _RECORDER = 2.5, 1.5
#: IEC 60584-1:2013 class 2 of types K and N: 2.5 degC or 0.0075 t.
_WIRE, _WIRE_PART = 2.5, 0.0075
#: s. Shorter is no disagreement. Basis: practice, no source.
_LASTS = 600.0
#: degC the part is cold at, K that the middle half may lie apart then, and the time, s, from the
#: start in which it is looked at. Basis: practice, no source.
_COLD, _TOGETHER, _FIRST = 45.0, 8.0, 300.0
#: Thermocouples it takes to tell which one is apart from the others. Basis: practice, ours.
_ENOUGH = 3


#: Coarse rows it takes to tell that one is late, time constants, s, that are tried, the part of the
#: difference that must be explained, and that one way must show of the other. Basis: practice.
_ROWS, _DELAYS = 24, (180.0, 300.0, 450.0, 600.0, 800.0, 1000.0, 1300.0, 1700.0)
_EXPLAINS, _BOTH_WAYS = 0.85, 0.15
#: Part of it by which a difference may vary that is one amount. Basis: practice, ours.
_EVEN = 0.25
#: K that two sound chains side by side may differ by, however cold (derived), and what is put down
#: to rounding. Basis: practice, ours.
_BY_ROUNDING = 1e-6
ALWAYS_ALLOWED = (
    2 * np.sqrt(2 * (_WIRE**2 + _EXTENSION**2 + _RECORDER**2) / 3) + _BESIDE - _BY_ROUNDING
)


def furthest_apart(celsius: Floats) -> Floats:
    """K, what two sound chains side by side may differ by: twice the standard uncertainty of the
    difference (tolerances taken as rectangular, JCGM 100) and what the places differ by."""
    wire = np.maximum(_WIRE, _WIRE_PART * np.abs(celsius))
    standard = np.sqrt((wire**2 + _EXTENSION**2 + _RECORDER**2) / 3)
    return np.asarray(2 * np.sqrt(2) * standard + _BESIDE, dtype=np.float64)


def disagreeing(signals: Signals) -> list[Fault]:
    """Pairs of thermocouples at one place of which one reads what the other cannot."""
    found = []
    for one, other in _at_one_place(signals):
        if any(signals.faulty(tag) or signals.explained(tag) for tag in (one.tag, other.tag)):
            continue
        between = other.values - one.values
        most = np.fmax(np.fmax.reduce(between), -np.fmin.reduce(between))
        if most <= ALWAYS_ALLOWED:
            continue
        fault = _disagreement(signals, one, other)
        if fault is not None:
            found.append(fault)
    return found


def may_disagree(stack: Stack) -> Mask:
    """Those in which two at one place are ever so far apart as may be too far."""
    pairs = np.array([(one.row, other.row) for one, other in _at_one_place(stack.like)])
    if not len(pairs):
        return stack.none
    between = stack.values[pairs[:, 1]] - stack.values[pairs[:, 0]]
    most = np.maximum(between.max(axis=2), -between.min(axis=2))
    return in_any(most > ALWAYS_ALLOWED)


def _at_one_place(signals: Signals) -> list[tuple[Chain, Chain]]:
    """In the order of the record."""
    if signals.plan is None:
        return []
    chains = signals.chains
    rows = sorted(
        tuple(sorted((chains[one].row, chains[other].row)))
        for one, other in _tags_at_one_place(signals.plan)
        if one in chains and other in chains
    )
    in_order = list(chains.values())
    return [(in_order[one], in_order[other]) for one, other in rows]


@lru_cache(maxsize=64)
def _tags_at_one_place(plan: Plan) -> tuple[tuple[str, str], ...]:
    on_part = [one for one in plan.by_tag.values() if one.place not in OFF_PART]
    pairs = [(a.tag, b.tag) for a, b in combinations(on_part, 2) if _one_place(a, b)]
    return tuple(pairs)


def _one_place(first: Watched, second: Watched) -> bool:
    if first.tag == second.spare_of or second.tag == first.spare_of:
        return True
    between = apart(first, second)
    return between is not None and between <= _ONE_PLACE and first.place == second.place


def _disagreement(signals: Signals, one: Chain, other: Chain) -> Fault | None:
    difference = other.values - one.values
    middle = (other.values + one.values) / 2
    for event in signals.record.events:
        # Whoever was replaced is read no more.
        if event.kind == REPLACED and event.tag in (one.tag, other.tag):
            difference = np.where(signals.elapsed >= event.at, np.nan, difference)
    with np.errstate(invalid="ignore"):
        beyond = np.abs(difference) > furthest_apart(middle)
    known = np.flatnonzero(np.isfinite(difference))
    spells = []
    for first, last in runs(beyond[known]):
        start, end = (float(signals.elapsed[known[row]]) for row in (first, last))
        if end - start >= _LASTS:
            spells.append(Spell(start, end))
    if not spells:
        return None
    rows = np.concatenate([np.arange(*_rows_of(signals, spell)) for spell in spells])
    typical = float(np.nanmedian(difference[rows]))
    allowed = float(furthest_apart(np.array([np.nanmedian(middle[rows])]))[0])
    high, low = (other, one) if typical > 0 else (one, other)
    read, most = signals.kelvin(abs(typical)), signals.kelvin(allowed)
    if read == most:  # a tenth tells which is more
        read, most = (signals.words.difference(it, places=1) for it in (abs(typical), allowed))
    said = (
        f"{high.tag} reads {read} above {low.tag} at the same place, two sound ones differ by "
        f"{most} at most{_sides(signals, one, other)}"
    )
    for late, prompt in ((one, other), (other, one)):
        by = _late_by(signals, late, prompt)
        if by is not None:
            said += f"; {late.tag} follows {prompt.tag} {by / 60:.0f} min late, up and down"
            spell = Spell(spells[0].start, spells[-1].end)
            return Fault(LAGS.name, late.tag, (), *spell, said, MEDIUM, KEPT, tuple(spells))
    sides = _sides(signals, one, other)
    for wrong, right in ((one, other), (other, one)):
        # A control that is off while the others read as its spare is not followed: it is its own.
        controls = wrong.watched is not None and wrong.watched.duty == CONTROLS
        if controls and sides.endswith(f" {right.tag}") and _evenly(difference, typical):
            said += "; as much cold as hot"
            spell = Spell(spells[0].start, spells[-1].end)
            return Fault(OFFSET.name, wrong.tag, (), *spell, said, HIGH, KEPT, tuple(spells))
    about, beside = (one, other) if one.required or not other.required else (other, one)
    return Fault(
        DISAGREE.name,
        about.tag,
        (beside.tag,),
        spells[0].start,
        spells[-1].end,
        said,
        HIGH,
        KEPT,
        tuple(spells),
    )


def _evenly(difference: Floats, typical: float) -> bool:
    known = difference[np.isfinite(difference)]
    return bool(np.all(np.abs(np.percentile(known, (5, 95)) - typical) <= _EVEN * abs(typical)))


def _late_by(signals: Signals, late: Chain, prompt: Chain) -> float | None:
    """s by which one follows the other as what warms and cools through a resistance does (first
    order); None where something else is between them, or one way alone shows it."""
    times = signals.elapsed[signals.coarse]
    its, true = signals.sampled(late), signals.sampled(prompt)
    known = np.isfinite(its) & np.isfinite(true)
    if np.count_nonzero(known) < _ROWS:
        return None
    times, its, true = times[known], its[known], true[known]
    error = its - true
    both = float(-np.percentile(error, 5)), float(np.percentile(error, 95))
    if min(both) < _BOTH_WAYS * max(both):
        return None
    found = [(float(np.sum((its - _delayed(times, true, by)) ** 2)), by) for by in _DELAYS]
    rest, by = min(found)
    return by if rest <= (1 - _EXPLAINS) * float(error @ error) else None


def _delayed(times: Floats, true: Floats, constant: float) -> Floats:
    late = true[:1].tolist()
    keep = np.exp(-np.diff(times) / constant).tolist()
    for kept, given in zip(keep, true[1:].tolist(), strict=True):
        late.append(kept * late[-1] + (1 - kept) * given)
    return np.array(late)


def _rows_of(signals: Signals, spell: Spell) -> tuple[int, int]:
    part = signals.record.between(*spell)
    return part.start, part.stop


def _sides(signals: Signals, one: Chain, other: Chain) -> str:
    """`; the others read as T1`, where they plainly do."""
    peers = [p for p in signals.peers(one.tag) if p.tag != other.tag and p.required]
    if len(peers) < _ENOUGH or not (one.required or other.required):
        return ""
    rows = signals.coarse
    around = np.nanmedian(np.array([peer.values[rows] for peer in peers]), axis=0)
    off = [float(np.nanmedian(np.abs(chain.values[rows] - around))) for chain in (one, other)]
    if min(off) < 0.5 * max(off):
        return f"; the others read as {(one, other)[int(off[1] < off[0])].tag}"
    return ""


class ColdStart(NamedTuple):
    """The first `readings` degC of a part that is still cold, by tag; the `middle` one, and what a
    sound one is off it at the most, `allowed` K."""

    readings: dict[str, float]
    middle: float
    allowed: float


def cold_start(signals: Signals) -> ColdStart | None:
    """None where the record begins warm, or all too unlike each other to say so."""
    known: dict[str, float] = {}
    for chain in signals.chains.values():
        if signals.faulty(chain.tag) or signals.explained(chain.tag):
            continue
        first = signals.first(chain, _FIRST)
        if first is not None:
            known[chain.tag] = first
    if len(known) < _ENOUGH:
        return None
    all_of = np.array(list(known.values()))
    middle = median(known.values())
    # The middle half is no farther apart than all are.
    if middle > _COLD or (np.ptp(all_of) > _TOGETHER and _middle_half(all_of) > _TOGETHER):
        return None
    return ColdStart(known, middle, float(furthest_apart(np.array([middle]))[0]))


def _middle_half(values: Floats) -> float:
    low, high = np.percentile(values, (25, 75))
    return float(high - low)


def apart_when_cold(signals: Signals) -> list[Fault]:
    """Thermocouples that stand off the others while the part is still cold."""
    cold = cold_start(signals)
    if cold is None:
        return []
    readings = np.array(list(cold.readings.values()))
    least = cold.allowed - _BESIDE
    if np.abs(readings - cold.middle).max() <= least:
        return []
    # Cold metal is as warm in one place as in another, as far as the middle half shows.
    allowed = min(cold.allowed, least + _middle_half(readings))
    found = []
    for tag, value in cold.readings.items():
        off = value - cold.middle
        if abs(off) <= allowed:
            continue
        said = (
            f"reads {signals.kelvin(abs(off))} {'above' if off > 0 else 'below'} the others at the "
            f"start, when all are at {signals.degrees(cold.middle)}"
        )
        # Welding may have left one place warm; nothing leaves one colder than the air.
        confidence = HIGH if off < 0 else MEDIUM
        end = signals.record.end
        found.append(Fault(COLD_OFFSET.name, tag, (), 0.0, end, said, confidence, KEPT))
    return found


def may_be_apart_when_cold(stack: Stack) -> Mask:
    """Those that begin cold, with one off the others."""
    first = stack.values[:, :, 0]
    middle = np.median(first, axis=0)
    far = np.abs(first - middle).max(axis=0) > furthest_apart(middle) - _BESIDE - _BY_ROUNDING
    return np.asarray((middle <= _COLD) & far)
