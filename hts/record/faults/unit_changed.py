"""All channels go over to another unit in the midst of a record: from one row to the next every
reading is the one before in degF for degC, or the other way round. No metal and no other fault of a
recorder moves hot and cold places so."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from hts.record.faults.fault import Fault, Spell
from hts.record.faults.fault_kinds import HIGH, KEPT, LEFT_OUT, WRONG_UNIT
from hts.record.faults.signals import Mask, Signals
from hts.record.faults.stack import Stack
from hts.record.record import Floats

#: K that most must go by in the row, and K and last digits that each may be off what the other unit
#: makes of it, and times the step before it; part of them that must be as near.
#: Basis: practice, ours.
_GOES, _NEAR, _DIGITS, _GOES_ON, _MOST = 15.0, 4.0, 3.0, 2.0, 0.9
#: Chains it takes. Basis: practice, ours.
_ENOUGH = 2
#: degC of the air a run begins with: then what it began with is right. Basis: practice, no source.
_AIR = (-20.0, 45.0)


def unit_changed(signals: Signals) -> list[Fault]:
    """One fault of the record as a whole, from the first change on."""
    matrix = signals.matrix
    if np.count_nonzero(matrix.largest_steps >= _GOES) * 2 < max(len(matrix.values), 1):
        return []
    with np.errstate(invalid="ignore"):
        large = np.count_nonzero(np.abs(matrix.steps) >= _GOES, axis=0)
    changes: list[tuple[int, bool]] = []
    for row in np.flatnonzero(2 * large >= len(matrix.values)).tolist():
        went = np.nan_to_num(np.abs(matrix.steps[:, row - 1])) if row else 0.0
        near = _NEAR + _DIGITS * matrix.digits + _GOES_ON * np.minimum(went, _GOES)
        up = _goes_over(matrix.values[:, row], matrix.values[:, row + 1], near)
        if up is not None:
            changes.append((row + 1, up))
    if not changes or any(one[1] == two[1] for one, two in pairwise(changes)):
        return []
    row, up = changes[0]
    first = matrix.values[:, 0][np.isfinite(matrix.values[:, 0])]
    began = len(first) > 0 and _AIR[0] <= float(np.median(first)) <= _AIR[1]
    before, after = matrix.values[:, row - 1], matrix.values[:, row]
    known = np.isfinite(before) & np.isfinite(after)
    at = int(np.flatnonzero(known)[np.argmax(np.abs(after - before)[known])])
    into, out_of = ("degF", "degC") if up else ("degC", "degF")
    tag = next(one.tag for one in signals.chains.values() if one.row == at)
    elapsed = signals.elapsed
    said = (
        f"all go over from {out_of} to {into} at {signals.record.clock(float(elapsed[row]))}: "
        f"{tag} from {signals.degrees(before[at])} to {signals.degrees(after[at])} in one row"
    )
    edges = [one for one, _ in changes] + [len(elapsed)]
    spells = tuple(
        Spell(float(elapsed[begin]), float(elapsed[end - 1]))
        for begin, end in zip(edges[::2], edges[1::2], strict=False)
    )
    if not began:
        # Which of the two is right the record does not tell.
        return [
            Fault(WRONG_UNIT.name, "", (), 0.0, float(elapsed[-1]), said, HIGH, KEPT),
        ]
    start, end = spells[0].start, spells[-1].end
    return [Fault(WRONG_UNIT.name, "", (), start, end, said, HIGH, LEFT_OUT, spells)]


def may_change_unit(stack: Stack) -> Mask:
    """Those in which half go so far in a row."""
    goes = np.count_nonzero(stack.largest_steps >= _GOES, axis=0)
    return np.asarray(2 * goes >= len(stack.chains))


def _goes_over(before: Floats, after: Floats, near: Floats) -> bool | None:
    """Whether readings become what they are in degF, or what degF of them are in degC, to so many
    K; None where neither."""
    known = np.isfinite(before) & np.isfinite(after)
    if np.count_nonzero(known) < _ENOUGH:
        return None
    for up, other in ((True, before * 1.8 + 32), (False, (before - 32) / 1.8)):
        if np.mean((np.abs(after - other) <= near)[known]) >= _MOST:
            return up
    return None
