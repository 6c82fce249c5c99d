"""Loops over the running sums of many traces, compiled by numba: hts.record.judging.compiled tells
when.

Each does what a function of fits or corners does with arrays, in the same order of arithmetic, so
that the results are the same to the last bit (tests/record/judging/test_compiled.py). The six sums
of hts.record.judging.fits.Traces stand in the first axis.
"""

from __future__ import annotations

from math import inf

import numba
import numpy as np

from hts.record.record import Floats

Rows = np.ndarray[tuple[int, ...], np.dtype[np.intp]]

#: Division by zero gives what it gives in arrays; what was compiled is kept for the next process.
_compiled = numba.njit(cache=True, error_model="numpy")


@numba.njit(inline="always", error_model="numpy")
def _distance(w: float, wt: float, wtt: float, wy: float, wty: float, wyy: float) -> float:
    """hts.record.judging.fits.distances of one run of rows."""
    w = inf if w <= 0 else w
    mean = wt / w
    wtt = wtt - wt * mean
    wty = wty - wy * mean
    wyy = wyy - wy * (wy / w)
    wtt = inf if wtt <= 0 else wtt
    wyy = wyy - wty * (wty / wtt)
    return wyy if wyy > 0.0 else 0.0


@_compiled
def sum_up(t: Floats, y: Floats, noise: Floats, sums: Floats, begins: Rows) -> None:
    """The running sums of traces [traces, rows], from `begins` of each on."""
    for trace in range(len(t)):
        w, wt, wtt, wy, wty, wyy = 0.0, 0.0, 0.0, 0.0, 0.0, 0.0
        at = begins[trace]
        for row in range(t.shape[1]):
            time, value = t[trace, row], y[trace, row]
            weight = 1 / (noise[trace, row] * noise[trace, row])
            with_time, with_value = weight * time, weight * value
            w += weight
            wt += with_time
            wtt += with_time * time
            wy += with_value
            wty += with_time * value
            wyy += with_value * value
            at += 1
            sums[0, at], sums[1, at], sums[2, at] = w, wt, wtt
            sums[3, at], sums[4, at], sums[5, at] = wy, wty, wyy


@_compiled
def best_corners(
    sums: Floats, of: Rows, first: Rows, low: Rows, high: Rows, after: Rows, step: int
) -> tuple[Rows, Floats]:
    """hts.record.judging.fits.Traces.best_corners of traces whose sums begin at `of`."""
    rows, least = np.empty(len(low), dtype=np.intp), np.empty(len(low))
    off = np.empty(max(0, (high - low).max() // step) + 1)
    for k in range(len(low)):
        a, b = of[k] + first[k], of[k] + after[k]
        a0, a1, a2, a3, a4, a5 = (
            sums[0, a], sums[1, a], sums[2, a], sums[3, a], sums[4, a], sums[5, a],
        )  # fmt: skip
        b0, b1, b2, b3, b4, b5 = (
            sums[0, b], sums[1, b], sums[2, b], sums[3, b], sums[4, b], sums[5, b],
        )  # fmt: skip
        many = (high[k] - low[k]) // step + 1 if high[k] >= low[k] else 0
        for n in range(many):
            at = of[k] + low[k] + n * step
            s0, s1, s2 = sums[0, at], sums[1, at], sums[2, at]
            s3, s4, s5 = sums[3, at], sums[4, at], sums[5, at]
            before = _distance(s0 - a0, s1 - a1, s2 - a2, s3 - a3, s4 - a4, s5 - a5)
            off[n] = before + _distance(b0 - s0, b1 - s1, b2 - s2, b3 - s3, b4 - s4, b5 - s5)
        best, rows[k], least[k] = 0, low[k], inf
        for n in range(many):
            if off[n] < least[k]:
                best, least[k] = n, off[n]
        rows[k] = low[k] + best * step
    return rows, least


@_compiled
def search(sums: Floats, charges: Floats, at_once: int, dearer: float) -> Rows:
    """Of each trace, for each mark but the first, the mark at which the best stretch to it begins;
    `sums` [6, traces, marks]. What hts.record.judging.corners does with some ends at once."""
    traces, count = sums.shape[1], sums.shape[2]
    came = np.zeros((traces, count), dtype=np.intp)
    live, spent = np.empty(count + at_once, dtype=np.intp), np.empty(count + at_once)
    at, off = np.empty((6, count + at_once)), np.empty((at_once, count + at_once))
    for trace in range(traces):
        its = sums[:, trace]
        old, live[0], spent[0] = 1, 0, 0.0
        for begin in range(1, count, at_once):
            ends = min(at_once, count - begin)
            now = old + ends
            for e in range(ends):
                live[old + e] = begin + e
            for k in range(6):
                for j in range(now):
                    at[k, j] = its[k, live[j]]
            for e in range(ends):
                end = begin + e
                s0, s1, s2, s3, s4, s5 = (
                    its[0, end], its[1, end], its[2, end], its[3, end], its[4, end], its[5, end],
                )  # fmt: skip
                for j in range(now):
                    off[e, j] = _distance(
                        s0 - at[0, j], s1 - at[1, j], s2 - at[2, j],
                        s3 - at[3, j], s4 - at[4, j], s5 - at[5, j],
                    )  # fmt: skip
                best, least = 0, inf
                for j in range(old + e):
                    found = spent[j] + (off[e, j] + charges[trace])
                    if found < least:
                        best, least = j, found
                spent[old + e], came[trace, end] = least, live[best]
            kept, most = 0, spent[now - 1] + dearer
            for j in range(now - 1):
                if not spent[j] + off[ends - 1, j] > most:
                    live[kept], spent[kept] = live[j], spent[j]
                    kept += 1
            live[kept], spent[kept] = live[now - 1], spent[now - 1]
            old = kept + 1
    return came


def try_all() -> None:
    """Runs each once, on what is like all that they are put to."""
    sums, one = np.zeros((6, 8)), np.array([2])
    readings = np.ones((1, 4))
    sum_up(readings, readings, readings, sums, one - 2)
    best_corners(sums, one - 2, one - 2, one, one, one + 2, 1)
    search(sums[:, None, :4].copy(), np.ones(1), 12, 1.0)
