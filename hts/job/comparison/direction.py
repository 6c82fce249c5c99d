"""Which way a value has gone: tightened, loosened, moved, or just changed."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from hts.job.comparison.registry import (
    CHANGED,
    LOOSENED,
    MAXIMUM,
    MINIMUM,
    MOVED,
    RANGE,
    TIGHTENED,
    Action,
    Sense,
)

#: A name may be digits without end; no quantity is.
_NUMBER = re.compile(r"(-?\d{1,999}(?:\.\d{1,999}|/0{0,99}[1-9]\d{0,899})?)(?: (.+))?")


def direction(sense: Sense, old: str, new: str) -> Action:
    """The action that leads from one canonical value to another one, which differs."""
    if sense == RANGE:
        return _of_ranges(old, new)
    before, after = amount(old), amount(new)
    if before is None or after is None or before[1] != after[1]:
        return CHANGED
    if sense == MAXIMUM:
        return TIGHTENED if after[0] < before[0] else LOOSENED
    if sense == MINIMUM:
        return TIGHTENED if after[0] > before[0] else LOOSENED
    return MOVED


#: Clauses of one thing that are the least and the greatest of the same.
_BOTH_ENDS = (("at-least", "at-most"), ("for", "at-most"), ("alarm-below", "alarm-above"))
CROSSED = "the least is now more than the greatest"
UNCROSSED = "the least was more than the greatest"


def crossed(label: str, values: Mapping[str, str]) -> bool:
    """Whether a clause and its counterpart, by their labels in canonical values, exclude each
    other, so that neither is tighter or looser than before."""
    for ends in _BOTH_ENDS:
        if label in ends and all(end in values for end in ends):
            least, greatest = (amount(values[end]) for end in ends)
            if least and greatest and least[1] == greatest[1] and least[0] > greatest[0]:
                return True
    return False


def amount(text: str) -> tuple[Fraction, str] | None:
    """The number and the unit of a canonical value; None for one that is no number."""
    found = _NUMBER.fullmatch(text)
    return (Fraction(found[1]), found[2] or "") if found else None


def _of_ranges(old: str, new: str) -> Action:
    before, after = _ends(old), _ends(new)
    if before is None or after is None:
        return CHANGED
    if before[0] <= after[0] and after[1] <= before[1]:
        return TIGHTENED
    if after[0] <= before[0] and before[1] <= after[1]:
        return LOOSENED
    return MOVED


def _ends(text: str) -> tuple[Fraction, Fraction] | None:
    low, _, high = text.partition(" .. ")
    ends = amount(low), amount(high)
    return (ends[0][0], ends[1][0]) if ends[0] is not None and ends[1] is not None else None
