"""What the hold hangs on, and which two thermocouples lie near: by hand from two specifications."""

from __future__ import annotations

from math import hypot, pi
from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.checking.rules.examples import BASES
from hts.job.compiler.program import CYCLE, PREHEAT
from hts.job.demands.watched import Watched, _required, apart, pairs_within, watched
from tests.jobs import job_at
from tests.paper.packet.jobs import ROOT, of_text
from tests.rows import each_row

#: specs/p22-header.hts, its cycle: 610 mm pipe, soak band 125 mm. Zone, degrees, mm along the pipe
#: with upstream negative, whether the hold hangs on it.
HEADER = """
T1  top    0    0    yes
T2  right  90   0    yes
T3  bottom 180  0    yes
T4  left   270  0    yes
T1S top    2.5  0    no
T5  top    0   -62   yes
T6  bottom 180 -62   yes
T8  bottom 180  62   yes
T9  top    0   -465  no
T10 bottom 180  465  no
T11 top    0    675  no
T12 right  90  -620  no
"""


def of(spec: str, joint: str, kind: str) -> dict[str, Watched]:
    sheet = next(s for s in job_at(ROOT / f"specs/{spec}.hts").joints if s.joint.name == joint)
    run = next(run for run in sheet.runs if run.program.kind == kind)
    return {one.tag: one for one in watched(sheet, run, kind)}


@each_row("line", HEADER.strip().splitlines())
def test_each_thermocouple_of_a_header(line: str) -> None:
    tag, zone, clock, axial, required = line.split()
    found = of("p22-header", "W12", CYCLE)[tag]
    # A monitor belongs to the zone whose arc it lies on.
    assert (found.zone, found.clock, found.axial) == (zone, float(clock), float(axial))
    assert found.outside == 610
    assert found.required is (required == "yes")


def test_what_hangs_on_the_width_that_is_held() -> None:
    """specs/leaning-drain.hts, W71: a monitor of the heavy section 80 mm from the weld. Preheat is
    80 mm each side, so that it lies within; the soak band is half as wide."""
    assert of("leaning-drain", "W71", PREHEAT)["T8"].required
    assert not of("leaning-drain", "W71", CYCLE)["T8"].required
    # The edge of the soak band says nothing of the preheat, a monitor of the weld does.
    assert not of("leaning-drain", "S72", PREHEAT)["T5"].required
    assert of("leaning-drain", "S72", CYCLE)["T5"].required
    assert of("leaning-drain", "S72", PREHEAT)["T2"].required


@each_row(
    ("axial", "half", "required"),
    [(80.0, 80.0, True), (-80.0, 80.0, True), (80.1, 80.0, False), (-80.1, 80.0, False),
     (900.0, None, True), (None, 80.0, True)],
)  # fmt: skip
def test_the_edge_of_the_width_that_is_held(
    axial: float | None, half: float | None, required: bool
) -> None:
    """Just at it counts as within, and so does what is not known to lie outside."""
    for kind in (PREHEAT, CYCLE):
        tag: Any = Stub(duty="monitors", place="heavy section")
        assert _required(tag, axial, kind, half) is required
        # What controls always counts, and the edge of the heated band never.
        assert _required(Stub(duty="controls", place=""), axial, kind, half)  # type: ignore[arg-type]
        tag.place = "heated edge"
        assert not _required(tag, axial, kind, half)


def test_spares_stand_for_what_they_are_said_to() -> None:
    found = of("p22-header", "W12", CYCLE)
    assert (found["T1S"].spare_of, found["T1"].spare_of) == ("T1", "")


def test_the_distance_is_the_shorter_way_round_and_along() -> None:
    found = of("p22-header", "W12", CYCLE)
    # A quarter of pi * 610 mm, whichever way; half of it; and 62 mm along.
    quarter = pi * 610 / 4
    assert apart(found["T1"], found["T2"]) == pytest.approx(quarter)
    assert apart(found["T1"], found["T4"]) == pytest.approx(quarter)
    assert apart(found["T1"], found["T3"]) == pytest.approx(2 * quarter)
    assert apart(found["T1"], found["T5"]) == pytest.approx(62)
    assert apart(found["T5"], found["T7"]) == pytest.approx(124)
    assert apart(found["T5"], found["T2"]) == pytest.approx(hypot(quarter, 62))


