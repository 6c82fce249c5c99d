"""Whole detectors on records of a few lines, just at what is told and just beside it: steps of
several at once, readings that jump to and fro, falls no junction cools by, units, ends of the
scale, counts beside the clock, copies, and what is apart while cold. The thresholds are ours
(basis: practice), where no source stands beside the row."""

from __future__ import annotations

import numpy as np

from hts.record.faults import (
    agreement,
    came_off,
    cards,
    clocks,
    copies,
    noisy,
    scale,
    steps,
    unit_changed,
)
from hts.record.faults.signals import Signals
from hts.record.record import READ, Floats, Series
from tests.record.judging.made import record
from tests.rows import each_row

NAN = float("nan")
ROWS = 200
TIMES = np.arange(ROWS) * 60.0
#: Four that rise by 2 K a row side by side, read to a tenth.
RISING = {f"T{n}": 100.0 + 2.0 * np.arange(ROWS) + n for n in range(1, 5)}


def stepped(tags: str, by: float, since: int, until: int = ROWS) -> dict[str, Floats]:
    found = {tag: values.copy() for tag, values in RISING.items()}
    for tag in tags.split():
        found[tag][since:until] += by
    for values in found.values():
        values[5] += 0.1
    return found


def signals_of(courses: dict[str, Floats]) -> Signals:
    return Signals(record(courses, TIMES), None)


@each_row(
    ("tags", "by", "since", "until", "told"),
    [
        # By 4 K at the least and 60 at the most, two or more together and never all of them.
        ("T1 T2", 4.1, 100, ROWS, "T1 T2"), ("T1 T2", 3.8, 100, ROWS, ""),
        ("T1 T2", -20.0, 100, ROWS, "T1 T2"), ("T1 T2 T3", 20.0, 100, ROWS, "T1 T2 T3"),
        ("T1", 20.0, 100, ROWS, ""), ("T1 T2 T3 T4", 20.0, 100, ROWS, ""),
        ("T1 T2", 0.0, 100, ROWS, ""),
        ("T1 T2", 59.9, 100, ROWS, "T1 T2"), ("T1 T2", 60.5, 100, ROWS, ""),
        # Ten rows before it and ten after it show that it lasts.
        ("T1 T2", 20.0, 10, ROWS, "T1 T2"), ("T1 T2", 20.0, 9, ROWS, ""),
        ("T1 T2", 20.0, 190, ROWS, "T1 T2"), ("T1 T2", 20.0, 191, ROWS, ""),
        ("T1 T2", 20.0, 100, 103, ""), ("T1 T2", 20.0, 100, 150, "T1 T2"),
    ],
)  # fmt: skip
def test_several_that_step_in_one_row(
    tags: str, by: float, since: int, until: int, told: str
) -> None:
    found = cards.cards(signals_of(stepped(tags, by, since, until)))
    assert [fault.tag for fault in found] == told.split()
    end = TIMES[until - 1] if until < ROWS else TIMES[-1]
    assert {(fault.start, fault.end) for fault in found} == (
        {(since * 60.0, end)} if told else set()
    )
    for fault in found:
        assert f"step {'up' if by > 0 else 'down'} by " in fault.evidence
        assert (", and back at " in fault.evidence) is (until < ROWS)


@each_row(
    ("others", "told"), [(0.0, "T1 T2"), (3.5, "T1 T2"), (-3.5, "T1 T2"), (6.0, ""), (3.9, "T1 T2")]
)
def test_a_card_beside_one_that_moves_a_little(others: float, told: str) -> None:
    """By less than 0.4 of the step."""
    courses = stepped("T1 T2", 10.0, 100)
    courses["T3"][100:] += others
    assert [fault.tag for fault in cards.cards(signals_of(courses))] == told.split()


@each_row(
    ("off", "begins", "first"),
    [
        # Off the others by 0.6 of the step while these are cold, they were wrong until they step.
        (20.0, 20.0, True), (12.1, 20.0, True), (11.9, 20.0, False), (0.0, 20.0, False),
        (20.0, 45.0, True), (20.0, 45.1, False),
    ],
)  # fmt: skip
def test_a_card_that_was_off_from_the_start(off: float, begins: float, first: bool) -> None:
    courses = stepped("T1 T2", 20.0, 100)
    for tag, its in courses.items():
        its += begins - its[0] - (off if tag in ("T1", "T2") else 0.0)
    found = cards.cards(signals_of(courses))
    spell = (0.0, TIMES[99]) if first else (TIMES[100], TIMES[-1])
    assert [(fault.tag, fault.start, fault.end) for fault in found] == [
        ("T1", *spell), ("T2", *spell)
    ]  # fmt: skip


