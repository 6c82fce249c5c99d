"""Which logs are one run, worked by hand from when they begin and end; how a table is summed up,
and by which name a log is told. What is near and what is warm is practice, no source."""

from __future__ import annotations

import os
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pytest

from hts.checking.checker.results import Shard
from hts.record.archive import ArchiveLine
from hts.record.archive.audit import Asked, _dealt, _labelled
from hts.record.archive.find import Found, _by_name, found, specifications
from hts.record.archive.parts import Extent, extent, parts
from hts.record.archive.table import _totals, table
from hts.record.labels import Labels
from hts.record.reading import Options
from hts.record.record import Jump
from tests.record.judging.made import record
from tests.rows import each_row

RUN, OTHER = ("W1", "stress-relief"), ("W2", "stress-relief")
BOTH = frozenset(("T1", "T2"))


def log(
    start: float, end: float, *, run: tuple[str, str] = RUN, zoned: bool = True,
    interval: float = 60.0, tags: frozenset[str] = BOTH, first: float = 20.0, last: float = 20.0,
) -> Extent:  # fmt: skip
    return Extent(run, start, end, zoned, interval, tags, first, last)


FIRST = log(0.0, 3600.0, last=60.0)
ELSE = frozenset(("T3",))


@each_row(
    ("second", "one"),
    [
        # Three rows after its end, by whichever interval is longer; cold.
        (log(3780.0, 7200.0), True),
        (log(3781.0, 7200.0), False),
        (log(3900.0, 7200.0, interval=100.0), True),
        # An hour later where it is warm on both sides.
        (log(7200.0, 9000.0, first=60.0), True),
        (log(7201.0, 9000.0, first=60.0), False),
        (log(7200.0, 9000.0, first=59.9), False),
        # It begins before the first one ends, and goes on; or does not: a copy, or an excerpt.
        (log(1800.0, 3601.0), True),
        (log(1800.0, 3600.0), False),
        # Another run, or a clock that states no zone.
        (log(3660.0, 7200.0, run=OTHER), False),
        (log(3660.0, 7200.0, zoned=False), False),
        # Other thermocouples: side by side for half of the shorter one at the least.
        (log(3000.0, 4200.0, tags=ELSE), True),
        (log(3001.0, 4203.0, tags=ELSE), False),
        (log(1800.0, 9000.0, tags=ELSE), True),
        (log(1801.0, 9000.0, tags=ELSE), False),
        (log(1000.0, 2000.0, tags=ELSE), True),
        # One that shows nothing.
        (log(1000.0, 2000.0, tags=frozenset()), False),
    ],
)
def test_two_logs(second: Extent, one: bool) -> None:
    assert parts([FIRST, second]) == ([[0, 1]] if one else [])
    assert parts([second, FIRST]) == ([[1, 0]] if one else [])


def test_many_logs() -> None:
    """By run and time; what goes on with any of a group is of it; one without dates stays out."""
    logs = [
        log(7260.0, 9000.0), None, FIRST, log(3660.0, 7200.0), log(0.0, 60.0, run=OTHER),
        log(100.0, 9000.0, tags=ELSE), log(90000.0, 99000.0),
    ]  # fmt: skip
    assert parts(logs) == [[2, 5, 3, 0]]
    assert parts([]) == [] and parts([None, None]) == []


def test_what_of_a_log_tells() -> None:
    """From its first reading to its last, by a clock that was set back by 10 min in it; five rows
    at each end of all that is read: 20, 20, 21, 21, 22 and those 100 higher, in the middle
    of which are 22 and 120."""
    times = np.arange(8) * 60.0
    values = np.array([20.0, 20.0, 21.0, 21.0, 22.0, 300.0, 301.0, 302.0])
    courses = {"T1": values, "T2": values + 100, "T3": values * np.nan}
    start = datetime(2026, 11, 21, 6, 0, tzinfo=UTC)
    made = record(courses, times, start=start)._replace(jumps=(Jump(200.0, -600.0),))
    found = extent(made, RUN)
    assert found is not None
    begins = 1795240800.0  # 21 November 2026 06:00 UTC
    assert (found.start, found.end) == (begins, begins + 420 - 600)
    assert (found.zoned, found.interval, found.tags) == (True, 60.0, BOTH)
    assert found.first == pytest.approx((22 + 120) / 2)
    assert found.last == pytest.approx((300 + 301) / 2)
    assert extent(made._replace(start=None), RUN) is None
    bare = extent(made._replace(start=start.replace(tzinfo=None)), RUN)
    assert bare is not None and not bare.zoned
    # A whole day later is a day more by such a clock, too.
    next_day = extent(made._replace(start=datetime(2026, 11, 22, 6, 0)), RUN)
    assert next_day is not None and next_day.start - bare.start == 86400.0


def test_the_sum_of_a_table() -> None:
    assert _totals(Counter(met=1), Counter()) == "\n1 line: 1 met\n"
    verdicts = Counter({"no record": 1, "met": 3, "could not judge": 2})
    told = "\n6 lines: 3 met, 2 could not judge, 1 no record\ncould not judge: 2 unnamed\n"
    assert _totals(verdicts, Counter(unnamed=2)) == told
    assert _totals(Counter(), Counter()) == "\n0 lines: \n"


