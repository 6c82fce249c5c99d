"""What was listed and is away stays listed while nothing else is there; a log that falls silent."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace

import pytest

from hts.view import desk_page
from hts.view import shelf as shelves
from hts.view.desk_page import Desk
from hts.view.shelf import Shelf


def _names(shelf: Shelf) -> list[str]:
    shelf._walk()
    return sorted(Path(shelf._paths[key]).name for key in shelf.keys)


@pytest.mark.parametrize("single", [True, False])
def test_texts_that_go_and_come(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, single: bool
) -> None:
    monkeypatch.setattr(shelves, "_WALK", 0.0)
    (tmp_path / ".git").mkdir()
    first, second = tmp_path / "a.hts", tmp_path / "b.hts"
    first.write_text("spec 1\n")
    shelf = Shelf(str(first if single else tmp_path))
    key = shelf.keys[0]
    assert _names(shelf) == ["a.hts"]
    first.unlink()
    assert _names(shelf) == ["a.hts"]
    second.write_text("spec 1\n")
    assert _names(shelf) == (["a.hts"] if single else ["b.hts"])
    # Whoever has its page open still asks for it.
    assert shelf.has(key)
    first.write_text("spec 1\n")
    assert _names(shelf) == (["a.hts"] if single else ["a.hts", "b.hts"])


@pytest.mark.parametrize(
    ("readings", "elapsed", "every", "silent", "told"),
    [
        # A minute between rows: silent from so many of them on, whatever the looks are apart.
        (61, 3600.0, 1.0, 0.99, False),
        (61, 3600.0, 1.0, 1.01, True),
        # Two seconds between rows and looks ten apart: the looks count.
        (31, 60.0, 10.0, 0.99 / 6, False),
        (31, 60.0, 10.0, 1.01 / 6, True),
        # A single row has no interval.
        (1, 0.0, 60.0, 0.99, False),
        (1, 0.0, 60.0, 1.01, True),
    ],
)
def test_a_log_that_falls_silent(
    monkeypatch: pytest.MonkeyPatch,
    readings: int, elapsed: float, every: float, silent: float, told: bool,
) -> None:  # fmt: skip
    desk = Desk.__new__(Desk)
    desk._seconds, desk._grown, desk._spec, desk._why = every, 1000.0, "", ""
    desk._view = None
    assert desk._silent() == ""
    assert "<h1>The run</h1>" in str(desk.head()) and "SIMULATED" not in str(desk.head())
    now = 1000.0 + silent * desk_page._SILENT * 60.0
    monkeypatch.setattr("hts.view.desk_page.clock_time.monotonic", lambda: now)
    for simulated in (True, False):
        desk._view = SimpleNamespace(  # type: ignore[assignment]
            readings=readings, elapsed=elapsed, clock="10:00", title="W12", simulated=simulated
        )
        head = str(desk.head())
        assert ("no new row since 10:00: is the recorder writing?" in head) == told
        assert ("SIMULATED" in head) == simulated
        assert "<h1>W12</h1>" in head
