"""Straight stretches of a trace, and how long a rate was over its limit, on ramps that are known
exactly. The bounds are derived from the ramps themselves."""

from __future__ import annotations

import numpy as np
import pytest

from hts.record.judging.corners import corners, noise_levels

LIMIT = 120.0


def ramp(
    minutes: float, rate: float, beside: float, every: float, noise: float, digit: float, seed: int
) -> tuple[np.ndarray, np.ndarray]:
    """100 min at `beside` K/h, `minutes` at `rate`, 100 min at `beside` again."""
    random = np.random.default_rng(seed)
    times = np.arange(0.0, (200 + minutes) * 60, every)
    at = times + random.uniform(0.0, every)
    rises = np.cumsum([0.0, 100 * beside, minutes * rate, 110 * beside]) / 60
    values = 250 + np.interp(at / 60, np.cumsum([0.0, 100, minutes, 110]), rises)
    values = values + random.normal(0.0, noise, len(times)) if noise else values
    return times, np.round(values / digit) * digit if digit else values


def too_fast(times: np.ndarray, values: np.ndarray) -> tuple[float, float]:
    """Minutes over LIMIT, and what they are good to at 95 %."""
    line = corners(times, values)
    over = line.slopes * 3600 > LIMIT
    lasted = float(np.diff(line.times)[over].sum()) / 60
    return lasted, 2 * float(np.sqrt(np.sum(line.doubt**2))) / 60


@pytest.mark.parametrize("every", [5.0, 10.0, 30.0, 60.0])
@pytest.mark.parametrize("noise", [0.0, 0.1, 0.25])
@pytest.mark.parametrize("digit", [0.0, 0.1, 1.0])
def test_the_time_too_fast_is_the_time_the_true_rate_was(
    every: float, noise: float, digit: float
) -> None:
    for seed, (rate, beside) in enumerate([(240.0, 100.0), (130.0, 60.0), (240.0, 118.0)]):
        for minutes in (14.0, 16.0):
            lasted, _ = too_fast(*ramp(minutes, rate, beside, every, noise, digit, seed))
            assert lasted == pytest.approx(minutes, abs=0.95)


def test_its_uncertainty_holds_in_19_cases_of_20() -> None:
    off = []
    for seed in range(60):
        lasted, within = too_fast(*ramp(15.0, 180.0, 90.0, 30.0, 0.5, 0.1, seed))
        off.append(abs(lasted - 15.0) <= within + 0.05)
    assert np.mean(off) >= 0.9


@pytest.mark.parametrize("beside", [60.0, 100.0, 119.0])
def test_noise_is_no_rate(beside: float) -> None:
    for seed in range(5):
        times, values = ramp(15.0, beside, beside, 30.0, 1.0, 0.1, seed)
        assert too_fast(times, values)[0] == 0.0


def test_noise_is_measured() -> None:
    _, values = ramp(15.0, 100.0, 100.0, 10.0, 0.4, 0.0, 3)
    # A median of 60 absolute values is good to about 12 % (normal distribution).
    assert np.median(noise_levels(values[None, :], np.zeros(1))) == pytest.approx(0.4, rel=0.12)