@each_row(
    ("by", "rows", "tags"),
    [
        # To and fro by 1.1 K is noise of 2.7 K (4 of them in each bend, 1.4826 / sqrt 6), over 2.5;
        # for 40 rows at the least.
        (1.1, 60, "T1"), (1.0, 60, ""), (5.0, 60, "T1"), (5.0, 25, ""), (5.0, ROWS, "T1"),
    ],
)  # fmt: skip
def test_one_that_jumps_to_and_fro(by: float, rows: int, tags: str) -> None:
    courses = stepped("", 0.0, 0)
    courses["T1"][40 : 40 + rows] += by * np.where(np.arange(len(TIMES[40 : 40 + rows])) % 2, 1, -1)
    assert [fault.tag for fault in noisy.pick_up(signals_of(courses))] == tags.split()
    # Of all that jump alike all the time none does more than the others.
    alike = {tag: values + courses["T1"] - RISING["T1"] for tag, values in RISING.items()}
    assert (noisy.pick_up(signals_of(alike)) == []) is (rows == ROWS or not tags)


@each_row(
    ("behind", "electrical"),
    [
        # Of 100 K half within two rows, or seven tenths within 45 s of the row before.
        ([0, 10, 50, 100], True), ([0, 10, 49.9, 100], False), ([0, 93.4, 40, 100], True),
        ([0, 93.3, 40, 100], False), ([20, 30, 69.9, 100], False), ([20, 30, 70, 100], True),
    ],
)  # fmt: skip
def test_a_fall_no_junction_cools_by(behind: list[float], electrical: bool) -> None:
    times, values = np.arange(4) * 60.0, np.array(behind, dtype=float)
    assert came_off.electrical(times, values, 1, 100.0) is electrical
    # From the first row on, and to the last, there is one row less.
    assert came_off.electrical(times, values, 0, 100.0) is bool(values[1] - values[0] >= 50 or (
        0.75 * (values[1] - values[0]) >= 70))  # fmt: skip
    assert came_off.electrical(times, values, 3, 100.0) is bool(values[3] - values[2] >= 50)


def test_what_is_told_of_one_that_steps_by_itself_needs_others() -> None:
    """Without a plan nobody says where it sits: then it may be another place that is heated."""
    assert steps.steps(signals_of(stepped("T1", 20.0, 100))) == []


@each_row(
    ("before", "after", "up"),
    [
        # 100, 200 and 300 degC are 212, 392 and 572 degF; to within 4 K, nine of ten of them.
        ([100, 200, 300], [212, 392, 572], True), ([212, 392, 572], [100, 200, 300], False),
        ([100, 200, 300], [216, 388, 572], True), ([100, 200, 300], [216.1, 392, 572], None),
        ([100, 200, NAN], [212, 392, 572], True), ([100, NAN, NAN], [212, 392, 572], None),
        ([100] * 10, [212] * 9 + [300], True), ([100] * 10, [212] * 8 + [300] * 2, None),
        ([100, 200], [101, 201], None),
    ],
)  # fmt: skip
def test_readings_that_go_over_to_another_unit(
    before: list[float], after: list[float], up: bool | None
) -> None:
    made = (np.array(each, dtype=float) for each in (before, after))
    assert unit_changed._goes_over(*made, np.full(len(before), 4.0)) is up


@each_row(
    ("begins", "since", "until", "spell"),
    [
        # From the air on: until it is changed back, or to the end; else nobody knows what is right.
        (20.0, 100, ROWS, (100, ROWS - 1)), (20.0, 100, 150, (100, 149)), (46.0, 100, ROWS, None),
        (45.0, 100, ROWS, (100, ROWS - 1)), (-20.0, 100, ROWS, (100, ROWS - 1)),
        (-20.5, 100, ROWS, None),
    ],
)  # fmt: skip
def test_a_record_that_goes_over_to_another_unit(
    begins: float, since: int, until: int, spell: tuple[int, int] | None
) -> None:
    courses = {tag: values - values[0] + begins for tag, values in RISING.items()}
    for values in courses.values():
        values[since:until] = values[since:until] * 1.8 + 32
    (fault,) = unit_changed.unit_changed(signals_of(courses))
    assert "all go over from degC to degF at " in fault.evidence
    if spell is None:
        assert (fault.treatment, fault.start, fault.end) == ("kept", 0.0, TIMES[-1])
    else:
        assert fault.treatment == "left out"
        assert (fault.start, fault.end) == (TIMES[spell[0]], TIMES[spell[1]])


