"""Limits on rates that readings show to be kept by themselves: the lines through them say the same,
word for word. Courses are made by chance, near their limits and beyond."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from hts.record import faults
from hts.record.judging import MET, Evidence, moving, rates
from hts.record.judging.hold_clocks import clocks, held
from hts.record.judging.limits import pieces
from hts.record.judging.plainly_kept import plainly_kept
from hts.record.plan import HEAT, Plan
from hts.record.reading import Options, read
from hts.record.record import Record
from hts.record.simulation import DEPARTURES
from tests.record.alterations import ALTERATIONS
from tests.record.detection import CLEAN, OF_THE_PROGRAM, Trial, run_of, text_of
from tests.record.judging.made import record, spec_plan
from tests.sampling import thinned

LIMIT = 120.0
PLANS = (
    "rate over 15 min",
    "rate over 30 min",
    "rate over 15 min\nrate excursion at most 15 min each",
    "rate over 20 min\nrate excursion at most 10 min in total",
    "rate over 4 h\nrate excursion at most 20 min each",
)


def by_chance(asked: Plan, random: np.random.Generator) -> Record:
    """Heated from 250 to 705 degC and cooled again in parts of 5 to 60 min, most of them slower
    than the limit, and in every third run one of them faster, by so little that it hardly shows.
    Not all are read evenly."""
    every = float(random.choice([5.0, 10.0, 30.0, 60.0]))
    usual = LIMIT * random.uniform(0.7, 1.0)
    fast = LIMIT * random.uniform(1.0, 1.3) if random.random() < 0.35 else usual
    ways = []
    for way in (1.0, -1.0):
        lasting = random.uniform(300.0, 3600.0, 60)
        rising = usual * random.uniform(0.8, 1.0, 60)
        rising[random.integers(8)] = fast
        risen = np.concatenate(([0.0], np.cumsum(lasting * rising / 3600.0)))
        until = np.concatenate(([0.0], np.cumsum(lasting)))
        ways.append((until, 250.0 + risen if way > 0 else 705.0 - risen))
    (up_until, up), (down_until, down) = ways
    top = float(np.interp(705.0, up, up_until))
    ends = top + 9000.0 + float(np.interp(-250.0, -down, down_until))
    times = np.arange(0.0, ends, every)
    if random.random() < 0.4:
        # A clock that runs slow or fast for some hundred rows.
        pace = np.repeat(random.uniform(0.6, 1.0, len(times) // 100 + 1), 100)[: len(times)]
        times = np.cumsum(every * pace)
    plain = np.where(
        times < top + 9000.0,
        np.minimum(np.interp(times, up_until, up), 705.0),
        np.interp(times - top - 9000.0, down_until, down),
    )
    noise, digit = random.choice([0.0, 0.1, 0.3, 1.0]), random.choice([0.1, 0.5, 1.0])
    courses = {}
    for one in asked.watched:
        beside = plain + random.uniform(-3.0, 3.0) + random.normal(0.0, noise, len(times))
        courses[one.tag] = np.round(beside / digit) * digit
    return record(courses, times)


def same_both_ways(evidence: Evidence, monkeypatch: pytest.MonkeyPatch) -> None:
    """With the readings asked first, and with the lines alone."""
    its = clocks(evidence, held(evidence.plan))
    (plainly,) = moving.all_moved([(evidence, its)])
    with monkeypatch.context() as patch:
        patch.setattr(moving, "plainly_kept", lambda runs, *_: [set() for _ in runs])
        (drawn,) = moving.all_moved([(evidence, its)])
    wanted = rates.verdicts(evidence, its, drawn)
    assert rates.verdicts(evidence, its, plainly) == wanted
    for one, moved in zip(wanted, plainly.by_action.values(), strict=True):
        assert moved is not None or one.verdict == MET


@pytest.mark.parametrize("first", thinned(range(0, 1200, 4), 300))
def test_by_chance(first: int, monkeypatch: pytest.MonkeyPatch) -> None:
    for seed in range(first, first + 4):
        asked = spec_plan(PLANS[seed % len(PLANS)])
        made = by_chance(asked, np.random.default_rng(seed))
        same_both_ways(Evidence(made, asked), monkeypatch)


@pytest.mark.long
@pytest.mark.parametrize("kind", [CLEAN, *DEPARTURES, *OF_THE_PROGRAM, *ALTERATIONS])
def test_simulated_departed_and_damaged(
    kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for spec in ("p22-header", "p91-pipe"):
        for seed in range(2):
            path = tmp_path / f"{spec}-{seed}.csv"
            path.write_text(text_of(Trial(spec, kind, seed)))
            asked = run_of(spec)
            made = read([str(path)], asked.run.tags, Options())
            found = faults.find(made, asked)
            same_both_ways(Evidence(faults.apply(made, found), asked, found), monkeypatch)


def test_what_is_over_or_near_is_left_to_the_lines() -> None:
    """Of a rate of 15 min between slower ones: 110 K/h is told, 119 and more is not, nor what is
    read too seldom, or with noise that may hide as much."""
    asked = spec_plan("rate over 15 min")
    for rate, every, noise, plain in (
        (110.0, 30.0, 0.1, True), (119.0, 30.0, 0.3, False), (121.0, 30.0, 0.1, False),
        (110.0, 300.0, 0.1, False), (115.0, 30.0, 1.0, False),
    ):  # fmt: skip
        times = np.arange(0.0, 20 * 3600.0, every)
        rising = np.interp(times / 60, (0, 100, 115, 400), (300, 400, 400 + rate / 4, 700))
        rising = np.where(times < 36_000, rising, np.interp(times / 60, (600, 1200), (700, 200)))
        random = np.random.default_rng(1)
        courses = {
            one.tag: np.round(rising + random.normal(0.0, noise, len(times)), 1)
            for one in asked.watched
        }
        evidence = Evidence(record(courses, times), asked)
        limited = {HEAT: pieces(asked, HEAT)}
        assert plainly_kept([(evidence, [])], limited, 900.0, 900.0) == [{HEAT} if plain else set()]


def test_what_no_window_is_told_over_is_left_to_the_lines() -> None:
    """Up and down within two hours, and rates told over three."""
    asked = spec_plan("rate over 3 h\nrate excursion at most 15 min each")
    times = np.arange(0.0, 12 * 3600.0, 30.0)
    rising = np.interp(times / 3600 % 2, (0, 1, 2), (400, 480, 395)) - times / 3600 * 10
    random = np.random.default_rng(1)
    courses = {one.tag: rising + random.normal(0.0, 0.1, len(times)) for one in asked.watched}
    evidence = Evidence(record(courses, times), asked)
    limited = {HEAT: pieces(asked, HEAT)}
    assert plainly_kept([(evidence, [])], limited, 900.0, 900.0) == [{HEAT}]
    assert plainly_kept([(evidence, [])], limited, 900.0, 10_800.0) == [{HEAT}]
    assert plainly_kept([(evidence, [])], limited, 900.0, 7_200.0) == [set()]
    assert plainly_kept([(evidence, [])], limited, 900.0, 20_000.0) == [set()]


def test_a_window_lasts_as_long_as_its_own_rows() -> None:
    """Read every 20 s while it rises, and every 30 s through the hours after."""
    asked = spec_plan("rate over 15 min")
    limited = {HEAT: pieces(asked, HEAT)}
    for rate, plain in ((110.0, {HEAT}), (130.0, set())):
        risen = 400 / rate * 3600.0
        times = np.concatenate((np.arange(0, risen, 20.0), np.arange(risen, 20 * 3600.0, 30.0)))
        rising = np.interp(times, (0, risen, 36_000, 72_000), (300, 700, 700, 200))
        random = np.random.default_rng(1)
        courses = {
            one.tag: np.round(rising + random.normal(0.0, 0.1, len(times)), 1)
            for one in asked.watched
        }
        evidence = Evidence(record(courses, times), asked)
        assert plainly_kept([(evidence, [])], limited, 900.0, 900.0) == [plain]
