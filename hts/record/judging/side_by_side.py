"""Lines with corners of several traces at once: what numpy does for one, with one call for all.

The corners of all lie one after another. A moment of a line is a complex number, the number of the
line its real part and the time its imaginary one: these are ordered by line first, then by time.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.record.record import Floats

Rows = NDArray[np.intp]
Moments = NDArray[np.complex128]


def moments(line: Rows, times: Floats) -> Moments:
    """Times s of a line each [k]."""
    found = np.empty(len(times), dtype=np.complex128)
    found.real, found.imag = line, times
    return found


def ordered(some: Moments) -> Moments:
    """Each once, in order."""
    # Rows that are in order, one after another: the stable way merges them, in a twentieth.
    found = np.sort(some, kind="stable")
    new = np.full(len(found), True)
    new[1:] = found[1:] != found[:-1]
    return np.asarray(found[new])


def line_of(of: Moments) -> Rows:
    return of.real.astype(np.intp)


class Place(NamedTuple):
    """Where moments lie: the corner before each, or at it, and of those between two corners which
    they are, and how long after the first, s."""

    corner: Rows
    between: Rows
    after: Floats


class SideBySide:
    """Lines, each of one corner and more. `times` s and `of`, the line of each, are those of all
    corners; `first` and `last` the corners at the ends of each line, and `stretches` those that a
    stretch of a line begins at."""

    def __init__(self, corners: Moments) -> None:
        """Of corners in order, of lines numbered from nought on without a gap."""
        self.moments = corners
        self.of, self.times = line_of(corners), corners.imag
        same = self.of[1:] == self.of[:-1]
        self.stretches, border = np.flatnonzero(same), np.flatnonzero(~same)
        self.first = np.concatenate(([0], border + 1))
        self.last = np.concatenate((border, [len(corners) - 1]))

    @classmethod
    def lines(cls, times: Sequence[Floats]) -> SideBySide:
        """Of each line the times of its corners, s, rising."""
        of = np.repeat(np.arange(len(times)), [len(its) for its in times])
        return cls(moments(of, np.concatenate(times)))

    def place(self, of: Moments) -> Place:
        """Where these lie, those outside of their line at its end."""
        line = line_of(of)
        first, last = self.first[line], self.last[line]
        times = np.clip(of.imag, self.times[first], self.times[last])
        corner = np.searchsorted(self.moments, moments(line, times), "right") - 1
        after = times - self.times[corner]
        between = np.flatnonzero(after)
        return Place(corner, between, after[between])

    def at(self, place: Place, values: Floats) -> Floats:
        """Of what has `values` at all corners, those at a place, by straight lines."""
        found: Floats = values[place.corner]
        one = place.corner[place.between]
        slope = (values[one + 1] - values[one]) / (self.times[one + 1] - self.times[one])
        found[place.between] += slope * place.after
        return found

    def sums(self, parts: Floats) -> Floats:
        """What the stretches add up to from the first corner of its line to each [corners]."""
        number = np.arange(len(self.of)) - self.first[self.of]
        padded = np.zeros((len(self.first), int(number.max()) + 1))
        padded[self.of[self.stretches], number[self.stretches] + 1] = parts
        return np.asarray(np.cumsum(padded, axis=1)[self.of, number])