@each_row(
    ("reads", "since", "until", "kind"),
    [
        # 150 K above the hottest of the others, 498 degC there, and 25 K below the air, for four
        # rows at the least; it may wander by 8 K.
        (1372.0, 100, ROWS, "open-upscale"), (1372.0, 100, 104, "open-upscale"),
        (1372.0, 100, 103, ""), (655.0, 100, ROWS, "open-upscale"), (640.0, 100, ROWS, ""),
        (-200.0, 100, ROWS, "open-downscale"), (-200.0, 100, 103, ""),
        (1372.0, 0, ROWS, "open-upscale"),
    ],
)  # fmt: skip
def test_readings_at_an_end_of_the_scale(reads: float, since: int, until: int, kind: str) -> None:
    courses = stepped("", 0.0, 0)
    for wander, found in ((0.0, kind), (8.0, kind), (8.5, "")):
        courses["T1"] = RISING["T1"].copy()
        courses["T1"][since:until] = reads + wander * (np.arange(until - since) % 2)
        told = scale.open_circuits(signals_of(courses))
        assert [fault.tag for fault in told] == ["T1"] * bool(found), (wander, told)
        for fault in told:
            assert (fault.kind, fault.start, fault.end) == (kind, TIMES[since], TIMES[until - 1])


@each_row(
    ("counts", "unit", "told"),
    [
        # A count in seconds or minutes beside a clock of 11,940 s: two intervals apart at its end.
        (TIMES / 60, "min", False), (TIMES, "s", False), (TIMES * 1.0101, "s", True),
        (TIMES * 1.0099, "s", False), (TIMES * 0.98 / 60, "[min]", True), (TIMES * 1.02, "", True),
        (TIMES * 1.3, "s", False), (np.arange(ROWS) * 1.0, "", False),
        # It need not begin at nothing.
        (TIMES + 5000, "s", False), (TIMES * 1.0101 + 5000, "s", True),
        # One that stands still for a while is no slow one.
        (np.where(TIMES < 6000, TIMES, TIMES - 600), "s", False),
    ],
    ids=lambda row: str(row)[:40],
)  # fmt: skip
def test_a_count_beside_the_clock(counts: Floats, unit: str, told: bool) -> None:
    signals = signals_of(RISING)
    status = np.full(ROWS, READ, dtype=np.uint8)
    column = Series("Elapsed", counts, status, "Elapsed", unit)
    assert bool(clocks._apart(signals, column)) is told
    few = column._replace(values=np.where(np.arange(ROWS) < 19, counts, NAN))
    assert clocks._apart(signals, few) == ""


@each_row(
    ("first", "told", "confidence"),
    [
        # At 20 degC the errors of two sound ones are 6.27 K apart at most: 2 sqrt 2 sqrt((2.5^2 +
        # 2.5^2 + 1.5^2) / 3). Nothing leaves a place colder than the air, welding may warm it.
        ([20, 20, 20, 20, 26.2], "", ""), ([20, 20, 20, 20, 26.4], "T5", "medium"),
        ([20, 20, 20, 20, 13.8], "", ""), ([20, 20, 20, 20, 13.6], "T5", "high"),
        ([20, 31.4, 20], "T2", "medium"), ([20, 31.2, 20], "", ""), ([20, 31.4], "", ""),
        # What the middle half lies apart is allowed as well, 5 K of it at the most.
        ([18, 20, 20, 22, 29.4], "T5", "medium"), ([18, 20, 20, 22, 28.2], "", ""),
        ([45, 45, 45, 45, 60], "T5", "medium"), ([45.1] * 4 + [60], "", ""),
        ([10, 15, 20, 25, 60], "", ""),
    ],
)  # fmt: skip
def test_one_off_the_others_while_cold(first: list[float], told: str, confidence: str) -> None:
    courses = {f"T{n}": np.full(20, reads) for n, reads in enumerate(first, 1)}
    found = agreement.apart_when_cold(Signals(record(courses, np.arange(20) * 60.0), None))
    assert [(fault.tag, fault.confidence) for fault in found] == [(told, confidence)] * bool(told)


@each_row(
    ("rows", "digit", "scale", "offset", "told"),
    [
        # The noise of two thermocouples is never the same, to whatever level it is moved.
        (200, 0.1, 1.0, 0.0, True), (200, 0.1, 1.0, 12.5, True), (200, 0.1, 0.9, 5.0, True),
        (200, 1.0, 1.0, 0.0, True), (60, 0.1, 1.0, 0.0, True), (59, 0.1, 1.0, 0.0, False),
        (200, 0.1, None, 0.0, False), (200, 1.0, None, 0.0, False),
    ],
)  # fmt: skip
def test_one_that_was_made_of_another(
    rows: int, digit: float, scale: float | None, offset: float, told: bool
) -> None:
    random = np.random.default_rng(11)
    line = 100.0 + 2.0 * np.arange(rows)
    courses = {
        tag: np.round((line + random.normal(0.0, 2.0, rows)) / digit) * digit
        for tag in ("T1", "T2", "T3", "T4")
    }
    if scale is not None:
        courses["T4"] = np.round((courses["T1"] * scale + offset) / digit) * digit
    found = copies.copied(Signals(record(courses, np.arange(rows) * 60.0), None))
    assert [{fault.tag, *fault.others} for fault in found] == [{"T1", "T4"}] * told
