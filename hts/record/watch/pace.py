"""Whether a recorder did not write for a while or its clock was set ahead: the file shows the same,
and in a steady hold the readings tell nothing. Whoever looks on as rows come knows, for a recorder
that did not write has kept them waiting."""

from __future__ import annotations

from typing import NamedTuple

from hts.record.record import Gap, Record

#: s and intervals that rows may come late without a clock being wrong. Basis: practice, ours.
_LATE, _INTERVALS = 10.0, 2.0
#: How much faster than time rows may come, and for how long, s, they must have been seen to: a copy
#: of an old log tells nothing. Basis: practice, ours.
_FASTER, _SEEN = 1.5, 60.0


class _Look(NamedTuple):
    """`at` s by the clock of whoever looks, `end` s of the record, `written` s of it with rows."""

    at: float
    end: float
    written: float


class Pace:
    """When rows came, look by look."""

    def __init__(self) -> None:
        self._looks: list[_Look] = []
        self._longest = 0.0
        self._ahead: tuple[Gap, ...] = ()

    def ahead(self, record: Record, now: float) -> tuple[Gap, ...]:
        """The gaps so far that are none: the rows after them came too soon. `now` s, of a clock
        that is never set, at which `record` was read and held rows it had not held before."""
        gone = sum(gap.end - gap.start for gap in record.gaps)
        here = _Look(now, record.end, record.end - gone)
        if self._looks and here.end < self._looks[-1].end:
            self._looks, self._longest, self._ahead = [], 0.0, ()  # another log
        if self._looks:
            last = self._looks[-1]
            waited = now - last.at
            if self._with_time(last):
                late = waited + self._longest + _INTERVALS * record.interval + _LATE
                self._ahead += tuple(
                    gap
                    for gap in record.gaps
                    if gap.end > last.end and gap.start >= last.end and gap.end - gap.start > late
                )
            self._longest = max(self._longest, waited)
        self._looks = [*self._looks[:1], here]
        return self._ahead

    def _with_time(self, last: _Look) -> bool:
        """Whether rows came as time went on, for as long as was looked."""
        first = self._looks[0]
        seen = last.at - first.at
        return seen >= _SEEN and last.written - first.written <= _FASTER * seen + _LATE
