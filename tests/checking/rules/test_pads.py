"""Pads, and joints of one zone beside others, have no small specification: whole ones are changed.

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


def test_the_one_zone_of_a_joint_states_what_those_of_the_others_do() -> None:
    path = _PAD.parents[3] / "specs" / "leaning-drain.hts"
    text = changed(
        path.read_text("utf-8"), (("power 5.4 kW heaters 2 circuit 1", "power 5.4 kW heaters 2"),)
    )
    assert [(f.kind.code, f.message) for f in checked(path, text)] == [
        ("Z140", "zone all of S72 does not state `circuit`, those of the other joints do")
    ]
