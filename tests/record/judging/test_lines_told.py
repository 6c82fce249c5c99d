"""The corners of many traces, kept: that they lie where the rate truly changed, to within what they
are good to, is held in `test_corners.py`; here, that none moves."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np

from hts.record.judging.courses import Readings, lines_of
from tests import told
from tests.record.judging.test_corners import ramp

KEPT = Path(__file__).with_name("told") / "lines.txt"


def _traces() -> Iterator[tuple[str, np.ndarray, np.ndarray]]:
    for seed, (rate, beside, every, noise, digit) in enumerate(
        (rate, beside, every, noise, digit)
        for rate, beside in ((240.0, 100.0), (130.0, 60.0), (150.0, 118.0), (-30.0, 90.0))
        for every, noise, digit in ((5.0, 0.3, 0.1), (10.0, 0.0, 1.0), (30.0, 0.6, 0.0),
                                    (60.0, 0.1, 0.1), (60.0, 1.5, 1.0))
    ):  # fmt: skip
        minutes = 6.0 + 4 * (seed % 5)
        times, values = ramp(minutes, rate, beside, every, noise, digit, seed)
        name = f"{rate:g} beside {beside:g} K/h for {minutes:g} min, every {every:g} s"
        yield f"{name}, noise {noise:g} K, digit {digit:g} K", times, values
    # A part that follows its heater late, through many bends.
    for seed, (every, lag) in enumerate(((10.0, 300.0), (20.0, 60.0), (60.0, 900.0))):
        random = np.random.default_rng(40 + seed)
        times = np.arange(0.0, 9 * 3600.0, every)
        rates = np.repeat([60.0, 115.0, 70.0, 130.0, 0.0, -110.0, -80.0, 0.0, -140.0], 3600 / every)
        late = np.convolve(rates, np.exp(-times / lag) * every / lag)[: len(times)]
        values = 100 + np.cumsum(late) * every / 3600 + random.normal(0.0, 0.4, len(times))
        yield f"many bends, every {every:g} s, lag {lag:g} s", times, np.round(values, 1)


def test_no_corner_moves() -> None:
    lines = []
    for name, times, values in _traces():
        blank = values.copy()
        blank[len(times) // 3 : len(times) // 3 + 4] = np.nan
        for which, its in (("", values), (", with a gap", blank)):
            (line,) = lines_of([Readings(times, its[None, :], 2.5 * (times[1] - times[0]))])[0]
            assert line is not None
            corners = " ".join(f"{at:.0f}" for at in line.times)
            lines.append(f"{name}{which}: {corners}")
            lines.append(f"    to within {' '.join(f'{its:.1f}' for its in line.doubt[1:-1])}")
            slopes = " ".join(f"{slope * 3600:.1f}" for slope in line.slopes)
            lines.append(f"    K/h {slopes}; noise {line.noise:.3f} K, digit {line.digit:.2f} K")
    told.same(KEPT, "the first", "\n".join([*lines[:6], f"of {len(lines)}, {told.digest(lines)}"]))
    told.write_whole(KEPT, "all", lines)
