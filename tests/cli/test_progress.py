"""How far a check has come is shown on a terminal, and nowhere else."""

from __future__ import annotations

import io
import sys

import pytest

from hts.cli.progress import doing, progress


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_nothing_in_a_pipe(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stderr", io.StringIO())
    assert progress() is None


def test_nothing_where_the_terminal_cannot(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stderr", Terminal())
    monkeypatch.setenv("TERM", "dumb")
    assert progress() is None


@pytest.mark.parametrize(
    ("files", "shown"), [(10, False), (199, False), (200, True), (12345, True)]
)
def test_it_goes_away_when_all_is_done(
    monkeypatch: pytest.MonkeyPatch, files: int, shown: bool
) -> None:
    stream = Terminal()
    monkeypatch.setattr(sys, "stderr", stream)
    monkeypatch.setenv("TERM", "xterm")
    tell = progress()
    assert tell is not None
    for done in range(1, files + 1):
        tell(done, files)
    said = stream.getvalue()
    assert bool(said) == shown
    if shown:
        # ECMA-48 8.3.41, erase in line.
        assert said.endswith("\r\x1b[K")
        assert "\n" not in said and len(said.split("\r")) < 60


def test_what_is_being_done_is_said_on_a_terminal_only_and_taken_away(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for terminal, expected in ((True, "  packing ...\r\033[K"), (False, "")):
        stream = io.StringIO()
        monkeypatch.setattr(stream, "isatty", lambda terminal=terminal: terminal)
        monkeypatch.setattr(sys, "stderr", stream)
        monkeypatch.setenv("TERM", "xterm")
        with doing("packing"):
            pass
        assert stream.getvalue() == expected
