"""Controls that read wrong while the controller follows them: the metal of their zone goes the
other way, and is read so by all others of the zone (derived from what a controller does)."""

from __future__ import annotations

import numpy as np

from hts.record.faults import apply
from hts.record.judging import MET, judge
from hts.record.record import Floats
from tests.record.faults.runs import AIR, late, record, stress_relief, times
from tests.record.faults.test_changed_over import found, with_spares
from tests.rows import each_row


def _followed(error: Floats, tags: tuple[str, ...] = ("T1S", "T3")) -> dict[str, Floats]:
    """T1 reads as the program wants, and the others of its zone are off it by its error, K."""
    run = with_spares()
    for tag in tags:
        run[tag] = np.round(run[tag] - error, 1)
    return run


def _rise() -> Floats:
    return np.asarray(with_spares()["T1"] - AIR, dtype=np.float64)


@each_row("share", [0.04, 0.08, 0.12])
def test_an_extension_reversed_at_both_ends(share: float) -> None:
    run = _followed(-share * _rise())
    faults = found(run)
    assert [(one.kind, one.tag) for one in faults] == [("extension-reversed", "T1")]
    assert judge(apply(record(run), faults), stress_relief(), tuple(faults)).overall != MET


@each_row("share", [0.06, 0.12, 0.2])
@each_row("constant", [60.0, 600.0, 1800.0])
def test_one_that_comes_off_the_metal(share: float, constant: float) -> None:
    """From 3 h on it reads a share less of the rise, and the metal is driven up by as much."""
    since = np.maximum(times() - 3 * 3600, 0)
    faults = found(_followed(-share * _rise() * (1 - np.exp(-since / constant))))
    assert [(one.kind, one.tag) for one in faults] == [("detached", "T1")]


@each_row("by", [-6.0, 5.0, 9.0])
def test_a_drift(by: float) -> None:
    faults = found(_followed(by * times() / 3600 * _rise() / 600))
    assert [(one.kind, one.tag) for one in faults] == [("drift", "T1")]


def test_two_that_are_lifted_for_a_part_of_the_run() -> None:
    """What leaps up and back as no metal does, whatever the others read."""
    run = with_spares()
    at = times() / 3600
    for tag in ("T2", "T4"):
        lifted = 60.0 * ((at > 4.3) & (at < 6.4))
        run[tag] = np.round(run[tag] - 0.1 * (run[tag] - AIR) + lifted, 1)
    told = [(one.kind, one.tag) for one in found(run) if "leaps up" in one.evidence]
    assert told == [("offset", "T2"), ("offset", "T4")]


@each_row("minutes", [8.0, 15.0])
@each_row("tag", ["T1", "T1S"])
def test_one_of_two_at_a_place_that_answers_late(tag: str, minutes: float) -> None:
    run = with_spares()
    run[tag] = np.round(late(times(), run[tag], minutes * 60), 1)
    assert [(one.kind, one.tag) for one in found(run)] == [("lags", tag)]


@each_row("one", [-0.06, -0.08])
@each_row("other", [-0.05, 0.05])
def test_an_edge_is_low_where_the_heat_lies_aside(one: float, other: float) -> None:
    """The plan has one edge of the soak band on either side of the weld."""
    run = with_spares()
    for tag, share in (("T3", one), ("T4", other)):
        run[tag] = np.round(run[tag] + share * (run[tag] - AIR), 1)
    sides = [its.axial for its in stress_relief().watched if its.tag in ("T3", "T4")]
    told = {tag.kind for tag in found(run)}
    assert ("extension-reversed" in told) == ((sides[0] * sides[1] > 0) != (one * other > 0))


@each_row("share", [-0.06, 0.06])
def test_heaters_slid_along_the_pipe_tell_nothing_of_the_controls(share: float) -> None:
    """No spares: the edge of one zone is hot, and that of the other cold."""
    run = with_spares()
    run = {tag: its for tag, its in run.items() if not tag.endswith("S")}
    for tag, its in (("T3", share), ("T4", -share)):
        run[tag] = np.round(run[tag] + its * (run[tag] - AIR), 1)
    assert not {"T1", "T2"} & {one.tag for one in found(run)}


@each_row("share", [-0.06, 0.06])
def test_one_place_that_is_colder_or_hotter_tells_nothing_of_the_control(share: float) -> None:
    """The spare beside the control goes with it."""
    told = found(_followed(share * _rise(), ("T3",)))
    assert "T1" not in {one.tag for one in told}
