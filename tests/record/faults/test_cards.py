"""The channels of one card of a recorder step together, as their one cold junction does."""

import numpy as np
import pytest

from hts.record.faults import apply, find
from hts.record.faults.fault import Fault
from hts.record.judging import MET, judge
from hts.record.record import Floats
from tests.record.faults.runs import late, record, stress_relief, times
from tests.record.faults.test_changed_over import with_spares
from tests.rows import each_row

HOURS: Floats = np.asarray(times() / 3600, dtype=np.float64)
CARDS = {
    "two of the edge": ("T5", "T6"),
    "required and spares": ("T1", "T2", "T1S", "T2S"),
    "all but one and the edges": ("T1", "T2", "T3", "T1S", "T2S"),
}
#: Hours from and to which the card is off.
PARTS = {"for an hour while heating": (2.0, 3.1), "from the hold on": (5.0, 99.0)}


def found(run: dict[str, Floats], interval: float = 30.0) -> list[Fault]:
    return list(find(record(run, interval), stress_relief()))


def _digits(values: Floats) -> Floats:
    return np.asarray(np.round(values, 1), dtype=np.float64)


def stepped(
    run: dict[str, Floats], card: tuple[str, ...], by: float, part: tuple[float, float]
) -> dict[str, Floats]:
    off = (part[0] <= HOURS) & (part[1] > HOURS)
    return {**run, **{tag: _digits(run[tag] + by * off) for tag in card}}


@each_row("part", PARTS)
@each_row("by", [-12.0, 6.0, 9.0])
@each_row("card", CARDS)
def test_a_card_that_steps(card: str, by: float, part: str) -> None:
    run = stepped(with_spares(), CARDS[card], by, PARTS[part])
    faults = found(run)
    off = times()[(PARTS[part][0] <= HOURS) & (PARTS[part][1] > HOURS)]
    told = {(one.kind, one.tag, one.start, one.end, one.treatment) for one in faults}
    assert told == {("cold-junction", tag, off[0], off[-1], "left out") for tag in CARDS[card]}
    assert f"step {'up' if by > 0 else 'down'} by {abs(by):.0f} K in one row" in faults[0].evidence
    assert ("and back at" in faults[0].evidence) == (part == "for an hour while heating")
    if "T1" in CARDS[card]:
        made = record(run)
        assert judge(apply(made, faults), stress_relief(), tuple(faults)).overall != MET


def test_a_card_that_was_off_until_it_stepped_is_right_after_it() -> None:
    run = stepped(with_spares(), CARDS["required and spares"], 9.0, (0.0, 3.0))
    wrong = times()[HOURS < 3.0]
    told = {(one.kind, one.tag, one.start, one.end) for one in found(run)}
    tags = CARDS["required and spares"]
    assert told == {("cold-junction", tag, 0.0, wrong[-1]) for tag in tags}


def test_two_spells_are_one_fault_each() -> None:
    run = stepped(with_spares(), ("T3", "T5"), 8.0, (2.0, 2.5))
    run = stepped(run, ("T3", "T5"), 8.0, (7.0, 8.0))
    faults = found(run)
    assert [(one.kind, one.tag, len(one.spells)) for one in faults] == [
        ("cold-junction", "T3", 2),
        ("cold-junction", "T5", 2),
    ]


@pytest.mark.parametrize("interval", [10.0, 30.0, 60.0, 300.0])
@pytest.mark.parametrize("digit", [0.1, 1.0, 2.0])
def test_sound_ones_step_with_nobody(interval: float, digit: float) -> None:
    """In coarse digits, with noise, at any interval."""
    for seed in range(1, 6):
        run = with_spares(interval=interval, resolution=digit, noise=0.8, seed=seed)
        assert "cold-junction" not in {one.kind for one in found(run, interval)}


def test_a_zone_that_loses_its_heat_or_is_uncovered_is_no_card() -> None:
    """Metal falls within minutes at the quickest, and the more slowly the thicker it is."""
    for constant in (240.0, 900.0, 3600.0):
        run = with_spares()
        fall = late(times(), np.where(HOURS > 5.0, -60.0, 0.0), constant)
        for tag in ("T2", "T2S", "T4", "T6"):
            run[tag] = np.round(run[tag] + fall, 1)
        assert "cold-junction" not in {one.kind for one in found(run)}


@each_row("tags", [("T1",), ("T1", "T3"), ("T1", "T1S", "T3"), ("T1", "T2", "T3")])
@each_row("rows", [4, 6, 12, 40, 80])
def test_a_card_that_hung_and_caught_up_is_no_step(tags: tuple[str, ...], rows: int) -> None:
    """It leaps to where it should be: what is wrong are the rows before."""
    run = with_spares()
    for tag in tags:
        run[tag] = run[tag].copy()
        run[tag][300 : 300 + rows] = run[tag][299]
    told = [(one.kind, one.tag, one.start, one.end) for one in found(run)]
    hung = times()[299], times()[299 + rows]
    if rows > 8:  # shorter, and it catches up by a few kelvin, as noise does
        assert {one[:2] for one in told} == {("stuck", tag) for tag in tags}
    assert all(kind == "stuck" and (start, end) == hung for kind, _, start, end in told)


def test_contactors_that_warm_all_and_the_edges_by_more_are_no_step_of_a_card() -> None:
    """Within a row or two all go up, and what lies at a heater by twice as much (derived)."""
    run = with_spares()
    row = int(np.argmax(HOURS >= 2.0))
    warm = np.clip(np.arange(HOURS.size) - row + 1, 0, 3) / 3 * 4.0
    for tag in run:
        run[tag] = _digits(run[tag] + warm)
    for tag in ("T5", "T6"):
        run[tag] = _digits(run[tag] + 7.0 * (np.arange(HOURS.size) > row) - warm)
    assert "cold-junction" not in {one.kind for one in found(run)}
