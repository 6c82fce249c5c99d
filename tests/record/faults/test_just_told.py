"""More detectors on records of a few lines, just at what is told and just beside it: readings that
stand, places that are lost, one that is off those beside it, rows put in again, digits, leaps and
marks that are lost. The thresholds are ours (basis: practice), where no source stands beside the
row."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

import numpy as np

from hts.record.faults import (
    at_the_top,
    coarse,
    hung,
    levels,
    mark_lost,
    misreading,
    put_in_again,
    resampled,
    row_numbers,
    scattered,
    seams,
    still,
    too_still,
)
from hts.record.faults.signals import Signals
from tests.record.faults.test_thresholds import ROWS, TIMES, signals_of, stepped
from tests.record.judging.made import record, spec_plan
from tests.rows import each_row

NAN = float("nan")


@each_row(
    ("since", "rows", "a_row", "told", "confidence"),
    [
        # The others move by 20 K meanwhile, and by 40 it is sure; six readings at the least.
        (100, 11, 2.0, True, "medium"), (100, 10, 2.0, False, ""), (100, 21, 2.0, True, "high"),
        (100, 20, 2.0, True, "medium"), (100, 6, 20.0, True, "high"), (100, 5, 20.0, False, ""),
        # Within 15 K of where it began it may not have been reached by the heat.
        (8, 11, 2.0, True, "medium"), (7, 11, 2.0, False, ""),
        (100, ROWS - 100, 2.0, True, "high"),
    ],
)  # fmt: skip
def test_one_that_stands(since: int, rows: int, a_row: float, told: bool, confidence: str) -> None:
    courses = {tag: 100 + a_row * (its - 100) / 2 for tag, its in stepped("", 0, 0).items()}
    courses["T1"][since : since + rows] = courses["T1"][since]
    found = still.stuck(signals_of(courses))
    ends = (TIMES[since], TIMES[since + rows - 1])
    assert [(f.tag, f.start, f.end, f.confidence) for f in found] == [
        ("T1", *ends, confidence)
    ] * told


@each_row(
    ("moves", "a_row", "told"),
    [
        # By 3 % of what the others move by, and by 10 K, it does not respond; they by 100 K.
        (11.5, 2.0, True), (12.5, 2.0, False), (10.0, 0.6, True), (10.2, 0.6, False),
        (0.0, 0.52, True), (0.0, 0.49, False), (60.0, 2.0, False),
    ],
)  # fmt: skip
def test_one_that_does_not_respond(moves: float, a_row: float, told: bool) -> None:
    courses = {tag: 100 + a_row * (its - 100) / 2 for tag, its in stepped("", 0, 0).items()}
    courses["T1"] = np.round(25.0 + moves * np.linspace(0, 1, ROWS), 1)
    assert [fault.tag for fault in still.flat(signals_of(courses))] == ["T1"] * told


@each_row(
    ("second", "to_the_end", "alive", "told"),
    [
        # Where it lasts to the end, four times the next longest of all, and alive before; else
        # twice, and they leap as it goes on.
        (2, True, True, True), (3, True, True, False), (2, True, False, False),
        (5, False, True, True), (6, False, True, False), (5, False, False, True),
    ],
)  # fmt: skip
def test_whether_all_hang(second: int, to_the_end: bool, alive: bool, told: bool) -> None:
    values = np.full((3, 100), 700.0)
    if alive:
        values += np.random.default_rng(2).choice([0.0, 1.0], values.shape)
    first, last = (88, 98) if to_the_end else (60, 70)
    values[:, first : last + 2] = values[:, first, None]
    if not to_the_end:
        values[:, last + 2 :] += 20.0
    same = (np.diff(values, axis=1) == 0).all(axis=0)
    long = np.zeros(99, dtype=np.bool_)
    long[first : last + 1] = True
    chains = {tag: Stub(resolution=1.0, values=values[0]) for tag in "abc"}
    signals: Any = Stub(elapsed=np.arange(100) * 60.0, plan=None, chains=chains)
    assert hung.hangs(signals, values, same, long, (first, last, second)) is told


@each_row(
    ("rows", "of", "chance"),
    [
        # Of two that are as likely 46 come again once in a thousand records: half of ln 2 each,
        # against twice ln 200 and ln 1000. What goes on as it was may always come again.
        (30, "coin", True), (60, "coin", False), (10, "one of many", False), (60, "one", True),
        (60, "in turn", True),
    ],
)  # fmt: skip
def test_rows_that_come_again_by_chance(rows: int, of: str, chance: bool) -> None:
    random = np.random.default_rng(8)
    numbers = {
        "coin": random.integers(0, 2, 200), "one of many": random.permutation(200),
        "one": np.zeros(200, dtype=int), "in turn": np.arange(200) % 7,
    }[of]  # fmt: skip
    again = slice(200 - rows, 200)
    numbers[again] = numbers[14 : 14 + rows]
    level = np.full(200, 700.0)
    assert row_numbers.comes_by_chance(numbers, level, again, 14) is chance
    # At another level they tell nothing of what is likely here.
    level[: 200 - rows] = 20.0
    assert row_numbers.comes_by_chance(numbers, level, again, 14) is (of != "in turn")


@each_row(
    ("own", "warm", "required", "lost"),
    [
        # Others at 120 degC in air of 20: down to 0.85 of the best share, or under 0.6 throughout.
        ([120, 120, 120, 105], 120, True, True), ([120, 120, 120, 105.1], 120, True, False),
        ([90, 90, 90, 79.6], 120, True, False), ([90, 90, 90, 79.4], 120, True, True),
        ([80.1, 80.1, 80, 80], 120, True, True),
        ([80.1, 80.1, 80.1, 80], 120, True, False), ([105, 120, 120, 120], 120, True, False),
        ([120, 120, 120, NAN], 120, True, False),
        # It counts from 40 K above the air, at a place that is not to be as hot from 80.
        ([60, 60, 50, 60], 60, True, True), ([59, 59, 49, 59], 59, True, True),
        ([120, 120, 80, 120], 120, False, True), ([100, 100, 60, 100], 100, False, True),
    ],
)  # fmt: skip
def test_a_share_that_is_lost(own: list[float], warm: float, required: bool, lost: bool) -> None:
    chains: Any = [Stub(required=required)]
    values, reference = np.array([own], dtype=float), np.full((1, len(own)), float(warm))
    assert levels._shares_lost(chains, values, reference, 20.0).tolist() == [lost]


@each_row(
    ("low_by", "grows"),
    [
        # By 0.4 of it from the first third to the last.
        ([80, 80, 80, 100, 100, 100, 120, 120, 120], True),
        ([80, 80, 80, 100, 100, 100, 119, 119, 119], False), ([100] * 9, False),
        ([120] * 3 + [100] * 3 + [80] * 3, False), ([80, 80, 80, 120], False),
        ([80, 80, 120, 120], True),
    ],
)  # fmt: skip
def test_what_is_low_more_and_more(low_by: list[float], grows: bool) -> None:
    assert levels._grows(np.array(low_by, dtype=float), 100.0) is grows


@each_row(
    ("tag", "by", "rows", "told"),
    [
        # At 455 degC two sound ones differ by 12.3 K at most (as above), and by 10 more where one
        # sits elsewhere; for ten minutes at the least.
        ("T2", 25.0, 11, "offset"), ("T2", 25.0, 10, ""), ("T2", -25.0, 11, "offset"),
        ("T2", 22.6, 11, "offset"), ("T2", 22.2, 11, ""), ("T2", 25.0, 60, "offset"),
        ("T2", -25.0, 60, "offset"), ("T1", 25.0, 60, "offset"),
    ],
)  # fmt: skip
def test_one_that_is_off_those_beside_it(tag: str, by: float, rows: int, told: str) -> None:
    courses = {
        name: np.interp(TIMES / 60, [0, 60, 150, 199], [20.0, 500.0, 500.0, 450.0]) + n / 10
        for n, name in enumerate(("T1", "T2", "T1S", "T3"))
    }
    courses[tag][-rows:] += by
    signals = Signals(record(courses, TIMES), spec_plan())
    found = misreading.misreading(signals)
    assert [(f.tag, f.kind, f.start) for f in found] == [(tag, told, TIMES[-rows])] * bool(told)
    for fault in found:
        assert f"{abs(by):.0f} K {'above' if by > 0 else 'below'} those" in fault.evidence


@each_row(
    ("changes", "apart", "backwards", "told"),
    [
        # Ten changes and twenty rows that channels turn round in six times.
        (12, 3, True, True), (12, 3, False, True), (9, 3, True, False), (12, 1, True, False),
    ],
)  # fmt: skip
def test_rows_put_in_again(changes: int, apart: int, backwards: bool, told: bool) -> None:
    random = np.random.default_rng(3)
    ends = changes * apart
    steps = np.zeros((3, ROWS - 1))
    steps[:, ::apart] = random.choice([-0.3, -0.2, -0.1, 0.1, 0.2, 0.3], steps[:, ::apart].shape)
    block = steps[:, 20 : 20 + ends]
    steps[:, 99 : 99 + ends] = -block[:, ::-1] if backwards else block
    values = np.round(700 + np.cumsum(np.hstack([np.zeros((3, 1)), steps]), axis=1), 1)
    signals = signals_of({f"T{n}": its for n, its in enumerate(values)})
    found = put_in_again.put_in_again(signals)
    assert bool(found) is told


@each_row(
    ("digit", "scale", "told"),
    [
        # 2 K, twice the others' digit, on their scale, and by twelve values.
        (2.0, 1.0, True), (1.9, 1.0, False), (5.0, 1.0, True), (5.0, 1.6, False), (5.0, 1.4, True),
        (35.0, 1.0, True), (40.0, 1.0, False),
    ],
)  # fmt: skip
def test_one_in_coarse_digits(digit: float, scale: float, told: bool) -> None:
    courses = stepped("", 0.0, 0)
    own = np.round((100 + (courses["T1"] - 100) * scale) / digit) * digit
    found = coarse.coarse(signals_of({**courses, "T1": own}))
    assert [fault.tag for fault in found] == ["T1"] * told
    others = {f"T{n}": own + n * digit for n in range(2, 5)}
    assert coarse.coarse(signals_of({**others, "T1": own})) == []
    assert coarse.coarse(signals_of({"T1": own, "T2": courses["T2"]})) == []


@each_row(
    ("factor", "since", "until", "slip", "told"),
    [
        (10.0, 100, 150, 1.0, True), (100.0, 100, 150, 1.0, True), (10.0, 100, ROWS, 1.0, True),
        (10.0, 100, 150, 1.04, True), (10.0, 100, 150, 1.09, False), (3.0, 100, 150, 1.0, False),
        (1000.0, 100, 150, 1.0, True),
    ],
)  # fmt: skip
def test_a_mark_that_is_lost(
    factor: float, since: int, until: int, slip: float, told: bool
) -> None:
    """By ten, a hundred or a thousand, to within 6 %."""
    for smooths in (0, 1):
        courses = stepped("", 0.0, 0)
        for its in courses.values():
            its[since:until] *= factor * slip
            # A recorder that smooths comes to it and back a row later.
            its[since : since + smooths] *= 3 / factor
            its[until : until + smooths] *= 3
        found = mark_lost.mark_lost(signals_of(courses))
        last = min(until - 1 + smooths, ROWS - 1)
        assert [(f.start, f.end) for f in found] == [(TIMES[since], TIMES[last])] * told
    for fault in found:
        assert fault.evidence.startswith(f"all numbers are {factor:.0f} times as large for ")


@each_row(
    ("apart", "rows", "noise", "told"),
    [
        (600.0, 10, 0.0, "10 min"), (300.0, 10, 0.0, "5 min"), (420.0, 10, 0.0, ""),
        (480.0, 8, 0.0, ""), (300.0, 6, 0.0, ""), (600.0, 10, 0.5, ""),
    ],
)  # fmt: skip
def test_rows_between_readings_far_apart(apart: float, rows: int, noise: float, told: str) -> None:
    random = np.random.default_rng(5)
    times = np.arange(25 * rows) * apart / rows
    read = np.arange(26) * apart
    courses = {}
    for tag in ("T1", "T2", "T3"):
        level = 100 + np.cumsum(random.normal(10.0, 4.0, 26)) * apart / 600
        course = np.interp(times, read, level) + random.normal(0.0, noise, len(times))
        courses[tag] = np.round(course, 1)
    signals = Signals(record(courses, times), None)
    for chain in signals.chains.values():
        chain.held = True
    found = resampled.resampled(signals)
    assert [told in fault.evidence for fault in found] == [True] * bool(told)


def held(courses: dict[str, Any], apart: float) -> Signals:
    """All where the part is held."""
    times = np.arange(len(courses["T1"])) * apart
    signals = Signals(record(courses, times), None)
    for chain in signals.chains.values():
        chain.held = True
    return signals


def noisy(rows: int, noise: float, slope: float = 0.0, begins: float = 600.0) -> dict[str, Any]:
    """Four at 700 degC that began a little colder; to a tenth."""
    random = np.random.default_rng(13)
    courses = {}
    for tag in ("T1", "T2", "T3", "T4"):
        its = 700 + slope * np.arange(rows) + random.normal(0.0, noise, rows)
        its[:5] = begins
        courses[tag] = np.round(its, 1)
    return courses


@each_row(
    ("rows", "apart", "noise", "slope", "told"),
    [
        # Ten readings and two minutes of one that is alive, which likely makes none of ten.
        (10, 60.0, 0.3, 0.0, "though its readings differ"), (9, 60.0, 0.3, 0.0, ""),
        (25, 5.0, 0.3, 0.0, "though its readings differ"), (24, 5.0, 0.3, 0.0, ""),
        (30, 60.0, 0.0, 0.0, ""),
        # It leaps by what no metal does, 0.15 K/s, or by 8 K.
        (19, 60.0, 0.0, 0.5, "then leaps by 10 K"), (17, 60.0, 0.0, 0.5, ""),
        (17, 30.0, 0.0, 0.5, "then leaps by 8 K"), (15, 30.0, 0.0, 0.5, ""),
    ],
)  # fmt: skip
def test_one_that_stands_by_no_chance(
    rows: int, apart: float, noise: float, slope: float, told: str
) -> None:
    courses = noisy(400, noise, slope)
    courses["T1"][200 : 200 + rows] = courses["T1"][200] + (1.3 if noise else 0.0)
    found = too_still.too_still(held(courses, apart))
    assert [(f.tag, f.start, f.end) for f in found] == [
        ("T1", 200 * apart, (199 + rows) * apart)
    ] * bool(told)
    assert all(told in fault.evidence for fault in found)


@each_row(
    ("tags", "kind"),
    [(["T1", "T2"], "cut-off"), (["T1"], "stuck"), (["T1", "T2", "T3"], "cut-off")],
)
def test_the_top_of_a_scale(tags: list[str], kind: str) -> None:
    """One alone may as well stand."""
    courses = noisy(400, 1.0)
    for tag in tags:
        courses[tag][200:212] += 20.0
        courses[tag] = np.minimum(courses[tag], 705.0)
    found = too_still.too_still(held(courses, 60.0))
    assert [(fault.tag, fault.kind) for fault in found] == [(tag, kind) for tag in tags]
    stands = "705.0 degC, and stands at that for 11 min"
    assert all((stands in fault.evidence) is (kind == "cut-off") for fault in found)


@each_row(
    ("rises", "stands", "interval", "dead"),
    [
        # By three digits in the five minutes before, and there in seven of ten rows after.
        (3, 10, 30.0, True), (2, 10, 30.0, False), (3, 7, 30.0, True), (3, 6, 30.0, False),
        (3, 4, 60.0, True), (3, 3, 60.0, False), (30, 10, 30.0, True),
    ],
)  # fmt: skip
def test_one_that_stops_dead(rises: int, stands: int, interval: float, dead: bool) -> None:
    width = int(300 / interval)
    values = np.full(60, 700.0)
    values[: 20 - width + 1] -= rises
    values[20 - width + 1 : 20] -= 1
    values[20 + stands :] -= 1
    signals: Any = Stub(record=Stub(interval=interval))
    chain: Any = Stub(extremes=(690.0, 700.0), values=values, resolution=1.0)
    assert at_the_top._stops_dead(signals, chain, np.array([20, 30])) is dead
    # A pile is twice as many as stand a digit lower.
    below = int(np.count_nonzero(values == 699.0))
    assert at_the_top._is_pile(chain, 2 * below) and not at_the_top._is_pile(chain, 2 * below - 1)


@each_row(
    ("since", "rows", "apart", "by", "told"),
    [
        # By more than noise of 0.1 K makes of bends, for sixteen bends and four minutes, thirty
        # known before and after.
        (200, 40, 60.0, 3.0, True), (200, 14, 60.0, 3.0, True), (200, 13, 60.0, 3.0, False),
        (200, 40, 5.0, 3.0, False), (200, 60, 5.0, 3.0, True), (200, 40, 60.0, 0.2, False),
        (36, 40, 60.0, 3.0, True), (30, 40, 60.0, 3.0, False), (322, 40, 60.0, 3.0, True),
        (330, 40, 60.0, 3.0, False),
    ],
)  # fmt: skip
def test_one_that_scatters_for_a_time(
    since: int, rows: int, apart: float, by: float, told: bool
) -> None:
    courses = noisy(400, 0.1, begins=700.0)
    more = np.random.default_rng(4).choice([-1.0, 1.0], rows)
    courses["T1"][since : since + rows] += by * more
    found = scattered.scattered(held(courses, apart))
    assert [fault.tag for fault in found] == ["T1"] * told


@each_row(
    ("chains", "rows", "by", "told"),
    [
        # Three chains that step together, and most of an hour of rows beside the seam.
        (4, 80, 5.0, True), (3, 80, 5.0, True), (2, 80, 5.0, False), (4, 80, 0.2, False),
        (4, 20, 5.0, False), (4, 64, 5.0, True), (4, 80, -5.0, True),
    ],
)  # fmt: skip
def test_rows_with_the_noise_of_others(chains: int, rows: int, by: float, told: bool) -> None:
    courses = dict(list(noisy(400, 0.3, begins=700.0).items())[:chains])
    digits = np.random.default_rng(6)
    for its in courses.values():
        its[250 : 250 + rows] = its[100 : 100 + rows] + by + digits.choice([-0.1, 0.0, 0.1], rows)
    found = seams.seams(held(courses, 60.0))
    assert bool(found) is told