def test_of_two_diameters_the_larger_counts_and_what_is_unknown_is_near() -> None:
    one = of("leaning-drain", "W71", CYCLE)["T5"]
    assert apart(one, one._replace(clock=180.0, outside=406.4)) == pytest.approx(pi * 406.4 / 2)
    for unknown in ({"clock": None}, {"axial": None}, {"clock": 10.0, "outside": None}):
        other = one._replace(**unknown)
        assert apart(one, other) is None and apart(other, one) is None
        assert pairs_within((one, other), 1.0) == [(0, 1)]
    # At the same place of the clock the diameter does not matter.
    assert apart(one, one._replace(axial=54.0, outside=None)) == pytest.approx(10)


def test_pairs_within_a_distance() -> None:
    found = of("p22-header", "W12", CYCLE)
    ones = tuple(found[tag] for tag in ("T1", "T2", "T3", "T5"))
    near = {(0, 1), (0, 3), (1, 2), (1, 3)}
    assert set(pairs_within(ones, 500.0)) == near  # 479 mm round, 483 mm with 62 mm along
    assert set(pairs_within(ones, 480.0)) == near - {(1, 3)}
    assert set(pairs_within(ones, 62.0)) == {(0, 3)}
    assert len(pairs_within(ones, None)) == 6


def test_the_way_round_is_never_more_than_half() -> None:
    one = of("p22-header", "W12", CYCLE)["T1"]
    around = pi * 610 / 360
    for first, second, degrees in ((0, 350, 10), (350, 0, 10), (10, 200, 170), (0, 180, 180),
                                   (5, 5, 0), (359, 1, 2)):  # fmt: skip
        a, b = one._replace(clock=float(first)), one._replace(clock=float(second))
        assert apart(a, b) == pytest.approx(around * degrees)
    # Only along the pipe: no diameter is needed, and none counts.
    assert apart(one._replace(outside=None), one._replace(axial=30.0, outside=None)) == 30
    assert apart(one._replace(axial=-30.0), one._replace(axial=30.0)) == 60


@pytest.mark.parametrize(
    "line",
    [
        # specs: joint, run, thermocouple, zone it lies in, required in the hold.
        "branch-unequal W51 cycle",
        "leaning-drain W71 cycle",
        "leaning-drain W71 preheat",
    ],
)
def test_what_controls_counts_always_and_a_spare_never(line: str) -> None:
    spec, joint, kind = line.split()
    found = of(spec, joint, {"cycle": CYCLE, "preheat": PREHEAT}[kind])
    for one in found.values():
        if one.duty == "controls":
            assert one.required
        elif one.duty != "monitors":
            assert not one.required
        assert one.zone
        # At right angles along the outside laid flat, where places are told along the weld.
        for other in found.values():
            if one.flat and other.flat:
                expected = hypot(one.flat.x - other.flat.x, one.flat.y - other.flat.y)
                assert apart(one, other) == expected


def test_along_a_seam_places_are_laid_flat() -> None:
    """A seam of 2.4 m told from its left end: x along it, y toward side A (mm)."""
    (sheet,) = of_text(BASES["seam"]).joints
    run = next(run for run in sheet.runs if run.program.kind == CYCLE)
    found = {one.tag: one for one in watched(sheet, run, CYCLE)}
    assert {tag: tuple(one.flat or ()) for tag, one in found.items()} == {
        "T1": (600, 0), "T2": (1800, 0), "T1S": (620, 0), "T2S": (1820, 0), "T3": (600, 40),
        "T4": (1800, -40), "T5": (600, 287), "T6": (1800, -287),
    }  # fmt: skip
    # The first zone covers 0 to 1200 mm, the second the rest.
    assert [one.zone for one in found.values()] == ["top", "bottom"] * 4
    for one, other, expected in (
        ("T1", "T3", 40), ("T3", "T4", hypot(1200, 80)), ("T5", "T6", hypot(1200, 574)),
        ("T1", "T2", 1200), ("T6", "T1", hypot(1200, 287)),
    ):  # fmt: skip
        assert apart(found[one], found[other]) == pytest.approx(expected)
    # Of one whose place along the weld is not known nothing is known but by clock and axis.
    assert apart(found["T1"]._replace(flat=None, axial=None), found["T2"]) is None
    assert [tag for tag, one in found.items() if one.required] == ["T1", "T2", "T3", "T4"]