def test_a_row_of_the_table() -> None:
    """Each column begins two blanks after the widest thing expected in the one before."""
    line = ArchiveLine(*"abcdefgh", failed="hold time", note="two notes")
    row, *below = "".join(table([line], "text")).splitlines()[1:4]
    assert row == (
        "a             b         c         d                 e"
        + " " * 37
        + "f"
        + " " * 20
        + "g"
        + " " * 16
        + "h"
    )
    assert below == ["    not met: hold time", "    note: two notes"]


@each_row(
    ("name", "number"),
    [
        ("HT-1.csv", "HT-1"),
        ("run of ht-1 again.csv", "HT-1"),
        # The longest that stands there as a whole word.
        ("HT-12.csv", "HT-12"),
        ("HT-12-B.csv", "HT-12-B"),
        ("HT-123.csv", ""),
        ("XHT-1.csv", ""),
        ("HT-1_2026.csv", "HT-1"),
        ("HT-1.HT-12.csv", "HT-12"),
        ("T-1.csv", ""),
    ],
)
def test_the_document_a_log_is_named_after(name: str, number: str) -> None:
    assert _by_name(name, ("HT-1", "HT-12", "HT-12-B")) == number


def test_numbers_in_texts(tmp_path: Path) -> None:
    """That of the job, wherever others stand, or its keyword is misspelt; a library has none; what
    cannot be read is told."""
    texts = {
        "a.hts": 'spec 1\njob "Tern Island" {\n  number "A-\\"1\\""\n}\n',
        "b.hts": 'procedure P { \n  number "P-1"\n}\njob "x" {\n  number "B-1"\n}\n',
        "c.hts": "procedure P {\n  revision 1\n}\n",
        "f.hts": 'jbo "x" {\n  number "F-1"\n}\n',
        "d.hts": 'job "without" {\n}\n',
    }
    for name, text in texts.items():
        (tmp_path / name).write_text(text)
    (tmp_path / "e.hts").write_bytes('job "x"'.encode("utf-16-le"))
    listed = specifications(str(tmp_path))
    by = {number: [Path(one).name for one in files] for number, files in listed.by_number.items()}
    assert by == {'A-"1"': ["a.hts"], "B-1": ["b.hts"], "F-1": ["f.hts"]}
    assert [(Path(one.name).name, one.reason.split(";")[0]) for one in listed.lost] == [
        ("d.hts", "its job has no number"),
        ("e.hts", "it holds NUL bytes, as text in UTF-16 does"),
    ]


def test_logs_that_cannot_be_read_or_belong_nowhere(tmp_path: Path) -> None:
    """Each is told with a reason, whatever kind of fault it is."""
    (tmp_path / "a.xlsx").write_bytes(b"PK\x03\x04 torn" * 20)
    (tmp_path / "b.csv").write_bytes(b"\x1f\x8b torn")
    (tmp_path / "c.csv").write_text("Time,T1\n0,1\n60,2\n")
    (tmp_path / "HT-1.csv").write_text("Time,T1\n0,1\n60,2\n")
    os.mkfifo(tmp_path / "d.csv")
    told = {one.name: (one.why, one.reason) for one in found(str(tmp_path), {"HT-1": ["x.hts"]})}
    assert told["HT-1.csv"] == ("", "")
    assert {name: why for name, (why, _) in told.items() if why} == {
        "a.xlsx": "unreadable", "b.csv": "unreadable", "c.csv": "unnamed", "d.csv": "unreadable",
    }  # fmt: skip
    words = {
        "a.xlsx": "begins as an archive", "b.csv": "cannot be unpacked",
        "c.csv": "which document it belongs to", "d.csv": "a pipe",
    }  # fmt: skip
    assert [name for name, each in words.items() if each not in told[name][1]] == []


def test_shards_are_dealt_without_a_gap(tmp_path: Path) -> None:
    names = [str(tmp_path / f"{n}.hts") for n in range(11)]
    asked = Asked(str(tmp_path), str(tmp_path), Options())
    assert _dealt(names, asked) == names
    dealt = [_dealt(names, asked._replace(shard=Shard(number, 3))) for number in (1, 2, 3)]
    assert sorted(len(its) for its in dealt) == [3, 4, 4]
    assert sorted(name for its in dealt for name in its) == sorted(names)
    assert all(its == sorted(its) for its in dealt)
    # By their names below the folder: the same wherever it lies.
    there = [name.replace(str(tmp_path), "/elsewhere") for name in names]
    moved = _dealt(there, asked._replace(specs="/elsewhere/0.hts", shard=Shard(1, 3)))
    assert [Path(one).name for one in moved] == [Path(one).name for one in dealt[0]]


@each_row(
    ("own", "labels"),
    [
        # What is asked for holds for logs that say nothing themselves, and no other.
        (Labels(), Labels(joint="W1", cycle="pwht")),
        (Labels(joint="W2"), Labels(joint="W2", cycle="pwht")),
        (Labels(joint="W2", cycle="bake"), Labels(joint="W2", cycle="bake")),
    ],
)
def test_a_joint_and_a_cycle_asked_for_of_a_folder(own: Labels, labels: Labels) -> None:
    asked = Asked("specs", "logs", Options(), joint="W1", cycle="pwht")
    assert _labelled(Found("a.csv", "a.csv", own, "x.hts"), asked).labels == labels
