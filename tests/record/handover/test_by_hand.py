"""What report, chart and workbook say alike, on little put together by hand."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

import numpy as np
import pytest

from hts.language.vocabulary.job import Signature
from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import OFFSET
from hts.record.handover import chart, identity, words, workbook
from hts.record.judging import MET, NOT_MET, NOT_SHOWN, Failure
from hts.record.record import LEFT_OUT, Event, Gap
from tests.record.judging.made import record
from tests.rows import each_row


def verdict(found: str, guarded: str | None, *failures: str, elsewhere: bool = False) -> Any:
    made = tuple(Failure((), 0.0, 1.0, each) for each in failures)
    return Stub(verdict=found, guarded=guarded, failures=made, elsewhere=elsewhere)


@each_row(
    ("found", "guarded", "told", "listed"),
    [
        (MET, None, "met", False), (MET, MET, "met", False),
        (MET, "conditional", "met, conditional with guard band", True),
        (NOT_MET, None, "not met", True), (NOT_MET, NOT_MET, "not met", True),
        (NOT_SHOWN, None, "not shown", True),
        (NOT_SHOWN, NOT_MET, "not shown, not met with guard band", True),
        (NOT_MET, MET, "not met, met with guard band", False),
    ],
)  # fmt: skip
def test_what_is_told_of_a_verdict_and_whether_its_failures_are(
    found: str, guarded: str | None, told: str, listed: bool
) -> None:
    """The guard band decides where there is one; what another paper shows is not judged here."""
    one = verdict(found, guarded, "a", "b")
    assert words.outcome(one) == told
    beside = verdict(NOT_MET, None, "c"), verdict(NOT_MET, None, "d", elsewhere=True)
    judgement: Any = Stub(verdicts=[one, *beside])
    numbered = ["a", "b", "c"] if listed else ["c"]
    assert [each.sentence for each in words.failures(judgement)] == numbered
    assert words.judged(judgement) == [one, beside[0]]


@each_row(
    ("spans", "marks"),
    [
        ([], []), ([(0, 10)], [(1, 1, 0, 10)]),
        # Together where they touch or overlap, whichever begins first; with a second between, not.
        ([(0, 10), (10, 20)], [(1, 2, 0, 20)]), ([(10, 20), (0, 10)], [(1, 2, 0, 20)]),
        ([(0, 10), (11, 20)], [(1, 1, 0, 10), (2, 2, 11, 20)]),
        ([(11, 20), (0, 10)], [(1, 1, 11, 20), (2, 2, 0, 10)]),
        ([(0, 30), (5, 10), (20, 40)], [(1, 3, 0, 40)]),
        ([(0, 10), (50, 60), (5, 8)], [(1, 1, 0, 10), (2, 2, 50, 60), (3, 3, 5, 8)]),
    ],
)  # fmt: skip
def test_failures_marked_as_one(
    spans: list[tuple[float, float]], marks: list[tuple[int, int, float, float]]
) -> None:
    assert words.grouped([Failure((), start, end, "") for start, end in spans]) == marks


@each_row(
    ("event", "told"),
    [
        (Event("power lost", 0.0), "power lost"),
        (Event("replaced", 0.0, "T3", "T3S"), "T3 replaced by T3S"),
        (Event("lost", 0.0, "T3"), "lost (T3)"),
        (Event("heater lost", 0.0, zone="top"), "heater lost, zone top"),
        (Event("note", 0.0, text="door open"), "note: door open"),
        (Event("note", 0.0, text="note"), "note"),
        (Event("replaced", 0.0, "T3", "T3S", text="burnt"), "T3 replaced by T3S: burnt"),
    ],
)
def test_events_in_words(event: Event, told: str) -> None:
    assert words.event_words(event) == told


@each_row(
    ("instrument", "told"),
    [
        (None, "not stated"), (Stub(name="R2", serial=None, calibrated=None), "R2"),
        (Stub(name="R2", serial="40-126", calibrated=Stub(on="2026-09-08", until="2027-03-08")),
         "R2, serial 40-126, calibrated 2026-09-08 until 2027-03-08"),
        (Stub(name="R2", serial=None, calibrated=Stub(on="2026-09-08", until=None)),
         "R2, calibrated 2026-09-08 until not stated"),
    ],
)  # fmt: skip
def test_an_instrument(instrument: Any, told: str) -> None:
    assert identity.instrument(instrument) == told


@each_row(
    ("name", "number", "told"),
    [("R2", 3, "R2 channel 3"), (None, 3, "channel 3"), ("R2", None, "R2"), (None, None, "")],
)
def test_a_channel(name: str | None, number: int | None, told: str) -> None:
    assert identity._channel(Stub(instrument=name, number=number)) == told  # type: ignore[arg-type]


def test_who_signs_in_which_order() -> None:
    def role(words: str) -> Signature:
        made = Signature.__new__(Signature)
        made.role = words
        return made

    signed = Stub(approved=[role("c"), role("d")], prepared=role("a"), checked=None, endorsed=[])
    plan: Any = Stub(job=Stub(spec=Stub(file=Stub(job=Stub(signed=signed)))))
    assert identity.signing(plan) == [("prepared", "a"), ("approved", "c"), ("approved", "d")]
    usual = [(post, "") for post in ("heat treatment", "maker", "inspector", "owner")]
    for job in (Stub(signed=None), None):
        plan.job.spec.file.job = job
        assert identity.signing(plan) == usual


NAN = float("nan")


@each_row(
    ("gaps", "blank", "during", "stretches"),
    [
        # A trace is a line through rows one after the other: none where rows or readings are not.
        ([], [], (0, 540), [[0, 1, 2, 3, 4, 5, 6, 7, 8, 9]]),
        ([(120, 360)], [], (0, 600), [[0, 1, 2], [6, 7, 8, 9, 10]]),
        ([(120, 360), (480, 900)], [], (0, 960), [[0, 1, 2], [6, 7, 8], [15, 16]]),
        ([], [4], (0, 540), [[0, 1, 2, 3], [5, 6, 7, 8, 9]]),
        ([], [1], (0, 540), [[2, 3, 4, 5, 6, 7, 8, 9]]),
        ([(120, 360)], [], (360, 600), [[6, 7, 8, 9, 10]]),
        ([(120, 360)], [], (0, 360), [[0, 1, 2]]),
    ],
)  # fmt: skip
def test_no_line_where_nothing_was_read(
    gaps: list[tuple[int, int]],
    blank: list[int],
    during: tuple[int, int],
    stretches: list[list[int]],
) -> None:
    minutes = [n for n in range(during[1] // 60 + 6) if not any(a < 60 * n < b for a, b in gaps)]
    elapsed = np.array(minutes) * 60.0
    values = np.full(len(elapsed), 700.0)
    values[blank] = NAN
    its: Any = Stub(
        record=record({"T1": values}, elapsed)._replace(gaps=tuple(Gap(*one) for one in gaps)),
        during=during,
        scale=Stub(low=0.0, high=1000.0),
        plot=Stub(left=0.0, right=200.0),
        _place=lambda seconds, celsius: round(seconds / 60),
    )
    drawn: Any = chart._View._points(its, values)
    assert drawn == stretches


def test_more_rows_than_a_sheet_holds(monkeypatch: pytest.MonkeyPatch) -> None:
    """One row in two then, said below; and of what is set aside the first."""
    monkeypatch.setattr(workbook, "MOST_ROWS", 5)
    tables: dict[str, Any] = {}

    def table(name: str, title: str, columns: Any, rows: Any, notes: Any, keys: int = 0) -> None:
        tables[name] = (len(rows), notes)

    book: Any = Stub(table=table)
    for count, aside, told in (
        (5, 5, {"Readings": (5, []), "Set aside": (5, [])}),
        (6, 6, {"Readings": (3, ["One row in 2 of the record."]),
                "Set aside": (5, ["The first 5."])}),
        (11, 0, {"Readings": (4, ["One row in 3 of the record."])}),
    ):  # fmt: skip
        made = record({"T1": np.full(count, 700.0)}, np.arange(count) * 60.0)
        made.series["T1"].status[:aside] = LEFT_OUT
        judgement: Any = Stub(
            record=made,
            plan=Stub(job=Stub(units=Stub(first=lambda kind: "degC"))),
            faults=(Fault(OFFSET.name, "T1", (), 0.0, 9e9, "", "high", "left out"),),
        )
        tables.clear()
        workbook._readings(book, judgement)
        workbook._set_aside(book, judgement)
        assert tables == told
