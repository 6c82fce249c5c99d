"""Pads have no small specification of their own: that of the right work is changed.

Common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

from tests.specs.found import changed, checked

_PAD = Path(__file__).resolve().parents[2] / "specs" / "right" / "seam-and-pad.hts"


def test_the_soak_edge_of_a_pad_is_watched_on_the_run_and_on_the_pad() -> None:
    text = changed(_PAD.read_text("utf-8"), (("38 mm on pad", "38 mm on run"),))
    assert [(f.kind.code, f.message) for f in checked(_PAD, text)] == [
        ("Z119", "the soak edge is monitored only on run")
    ]
