"""Controls that read wrong while the controller follows them: the metal of their zone goes the
other way, and is read so by all others of the zone (derived from what a controller does)."""

from __future__ import annotations

import numpy as np

from hts.record.faults import apply
from hts.record.judging import MET, judge
from hts.record.record import Floats
from tests.record.faults.runs import AIR, record, stress_relief, times
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


@each_row("by", [-6.0, 5.0, 9.0])
def test_a_drift(by: float) -> None:
    faults = found(_followed(by * times() / 3600 * _rise() / 600))
    assert [(one.kind, one.tag) for one in faults] == [("drift", "T1")]


@each_row("share", [-0.06, 0.06])
def test_one_place_that_is_colder_or_hotter_tells_nothing_of_the_control(share: float) -> None:
    """The spare beside the control goes with it."""
    told = found(_followed(share * _rise(), ("T3",)))
    assert "T1" not in {one.tag for one in told}
