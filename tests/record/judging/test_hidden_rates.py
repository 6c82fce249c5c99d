"""Which tilt of readings against the line through them is no chance, against the slope of least
squares: its standard uncertainty is that of a reading over the root of the sum of squares of the
times about their mean (NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1, linear least
squares). How many of them are asked for is ours."""

from __future__ import annotations

from typing import Any, cast

import numpy as np
import pytest

from hts.record.judging.courses import Course
from hts.record.judging.hidden_rates import Hiding, smallest_seen
from hts.record.judging.limits import Piece
from hts.record.judging.line import Line
from hts.record.judging.verdict import Stretch
from tests.rows import each_row

TIMES = np.arange(0.0, 1001.0, 10.0)
#: Of the 91 readings of the one window there is, 0 to 900 s: noise of 1 K over 2505.8 s, in K/h.
UNSURE = 3600.0 / (10.0 * (91 * (91**2 - 1) / 12) ** 0.5)


def flat(noise: float = 1.0, digit: float = 0.0, at: float = 500.0, rate: float = 0.0) -> Line:
    ends = np.array([0.0, 1000.0])
    none = np.zeros(2)
    return Line(ends, at + rate / 3600.0 * ends, none, noise, none[:1], digit)


def tilted(line: Line, by: float) -> np.ndarray:
    return np.interp(TIMES, line.times, line.values) + by / 3600.0 * TIMES


@each_row("digit", [0.0, 0.5])
@each_row("by", [1.0, -1.0])
def test_a_tilt_is_told_from_chance(by: float, digit: float) -> None:
    """Four standard uncertainties, and a digit over the window more."""
    line, edge = flat(digit=digit), 4 * UNSURE + digit / 900 * 3600
    hiding = Hiding(cast(Any, None), 900.0)
    within, beyond = (tilted(line, by * edge * part) for part in (0.99, 1.01))
    found = hiding._among(TIMES, [("T1", within, line), ("T2", beyond, line)])
    assert list(found) == ["T2"]
    its = found["T2"]
    assert its.starts.tolist() == [0.0]
    assert its.tilt == pytest.approx([by * edge * 1.01])
    assert its.doubt == pytest.approx([UNSURE]) and its.chance == pytest.approx([edge])


def test_what_is_too_short_tells_nothing() -> None:
    line, hiding = flat(), Hiding(cast(Any, None), 900.0)
    steep = tilted(line, 500.0)
    assert hiding._among(TIMES[:90], [("T1", steep[:90], line)]) == {}
    # Three readings are no rate, four are one.
    few = np.array([0, 33, 66, 90, 95])
    assert list(hiding._among(TIMES[few], [("T1", steep[few], line)])) == ["T1"]
    few = np.array([0, 45, 90, 95])
    assert hiding._among(TIMES[few], [("T1", steep[few], line)]) == {}


def test_windows_begin_four_times_within_one() -> None:
    """The second half is tilted: told by the windows that lie in it, from 1000 to 1800 s."""
    times = np.arange(0.0, 2001.0, 10.0)
    ends = np.array([0.0, 2000.0])
    line = flat()._replace(times=ends, values=np.full(2, 500.0))
    readings = 500.0 + 30.0 / 3600.0 * np.maximum(times - 1000.0, 0.0)
    its = Hiding(cast(Any, None), 400.0)._among(times, [("T1", readings, line)])["T1"]
    assert np.diff(its.starts) == pytest.approx(100.0)
    assert its.tilt[its.starts <= 600] == pytest.approx(0.0, abs=1e-9)
    assert its.tilt[its.starts >= 1000] == pytest.approx(30.0)
    assert 0 < its.tilt[8] < 30.0


@each_row(
    ("rate", "by", "limit", "told"),
    [
        # 95 K/h along the line and 10 more are over 100; 85 and 10 are not.
        (95.0, 10.0, 100.0, True),
        (85.0, 10.0, 100.0, False),
        # Readings that rise less than the line hide no heating.
        (105.0, -10.0, 100.0, False),
        (-95.0, -10.0, 100.0, True),
        (-95.0, 10.0, 100.0, False),
    ],
)
def test_what_may_have_gone_over_the_limit(
    rate: float, by: float, limit: float, told: bool
) -> None:
    line, up = flat(rate=rate), rate > 0
    hiding = Hiding(cast(Any, None), 900.0)
    hiding._tilted = hiding._among(TIMES, [("T1", tilted(line, by), line)])
    needed = np.array([abs(rate) / limit * 1000.0 / 3600.0])
    along = Course(line.times, line.values, needed, np.zeros(1), np.zeros(2), (), up)
    limits = [Piece(-np.inf, np.inf, limit, cast(Any, None))]
    found = hiding.found("T1", line, along, limits)
    assert (found is not None) == told
    if found is not None:
        assert found.when == Stretch(0.0, 900.0)
        assert found.rate == pytest.approx(abs(by))
        assert found.unsure == pytest.approx(2 * UNSURE)
    assert hiding.found("T2", line, along, limits) is None
    # What was kept in the range of a hold is no heating.
    assert hiding.found("T1", line, along._replace(kept=(Stretch(0.0, 900.0),)), limits) is None


def test_the_smallest_over_rate_that_surely_shows() -> None:
    """Noise 0.5 K every 10 s for 900 s: sqrt(12 x 10/900) x 0.5/900 x 3600 = 0.7303 K/h, five of
    them 3.6515, and a digit of 0.1 K in 900 s 0.4 K/h."""
    assert smallest_seen(0.5, 0.1, 10.0, 900.0) == pytest.approx(4.0515, abs=1e-4)
