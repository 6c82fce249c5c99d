"""Colour on a terminal that can show it, and nowhere else."""

from __future__ import annotations

import io

import pytest

from hts.cli.terminal import coloured


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("surroundings", "colour"),
    [
        ({}, True),
        ({"TERM": "xterm"}, True),
        ({"TERM": "dumb"}, False),
        # no-color.org: "when present and not an empty string (regardless of its value)".
        ({"NO_COLOR": "1"}, False),
        ({"NO_COLOR": "0"}, False),
        ({"NO_COLOR": ""}, True),
    ],
)
def test_terminals(
    monkeypatch: pytest.MonkeyPatch, surroundings: dict[str, str], colour: bool
) -> None:
    for name in ("TERM", "NO_COLOR"):
        monkeypatch.delenv(name, raising=False)
    for name, value in surroundings.items():
        monkeypatch.setenv(name, value)
    assert coloured(Terminal()) is colour
    assert not coloured(io.StringIO())
