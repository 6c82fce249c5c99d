"""How long a rate was over its limit, and how sure that is, on courses given by hand. Arithmetic;
what is a moment and what a bend is practice, no source."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from hts.record.judging import rates
from hts.record.judging.courses import Course
from hts.record.judging.moving import reach
from hts.record.judging.spells import Spell, spells
from hts.record.judging.verdict import Stretch
from tests.record.judging.made import GOOD, run, spec_plan, verdict
from tests.rows import each_row


def along(
    *stretches: tuple[float, float], slack: float | tuple[float, ...] = 0.0, doubt: float = 4.0
) -> Course:
    """Stretches of so many seconds, each so many times faster than allowed. Each corner is as
    much in doubt as the one before and `doubt` s more."""
    seconds, ratio = np.array(stretches).T
    times = np.concatenate(([0.0], np.cumsum(seconds)))
    needed = ratio * seconds / 3600.0
    each = np.broadcast_to(np.asarray(slack, dtype=float), ratio.shape)
    return Course(times, times * 0.0, needed, each, np.arange(len(times)) * doubt)


def test_from_corner_to_corner() -> None:
    """Corners at 600 s and 1500 s, in doubt by 3 s and 6 s: their sum of squares is 45, and half
    of each error goes the other way at the other end, which adds 18."""
    (found,) = spells(along((600, 0.5), (900, 1.5), (600, 0.5), doubt=3.0))
    assert found.when == Stretch(600.0, 1500.0)
    assert found.doubt == pytest.approx(63**0.5)
    assert found.sure == 900.0


@each_row(
    ("stretches", "slack", "expected"),
    [
        # A moment of 120 s that may have been as fast as the rest is none; one longer by a second
        # is, and so is one that surely was slower (by more than 2 x 0.04).
        (((600, 0.5), (300, 1.5), (120, 0.95), (300, 1.5), (600, 0.5)), 0.04, [(600, 1320)]),
        (((600, 0.5), (300, 1.5), (121, 0.95), (300, 1.5), (600, 0.5)), 0.04,
         [(600, 900), (1021, 1321)]),
        (((600, 0.5), (300, 1.5), (120, 0.91), (300, 1.5), (600, 0.5)), 0.04,
         [(600, 900), (1020, 1320)]),
        # What is slower at the very beginning or end lies between no two spells.
        (((100, 0.95), (300, 1.5), (100, 0.95)), 0.04, [(100, 400)]),
        # The limit itself is not over it.
        (((600, 0.5), (300, 1.0), (600, 0.5)), 0.0, []),
        (((600, 1.5), (600, 0.5)), 0.0, [(0, 600)]),
    ],
)  # fmt: skip
def test_one_spell_or_two(
    stretches: tuple[tuple[float, float], ...], slack: float, expected: list[tuple[float, float]]
) -> None:
    assert [tuple(one.when) for one in spells(along(*stretches, slack=slack))] == expected


def test_what_may_have_been_within_the_limit_is_not_sure() -> None:
    """1.06 less 2 x 0.04 is below 1, 1.09 is not: of 700 s the first 200 are not sure."""
    (found,) = spells(along((600, 0.5), (200, 1.06), (500, 1.09), (600, 0.5), slack=0.04))
    assert (found.when, found.sure) == (Stretch(600.0, 1300.0), 500.0)


@pytest.mark.parametrize(
    ("stretches", "start", "end", "doubt"),
    [
        # 0.5 bends to 1.5 within 180 s whose mean is 1.25: 0.5 + (t/180)^p with the mean
        # 1/(1 + p) = 0.75, so p = 1/3, and 1.0 is passed at 180 x 0.5^3 = 22.5 s. A quarter of the
        # change is left of it: corners of 4 s and 8 s count three quarters and one, and a sixteenth
        # of the bend is 11.25 s. The other end jumps at a corner of 12 s.
        (((600, 0.5), (180, 1.25), (600, 1.5), (600, 0.5)), 622.5, 1380.0,
         np.hypot(3.0, np.hypot(2.0, 11.25))),
        # The bend itself is below the limit: mean 0.75, p = 3, 180 x 0.5^(1/3) = 142.87 s. Three
        # quarters of the change are still to come: 4 s counts one quarter, 8 s three.
        (((600, 0.5), (180, 0.75), (600, 1.5), (600, 0.5)), 600 + 142.866, 1380.0,
         np.hypot(1.0, np.hypot(6.0, 11.25))),
        # Longer than a bend is: from corner to corner, whatever lies beside it.
        (((600, 0.5), (181, 1.25), (600, 1.5), (600, 0.5)), 600.0, 1381.0, 4.0),
    ],
)  # fmt: skip
def test_within_a_bend(
    stretches: tuple[tuple[float, float], ...], start: float, end: float, doubt: float
) -> None:
    (found,) = spells(along(*stretches))
    assert found.when == pytest.approx((start, end), abs=0.01)
    assert found.doubt == pytest.approx(np.sqrt(doubt**2 + 12**2 + doubt * 12), abs=0.01)
    # The same course from its end to its beginning: with doubts that follow, 12, 8 and 4 s.
    other = along(*stretches[::-1])
    (back,) = spells(other._replace(doubt=np.arange(len(other.times))[::-1] * 4.0))
    whole = float(other.times[-1])
    assert back.when == pytest.approx((whole - end, whole - start), abs=0.01)
    assert back.doubt == pytest.approx(found.doubt)


@each_row(
    ("seconds", "sure", "allowed", "outcome"),
    [
        (800.0, 800.0, 900.0, None),
        # Give or take 2 x 10 s: within, perhaps beyond, surely beyond.
        (880.0, 880.0, 900.0, None),
        (880.1, 880.1, 900.0, "not shown"),
        (920.0, 920.0, 900.0, "not shown"),
        (920.1, 920.1, 900.0, "not met"),
        # Much longer, but not surely too fast for so long.
        (2000.0, 900.0, 900.0, "not shown"),
    ],
)
def test_a_time_against_its_allowance(
    seconds: float, sure: float, allowed: float, outcome: str | None
) -> None:
    bound: Any = SimpleNamespace(value=allowed)
    assert rates._against(seconds, sure, 10.0, bound) == outcome
    assert rates._against(seconds, sure, 10.0, None) is None


@pytest.mark.parametrize(
    ("allowed", "outcome"),
    [("611 s", "met"), ("609 s", "not shown"), ("591 s", "not shown"), ("589 s", "not met")],
)
def test_times_in_doubt_are_added(
    allowed: str, outcome: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two of 300 s, in doubt by 3 s and 4 s: 600 s in all, by 5 s, so 590 to 610 s (95 %)."""
    fast = (*GOOD[:2], (60.0, 500.0), *GOOD[2:])
    its = [Spell(Stretch(at, at + 300.0), off, 300.0) for at, off in ((2400, 3.0), (3000, 4.0))]
    monkeypatch.setattr(rates, "spells", lambda found: its if found.rising else [])
    plan = spec_plan(f"rate excursion at most {allowed} in total")
    found = verdict(run(plan, {"T2": fast}), "heating rate")
    assert found.verdict == outcome
    says = [one.sentence for one in found.failures]
    assert len(says) == (0 if outcome == "met" else 2)
    assert all("in all" in one for one in says)


def test_the_least_time_that_matters() -> None:
    """That of the shortest allowance, a second at least."""
    for more, least in (
        ("", 900.0),
        ("rate over 30 min", 1800.0),
        ("rate excursion at most 5 min each", 300.0),
        ("rate excursion at most 5 min each\nrate excursion at most 4 min in total", 240.0),
        ("rate excursion at most 0.5 s each", 1.0),
    ):
        assert reach(spec_plan(more)) == least
