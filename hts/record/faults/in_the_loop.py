"""Control thermocouples that read wrong while the controller follows them.

A controller holds what its thermocouple reads where the program wants it: such a one reads as those
of the other zones do, whatever its error, and the metal of its zone goes the other way (derived).
So it is told by those of its own zone: each of them is off it by the same, and those of the other
zones are not off theirs. Which way a place by itself is colder or hotter does not tell: edges are.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.record.faults.agreement import furthest_apart
from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import (
    DETACHED,
    DISAGREE,
    DRIFT,
    EXTENSION_REVERSED,
    HIGH,
    KEPT,
    MEDIUM,
    OFFSET,
    SHORTED,
)
from hts.record.faults.matrix import middle
from hts.record.faults.misreading import type_of_wire
from hts.record.faults.signals import Chain, Mask, Signals, runs
from hts.record.faults.signatures import SETTINGS, Look, Signature, signature
from hts.record.faults.stack import Stack
from hts.record.plan import CONTROLS
from hts.record.record import Floats

#: K that another place than beside it may differ by. Basis: practice, no source.
_ELSEWHERE = 10.0
#: s. Shorter is none of these faults. Basis: practice, no source.
_LASTS = 1800.0
#: Coarse rows it takes to fit a course. Basis: practice, ours.
_ENOUGH = 24
#: Part of what it is off by, that each of its zone is off it at the least, and that the other zones
#: are off theirs, and the controls apart, at the most. Basis: practice, no source.
_EACH, _OTHERS = 0.35, 0.45
#: Share of the highest rise at which a part is held. Basis: practice, ours.
_HOT = 0.9
#: Part of the error at the end of the heat by which it must have grown since it came to that heat,
#: for a change of the wire. Basis: practice, no source.
_GROWS = 0.3
#: Explained part from which there is no doubt. Basis: practice, no source.
_CLEAR = 0.95
#: Explained part from which it is a name; what a smaller one explains is a disagreement.
#: Basis: practice, ours.
_NAMES = 0.94


class _Zone(NamedTuple):
    control: Chain
    beside: list[Chain]

    @property
    def together(self) -> bool:
        """Whether one of them sits at the very place."""
        return any(
            one.watched is not None and one.watched.spare_of == self.control.tag
            for one in self.beside
        )


def in_the_loop(signals: Signals) -> list[Fault]:
    """One fault for each control that its own zone shows to be wrong."""
    zones = _zones(signals)
    found = []
    for zone in zones:
        fault = _of(signals, zone, [one for one in zones if one is not zone])
        if fault is not None:
            found.append(fault)
    return found


def may_be_in_the_loop(stack: Stack) -> Mask:
    """Those in which a control is ever so far from what its zone reads."""
    found = stack.none
    for zone in _zones(stack.like):
        its = stack.sampled[[one.row for one in zone.beside]]
        # The middle of them is no farther off than the farthest.
        off = np.abs(its - stack.sampled[zone.control.row]).max(axis=(0, 2))
        found |= off > _least()
    return found


def _least() -> float:
    return float(furthest_apart(np.zeros(1))[0])


def _zones(signals: Signals) -> list[_Zone]:
    held = [one for one in signals.chains.values() if one.held and one.watched is not None]
    held = [one for one in held if not signals.faulty(one.tag) and not signals.explained(one.tag)]
    found = []
    for control in held:
        assert control.watched is not None
        if control.watched.duty != CONTROLS or not control.zone:
            continue
        its = [one for one in held if one.zone == control.zone and one is not control]
        its = [one for one in its if not signals.copied(one.tag)]
        if any(one.watched is not None and one.watched.duty == CONTROLS for one in its):
            continue  # which of two it follows is not known
        if its and not signals.unheated(control):
            found.append(_Zone(control, its))
    return found


def _of(signals: Signals, zone: _Zone, others: list[_Zone]) -> Fault | None:
    control = zone.control
    read = signals.sampled(control)
    beside = np.array([signals.sampled(one) for one in zone.beside])
    true = middle(beside)
    allowed = furthest_apart(true) + (0.0 if zone.together else _ELSEWHERE)
    times = signals.elapsed[signals.coarse]
    with np.errstate(invalid="ignore"):
        off = np.abs(read - true) > allowed
    long = [(a, b) for a, b in runs(off) if float(times[b] - times[a]) >= _LASTS]
    known = np.isfinite(read) & np.isfinite(true) & ~signals.zone_cold
    if not long or np.count_nonzero(known) < _ENOUGH:
        return None
    rise = np.where(known, true - signals.air(), 0.0)
    hot = known & (rise >= _HOT * rise.max())
    error = float(np.median((read - true)[hot]))
    if abs(error) <= float(np.median(allowed[hot])) * 0.5:
        return None
    # Each of its zone stands off it, and all to one side.
    each = np.nanmedian(read[hot] - beside[:, hot], axis=1)
    if not np.all(each * np.sign(error) >= _EACH * abs(error)):
        return None
    if not _others_are_right(signals, zone, others, hot, error):
        return None
    look = Look(times[known], true[known], read[known], signals.air(), type_of_wire(signals))
    best = signature(look)
    if best is not None and best.kind is SHORTED:
        # The controller hides how soon it came: legs that touch on the way look the same.
        best = best._replace(kind=DETACHED, figure=f"{best.figure}, off the metal or shorted,")
    if best is None or best.kind not in (DRIFT, EXTENSION_REVERSED, OFFSET, DETACHED, *SETTINGS):
        return None
    # Beside one at the very place a share of the rise is no place.
    if best.kind is DETACHED and not (zone.together and error < 0):
        return None
    if len(beside) == 1 and not _not_the_other(best, look, error):
        return None
    if (best.kind is DRIFT or not zone.together) and not _no_place(best, look, error):
        return None
    return _fault(signals, zone, others, best, error)


def _not_the_other(best: Signature, look: Look, error: float) -> bool:
    """Whether what one reads beside its control is a control in the loop as well as its own: by one
    amount either may be off, and a setting of the recorder is its own."""
    if best.kind not in (DRIFT, DETACHED) and (best.kind is not EXTENSION_REVERSED or error > 0):
        return False
    its = signature(look._replace(true=look.read, read=look.true))
    if best.kind is DETACHED and its is not None and its.explains >= best.explains:
        return False
    return its is None or its.kind not in SETTINGS


def _no_place(best: Signature, look: Look, error: float) -> bool:
    """Whether no place of the part is so much colder or hotter than its control: edges lie colder
    by a share of the rise."""
    if best.kind in SETTINGS:
        return True
    if best.kind is DRIFT:
        rise, off = look.true - look.air, look.read - look.true
        hot = np.flatnonzero(rise >= _HOT * rise.max())
        part = max(3, len(hot) // 5)
        grown = float(np.median(off[hot[-part:]]) - np.median(off[hot[:part]]))
        return grown * error > 0 and abs(grown) >= _GROWS * abs(error)
    return error < 0


def _others_are_right(
    signals: Signals, zone: _Zone, others: list[_Zone], hot: Mask, error: float
) -> bool:
    """Whether the other zones stand by their controls, and their controls by this one."""
    if not others:
        return zone.together and len(zone.beside) > 1
    own = signals.sampled(zone.control)
    controls = middle(np.array([signals.sampled(one.control) for one in others]))
    if not abs(_median((own - controls)[hot])) <= _OTHERS * abs(error):
        return False
    for other in others:
        its = middle(np.array([signals.sampled(one) for one in other.beside]))
        off = _median((signals.sampled(other.control) - its)[hot])
        # Heaters slid along the pipe leave the edge of one zone hot and that of another cold.
        if abs(off) > _OTHERS * abs(error) and (off * error > 0 or not zone.together):
            return False
    return True


def _median(values: Floats) -> float:
    known = values[np.isfinite(values)]
    return float(np.median(known)) if len(known) else float("nan")


def _fault(
    signals: Signals, zone: _Zone, others: list[_Zone], best: Signature, error: float
) -> Fault:
    tags = [one.tag for one in zone.beside]
    side = "above" if error > 0 else "below"
    said = f"reads {signals.kelvin(abs(error))} {side} {' and '.join(tags)} of its zone"
    if others:
        said += ", and as the controls of the other zones"
    said += f": the controller follows it, and the metal is as {tags[0]} reads"
    alone = len(tags) == 1
    # What explains too little of it is said, but is no name for it.
    named = best.explains >= _NAMES or alone or best.kind in SETTINGS
    kind = best.kind if named else DISAGREE
    said += f"; {best.figure} explains {best.explains:.0%} of it"
    if alone:
        said += f"; or it is {tags[0]} that reads so much {'low' if error > 0 else 'high'}"
    confidence = HIGH if best.explains >= _CLEAR and not alone else MEDIUM
    end = signals.record.end if best.until is None else best.until
    its = tuple(tags) if alone else ()
    return Fault(kind.name, zone.control.tag, its, best.since, end, said, confidence, KEPT)
