"""A log that is followed: what lies beside it, when its rows come, what a killed watch left."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from pytest import MonkeyPatch as Patch

from hts.record.plan import Plan
from hts.record.reading import Options, read
from hts.record.watch import Follow, Growing
from hts.record.watch.growing import _whole_rows
from hts.record.watch.pace import Pace
from tests.record.watch.test_watch import at_minute, changed, header, lines

__all__ = ["header"]


def followed(folder: Path, rows: list[str]) -> Growing:
    (folder / "log.csv").write_text("".join(rows))
    return Growing([], str(folder / "log.csv"))


def test_what_is_noted_beside_the_log_counts_at_once(header: Plan, tmp_path: Path) -> None:
    """A control opens; its spare counts from the minute somebody notes it, not one row later."""
    rows = changed(lines(header), "T2", lambda number, value: "" if number > 200 else f"{value}")
    rows = at_minute(rows, 325)
    noted = tmp_path / "log.events.yaml"
    with followed(tmp_path, rows) as growing:
        follow = Follow(growing, Options())
        assert growing.changed() and not growing.changed()
        assert follow.view(header, 0.0).counted == 0
        at = rows[8 + 201].split(",")[0]
        noted.write_text(f"- {{at: {at}, kind: replaced, tag: T2, by: T2S}}\n")
        assert growing.changed() and not growing.changed()
        view = follow.view(header, 1.0)
        assert (view.counted or 0) > 0 and view.alarms == ()
        lost, spare = (next(r for r in view.rows if r.tag == tag) for tag in ("T2", "T2S"))
        assert (lost.duty, lost.note, lost.below_top) == ("replaced", "replaced by T2S", None)
        assert spare.duty == "controls" and spare.below_top is not None
        # A slip in it hides no figure.
        noted.write_text("- {at: yesterday, kind: replaced")
        assert growing.changed()
        view = follow.view(header, 2.0)
        assert view.rows and any("events of the run cannot be read" in one for one in view.alarms)
        noted.unlink()
        assert growing.changed()
        assert not any("events of the run" in one for one in follow.view(header, 3.0).alarms)


def test_a_spare_that_stands_in_is_held_to_the_range(header: Plan, tmp_path: Path) -> None:
    rows = changed(lines(header), "T2", lambda number, value: "" if number > 200 else f"{value}")
    rows = changed(rows, "T2S", lambda number, value: f"{value - (20 if number > 320 else 0)}")
    at = rows[8 + 201].split(",")[0]
    (tmp_path / "log.events.yaml").write_text(f"- {{at: {at}, kind: replaced, tag: T2, by: T2S}}\n")
    with followed(tmp_path, at_minute(rows, 325)) as growing:
        growing.changed()
        view = Follow(growing, Options()).view(header, 0.0)
    assert any(one.startswith("T2S below the range of the hold") for one in view.alarms)


def test_a_map_beside_the_log_is_used(header: Plan, tmp_path: Path) -> None:
    rows = at_minute(lines(header), 100)
    rows[7] = rows[7].replace("T3 [degC]", "Pen 3 [degC]")
    (tmp_path / "log.yaml").write_text("columns: {T3: Pen 3}\n")
    with followed(tmp_path, rows) as growing:
        growing.changed()
        view = Follow(growing, Options()).view(header, 0.0)
    assert next(row for row in view.rows if row.tag == "T3").reading is not None


def later(rows: list[str], after: int, minutes: int) -> list[str]:
    """The same rows, their clock ahead by so much from row `after` on."""
    moved = list(rows)
    for number in range(8 + after, len(rows)):
        at, rest = rows[number].split(",", 1)
        hours, rest_of = at.split(":", 1)
        of_minute, seconds = rest_of.split(":")
        total = int(hours) * 60 + int(of_minute) + minutes
        moved[number] = f"{total // 60:02d}:{total % 60:02d}:{seconds},{rest}"
    return moved


@pytest.mark.parametrize(("wait", "clock"), [(60.0, True), (38 * 60.0, False)])
def test_rows_that_come_too_soon_tell_that_the_clock_went_ahead(
    header: Plan, tmp_path: Path, wait: float, clock: bool
) -> None:
    """In a steady hold; the file is the same for a recorder that did not write."""
    rows = later(lines(header), 360, 37)
    with followed(tmp_path, []) as growing:
        follow, now = Follow(growing, Options()), 0.0
        for minute in range(354, 363):
            (tmp_path / "log.csv").write_text("".join(at_minute(rows, minute)))
            now += wait if minute == 360 else 60.0
            assert growing.changed()
            view = follow.view(header, now)
    assert any("went ahead by 38 min" in one for one in view.alarms) is clock
    assert any(one.startswith("no rows from") for one in view.alarms) is not clock


def test_a_copy_of_an_old_log_tells_nothing_of_clocks(header: Plan, tmp_path: Path) -> None:
    rows, pace = later(lines(header), 360, 37), Pace()
    for number, minute in enumerate(range(300, 400, 5)):
        (tmp_path / "log.csv").write_text("".join(at_minute(rows, minute)))
        record = read([str(tmp_path / "log.csv")], header.run.tags, Options())
        assert pace.ahead(record, 5.0 * number) == ()


def test_what_a_killed_watch_left_is_taken_away(tmp_path: Path, monkeypatch: Patch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    left = tmp_path / f"hts-{ended.pid}-abc123"
    other = tmp_path / "hts-notes"
    for folder in (left, other):
        folder.mkdir()
        (folder / "log.csv").write_text("time,T1\n")
    (tmp_path / f"hts-{ended.pid}-link").symlink_to(other)
    with Growing([], "log.csv"):
        assert not left.exists() and (other / "log.csv").exists()
        mine = [one for one in tmp_path.iterdir() if one.name.startswith(f"hts-{os.getpid()}-")]
        assert len(mine) == 1
    assert not mine[0].exists()


@pytest.mark.parametrize(
    ("data", "whole"),
    [
        (b"a,1\nb,2\nc,", b"a,1\nb,2\n"),
        (b"a,1\n", b"a,1\n"),
        (b"a", b""),
        (b"", b""),
        # A line end of UTF-16 is not cut in two; with its bytes the other way round it ends there.
        ("\ufeffa\nb".encode("utf-16-le"), "\ufeffa\n".encode("utf-16-le")),
        ("\ufeffa\nb".encode("utf-16-be"), "\ufeffa\n".encode("utf-16-be")),
        (b"a\nb", b"a\n"),
        # What is longer than any row is none that is still being written.
        (b"x" * 1_000_000, b""),
        (b"x" * 1_000_001, b"x" * 1_000_001),
    ],
)
def test_rows_that_are_whole(data: bytes, whole: bytes) -> None:
    assert _whole_rows(data) == whole
