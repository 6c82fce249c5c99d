"""Small parts of detectors on a few readings each, just at what tells and just beside it. The
thresholds are ours (basis: practice); the readings around them are arithmetic."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

import numpy as np

from hts.record.faults import (
    agreement,
    clocks,
    hung,
    levels,
    misreading,
    missing,
    repeats,
    spikes,
    whole_record,
)
from hts.record.faults.digits import last_digit, last_digits
from hts.record.faults.signals import Chain, Signals
from hts.record.plan import HOLD
from hts.record.record import REPLACED, Event
from tests.record.judging.made import record
from tests.rows import each_row

NAN = float("nan")


@each_row(
    ("readings", "digit"),
    [
        ([700, 701, 703], 1.0), ([700, 702, 706], 2.0), ([20.0, 20.5, 22.0], 0.5),
        ([20.1, 20.4, 20.0, NAN], 0.1), ([700, 700, NAN], 0.0), ([NAN, NAN], 0.0), ([], 0.0),
        # No two are neighbours, and still tenths: 0.3 and 0.5 share 0.1.
        ([20.0, 20.3, 20.8], 0.1), ([-10, -4, 5], 3.0), ([20.0, 20.01, 20.03], 0.01),
    ],
)  # fmt: skip
def test_the_last_digit(readings: list[float], digit: float) -> None:
    values = np.array(readings, dtype=float)
    assert last_digit(values) == digit
    assert last_digits(values[None, :]).tolist() == [digit]
    both = last_digits(np.stack([values, np.full(len(values), 5.0)]))
    assert both.tolist() == [digit, 0.0]


#: A part from 20 to 220 degC in rows of 10 K.
RISE = np.arange(20.0, 221.0, 10.0)


@each_row(
    ("own", "others", "mirrored"),
    [
        # By half of the rise it falls, and with it: not by less, and not as the others stand still.
        (20 - 0.5 * (RISE - 20), RISE, True), (20 - 0.49 * (RISE - 20), RISE, False),
        (20 - 2.0 * (RISE - 20), RISE, True), (20 + 0.5 * (RISE - 20), RISE, False),
        (20 - 0.5 * (RISE - 20), RISE[::-1], False),
        # Of 30 K of rise eight readings that move are enough; less of either is not.
        (20 - (RISE[:9] - 20), RISE[:9], True), (20 - (RISE[:8] - 20), RISE[:8], False),
        (20 - 3 * np.arange(12.0), 20 + 3 * np.arange(12.0), True),
        (20 - 2 * np.arange(12.0), 20 + 2 * np.arange(12.0), False),
        # What stands still at the bottom of the scale is not counted.
        (np.maximum(20 - (RISE - 20), -100.0), RISE, True),
        (np.where(np.arange(21) % 2, -60.0, 20.0) - np.arange(21), RISE, False),
    ],
    ids=lambda row: str(row)[:30],
)  # fmt: skip
def test_one_that_goes_the_other_way(own: Any, others: Any, mirrored: bool) -> None:
    assert levels._mirrored(own, others) is mirrored


@each_row(
    ("own", "others", "sunk"),
    [
        # Hot from the first row, falling with the rise to the bottom of the scale; 20 K below the
        # air to begin with, 10 K down at the least, and a fifth of it up.
        ([-50, -80, -120, -160, -200], [100, 110, 120, 130, 140], True),
        ([0, -80, -120, -160, -200], [100, 110, 120, 130, 140], False),
        ([-50, -80, -200, -200, -200], [100, 110, 120, 130, 140], False),
        ([-50, -53, -56, -59.5], [100, 110, 120, 130], False),
        ([-50, -53, -57, -60], [100, 101, 102, 103], True),
        ([-50, -100, -150, -200], [100, 110, 120, 129.9], False),
        ([-50, -100, -150, -200], [100, 110, 120, 130], True),
        ([-50, -100, -150, -200], [130, 120, 110, 100], False),
    ],
)
def test_one_that_sinks_to_the_bottom(own: list[float], others: list[float], sunk: bool) -> None:
    assert levels._sunk(np.array(own, float), np.array(others, float), 20.0) is sunk


@each_row(
    ("shares", "falls"),
    [
        # Windows of three: 85 % of what was before is a loss, for good or for a while.
        ([1.0] * 5 + [0.85] * 5, True), ([1.0] * 5 + [0.86] * 5, False), ([1.0] * 10, False),
        ([0.85] * 5 + [1.0] * 5, False), ([1.0] * 4 + [0.5] * 4 + [1.0] * 4, True),
        ([0.5] * 4 + [1.0] * 4 + [0.84] * 4, True),
    ],
)  # fmt: skip
def test_whether_a_share_falls(shares: list[float], falls: bool) -> None:
    assert levels._falls(np.array(shares), 3) is falls


@each_row(
    ("peers", "drop", "fall"),
    [
        # By more than a fifth of what it fell, and more than a quarter of them.
        ([[700, 700], [700, 679]], 100.0, True), ([[700, 700], [700, 680]], 100.0, False),
        ([[700, 700]] * 3 + [[700, 600]], 100.0, False),
        ([[700, 700]] * 2 + [[700, 600]], 100.0, True),
        ([[700, NAN]] * 3, 100.0, False), ([], 100.0, False), ([[600, 700]], 100.0, False),
    ],
)  # fmt: skip
def test_whether_the_others_fall_with_it(peers: list[list[float]], drop: float, fall: bool) -> None:
    of = [Stub(values=np.array(each, float)) for each in peers]
    signals: Any = Stub(peers=lambda tag: of)
    chain: Any = Stub(tag="T1")
    assert levels._all_fall(signals, chain, 1, drop) is fall


@each_row(
    ("zone", "others", "is_low"),
    [
        # Of its zone, on the part, held, sound, and low by half as much.
        ("top", [("top", True, True, 675.0)], True), ("top", [("top", True, True, 675.1)], False),
        ("top", [("bottom", True, True, 650.0)], False), ("", [("", True, True, 650.0)], False),
        ("top", [("top", False, True, 650.0)], False),
        ("top", [("top", True, False, 650.0)], False),
        ("top", [("top", True, True, NAN)], False), ("top", [], False),
        ("top", [("top", True, True, 700.0), ("top", True, True, 650.0)], True),
    ],
)  # fmt: skip
def test_whether_a_zone_is_low(
    zone: str, others: list[tuple[str, bool, bool, float]], is_low: bool
) -> None:
    """The peers read 700 degC, it 50 K less."""
    chain = Stub(tag="T1", zone=zone, on_part=True, held=True, reads=650.0)
    rest = [
        Stub(tag=f"X{n}", zone=of, on_part=on_part, held=held, reads=reads)
        for n, (of, on_part, held, reads) in enumerate(others)
    ]
    chains = {each.tag: each for each in (chain, *rest)}
    for faulty in (frozenset[str](), frozenset(each.tag for each in rest)):
        signals: Any = Stub(
            chains=chains, faulty=lambda tag, faulty=faulty: tag in faulty,
            sampled=lambda one: np.full(4, one.reads),
        )  # fmt: skip
        hot = np.array([False, True, True, True])
        its: Chain = chain  # type: ignore[assignment]
        found = levels._zone_is_low(signals, its, np.full(4, 700.0), hot, 50.0)
        assert found is (is_low and not faulty)


@each_row(
    ("readings", "off"),
    [
        # 20 K are noise; from one to three rows are a spike, four a new level.
        ([700, 700, 720, 700, 700, 700], {}), ([700, 700, 720.5, 700, 700, 700], {2: 20.5}),
        ([700, 700, 640, 700, 700, 700], {2: -60}),
        ([700, 740, 741, 742, 700, 700], {1: 40, 2: 41, 3: 42}),
        ([700, 740, 740, 740, 740, 700, 700], {}), ([700, 740, 740, 740, 740, 740], {}),
        # Back within three tenths of how far it was off, on the line between.
        ([700, 700, 740, 712, 712, 712], {2: 34}), ([700, 700, 740, 713, 713, 713], {}),
        ([740, 700, 700, 700, 700], {}), ([700, 700, 700, 700, 740], {}),
        ([700, 740, 700, 700, 760, 700, 700], {1: 40, 4: 60}), ([700, 740, 700, 700], {}),
    ],
)  # fmt: skip
def test_readings_off_those_before_and_after(readings: list[float], off: dict[int, float]) -> None:
    times = np.arange(len(readings)) * 60.0
    found = spikes._off_line(np.array(readings, float), times, 0.0)
    assert {int(row): found[row] for row in np.flatnonzero(found)} == off
    # Where a part may go so quick, as by 15 K each minute, only what is more than twice as quick
    # stands off.
    quick = spikes._off_line(np.array(readings, float), times, 0.25)
    assert all(abs(quick[row]) >= 30 for row in np.flatnonzero(quick))


@each_row(
    ("readings", "most", "rows"),
    [
        ([700, 701, 700], 9, 2), ([700, 700, 699, 699, 700], 9, 4), ([700, 701, 702], 9, 9),
        ([700, 700, 700], 9, 9), ([700, 701, 700], 1, 1), ([700], 9, 9),
        # By two digits in all at the most.
        ([700, 701, 702, 701], 9, 3), ([700, 701, 702, 703, 702], 9, 9),
        ([700, 702, 701, 702], 9, 2),
    ],
)  # fmt: skip
def test_how_soon_a_reading_comes_and_goes(readings: list[float], most: int, rows: int) -> None:
    assert hung._comes_and_goes(np.array(readings, float), most) == rows


@each_row(
    ("at", "near"),
    [
        # 8 K off 690 .. 720 degC, or 300 .. 350.
        (705, True), (682, True), (681.9, False), (728, True), (728.1, False), (292, True),
        (358.1, False), (NAN, True),
    ],
)  # fmt: skip
def test_whether_the_part_stands_where_it_is_to_be_held(at: float, near: bool) -> None:
    spans = [Stub(low=690.0, high=720.0), Stub(low=None, high=None), Stub(low=300.0, high=350.0)]
    chains = {
        name: Stub(required=required, values=np.array([20.0, reads]))
        for name, required, reads in (("T1", True, at), ("T2", True, at), ("T9", False, 500.0))
    }
    signals: Any = Stub(plan=Stub(spans=spans), chains=chains)
    assert hung._near_a_hold(signals, 1) is near
    signals.plan = None
    assert hung._near_a_hold(signals, 1)


def test_which_jump_as_they_do_not_elsewhere() -> None:
    """By more than five digits, or five times the usual step; behind the last row none does."""
    rows = np.arange(100.0)
    values = np.stack([700 + 0 * rows, 700 + 0 * rows, 20 + 2 * rows, 20 + 2 * rows])
    for chain, jump in enumerate((5.0, 5.1, 8.0, 8.1)):
        values[chain, 50:] += jump
    signals: Any = Stub(
        chains={str(n): Stub(resolution=1.0, values=values[n]) for n in range(len(values))}
    )
    assert hung.jumped(signals, values, 49).tolist() == [False, True, False, True]
    assert not hung.jumped(signals, values, 48).any()
    assert not hung.jumped(signals, values, 99).any()


@each_row(
    ("by", "rises", "begins", "apart", "stray", "evenly"),
    [
        (8.0, 600.0, 0.0, 0.0, {}, True), (-8.0, 600.0, 0.0, 0.0, {}, True),
        # The part rises by 200 K at least, from a fifth of that at the most.
        (8.0, 200.0, 0.0, 0.0, {}, True), (8.0, 199.0, 0.0, 0.0, {}, False),
        (8.0, 600.0, 120.0, 0.0, {}, True), (8.0, 600.0, 121.0, 0.0, {}, False),
        # All stand together while cold, to a quarter of what it is off by.
        (8.0, 600.0, 0.0, 2.0, {}, True), (8.0, 600.0, 0.0, 2.1, {}, False),
        # It is off by as much from the first rows, and nearly all the time.
        (8.0, 600.0, 0.0, 0.0, {2: 2.0}, True), (8.0, 600.0, 0.0, 0.0, {2: 2.1}, False),
        (8.0, 600.0, 0.0, 0.0, {3: 9.0}, True), (8.0, 600.0, 0.0, 0.0, {3: 9.0, 4: 9.0}, False),
    ],
)  # fmt: skip
def test_one_that_is_off_by_one_amount(
    by: float, rises: float, begins: float, apart: float, stray: dict[int, float], evenly: bool
) -> None:
    true = 20.0 + np.linspace(begins, rises, 60)
    true[-1] = 20.0 + rises
    values = true + by
    for row, off in stray.items():
        values[row] += off
    around = np.stack([true, true + apart])
    assert misreading._off_evenly(values, true, around, 20.0) is evenly
    # Too few rows tell nothing.
    assert not misreading._off_evenly(values[:23], true[:23], around[:, :23], 20.0)


@each_row(
    ("holds", "target", "required", "hottest"),
    [
        ([(690, 720)], 705, 2, 720), ([(690, 720), (740, 760), (300, 350)], 750, 3, 760),
        ([(690, 720)], 705, 1, None), ([(690, 720)], None, 2, None), ([], 705, 2, None),
        ([(690, 720), (None, None)], 705, 2, 720),
    ],
)  # fmt: skip
def test_the_hottest_hold(
    holds: list[tuple[float | None, float | None]], target: float | None, required: int,
    hottest: float | None,
) -> None:  # fmt: skip
    spans = [Stub(low=low, high=high, action=HOLD) for low, high in holds]
    spans.append(Stub(low=None, high=900.0, action="heat"))
    plan = Stub(spans=spans, run=Stub(program=Stub(target=target)))
    chains = {str(n): Stub(required=n < required) for n in range(5)}
    signals: Any = Stub(plan=plan, chains=chains)
    span, its = whole_record._hottest(signals)
    assert (None if span is None else span.high) == hottest
    assert len(its) == required
    signals.plan = None
    assert whole_record._hottest(signals)[0] is None


@each_row(
    ("row", "reads", "wild"),
    [
        # Lost at row 40; so many rows before and after it are looked at, and 25 K are believed.
        (41, 726.0, True), (41, 725.0, False), (50, 640.0, True), (51, 640.0, False),
        (30, 640.0, True), (39, 675.0, False), (39, 674.0, True),
    ],
)  # fmt: skip
def test_wild_readings_beside_one_that_is_lost(row: int, reads: float, wild: bool) -> None:
    values = np.full(80, 700.0)
    values[row], values[40] = reads, NAN
    chain: Any = Stub(values=values)
    lost = np.arange(80) == 40
    signals: Any = Stub(quick=lambda: 0.0, elapsed=np.arange(80) * 60.0)
    assert np.flatnonzero(missing._wild(chain, lost, signals)).tolist() == [row] * wild
    # Where a part may go a kelvin a second, as much is believed for each since the last.
    signals.quick = lambda: 1.0
    assert not missing._wild(chain, lost, signals)[row] or abs(reads - 700) > 25 + 60


@each_row(
    ("seconds", "can_be"),
    [
        (60, True), (120, True), (30, True), (20, True), (15, True), (1, True), (300, True),
        (45, False), (90, False), (61, True), (61.1, False), (29, True), (28.9, False),
    ],
)  # fmt: skip
def test_how_often_a_recorder_can_be_set_to_read(seconds: float, can_be: bool) -> None:
    """Whole minutes, and whole parts of one; here to within a second."""
    assert clocks._may_be_set(seconds, 1.0) is can_be


@each_row(
    ("chains", "rows", "again", "added", "told"),
    [
        (2, 100, 20, 0.0, "20 rows repeat, digit for digit, those from"),
        (3, 100, 20, 0.0, "20 rows repeat, digit for digit, those from"), (1, 100, 20, 0.0, ""),
        (2, 100, 20, 5.0, "20 rows repeat those from"), (2, 100, 5, 0.0, ""),
        (2, 100, 0, 0.0, ""),
    ],
)  # fmt: skip
def test_rows_that_stand_a_second_time(
    chains: int, rows: int, again: int, added: float, told: str
) -> None:
    random = np.random.default_rng(7)
    times = np.arange(rows) * 60.0
    courses = {}
    for n in range(chains):
        values = np.round(700 + np.cumsum(random.normal(0.0, 3.0, rows)), 1)
        if again:
            values[-again:] = values[5 : 5 + again] + added
        courses[f"T{n + 1}"] = values
    found = repeats.repeated(Signals(record(courses, times), None))
    assert [fault.evidence.startswith(told) for fault in found] == [True] * bool(told), found


@each_row(
    ("by", "since", "until", "replaced", "told"),
    [
        # At some 707 degC two sound ones differ by 14.9 K at most: 2 sqrt 2 sqrt((5.31^2 + 2.5^2 +
        # 1.5^2) / 3) + 5. It has to last for ten minutes, and not by one that is replaced.
        (15.0, 20, 60, None, True), (14.7, 20, 60, None, False), (-15.0, 20, 60, None, True),
        (15.0, 20, 31, None, True), (15.0, 20, 30, None, False), (15.0, 20, 60, 31, True),
        (15.0, 20, 60, 30, False), (15.0, 50, 60, None, False), (30.0, 0, 60, 0, False),
    ],
)  # fmt: skip
def test_two_at_one_place(
    by: float, since: int, until: int, replaced: int | None, told: bool
) -> None:
    courses = {tag: np.full(60, 700.0) for tag in ("T1", "T2", "T3")}
    courses["T2"][since:until] += by
    events = [] if replaced is None else [Event(REPLACED, replaced * 60.0, "T1", "T3")]
    signals = Signals(record(courses, np.arange(60) * 60.0, events), None)
    fault = agreement._disagreement(signals, signals.chains["T1"], signals.chains["T2"])
    assert (fault is not None) is told
    if fault is not None:
        high, low = ("T2", "T1") if by > 0 else ("T1", "T2")
        # Rounded to kelvins the two would be one figure.
        most = 14.9 if by > 0 else 14.7  # at 707 degC, and at 692
        said = (
            f"{high} reads 15.0 K above {low} at the same place, two sound ones differ by {most} K"
        )
        assert fault.evidence.startswith(said)
        last = (until if replaced is None else replaced) - 1
        assert (fault.start, fault.end) == (since * 60.0, last * 60.0)


@each_row(
    ("along", "places", "spare", "one_place"),
    [
        (40.0, ("weld", "weld"), "", True), (40.1, ("weld", "weld"), "", False),
        (0.0, ("weld", "soak edge"), "", False), (900.0, ("weld", ""), "T1", True),
        (None, ("weld", "weld"), "", False),
    ],
)  # fmt: skip
def test_what_is_one_place(
    along: float | None, places: tuple[str, str], spare: str, one_place: bool
) -> None:
    """40 mm at the most, of one kind of place; a spare sits at the place of what it is for."""
    first, second = (
        Stub(tag=tag, place=place, spare_of=of, flat=None, axial=axial, clock=0.0, outside=323.8)
        for tag, place, of, axial in (
            ("T1", places[0], "", 0.0), ("T2", places[1], spare, along),
        )
    )  # fmt: skip
    for pair in ((first, second), (second, first)):
        assert agreement._one_place(*pair) is one_place  # type: ignore[arg-type]
