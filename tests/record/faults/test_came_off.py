"""Junctions that came off in the run, alone or with the spare beside them, put back or not."""

import numpy as np
import pytest

from hts.record.faults import find
from hts.record.faults.fault import Fault
from hts.record.record import Floats
from tests.record.faults.runs import AIR, record, stress_relief, times
from tests.record.faults.test_changed_over import with_spares
from tests.rows import each_row

HOURS = times() / 3600
OFF, BACK = 3.0, 3.75


def found(run: dict[str, Floats]) -> list[Fault]:
    return list(find(record(run), stress_relief()))


def off_from(course: Floats, since: float, share: float, minutes: float) -> Floats:
    """The junction cools to a share of the rise, by a time constant."""
    falls = 1 - np.exp(-np.maximum(HOURS - since, 0) * 60 / minutes)
    return np.round(course - (1 - share) * falls * (course - AIR), 1)


@each_row("tag", ["T3", "T1", "T2S"])
@each_row("minutes", [4.0, 8.0])
def test_put_back_after_a_while(tag: str, minutes: float) -> None:
    run = with_spares()
    run[tag] = np.where(HOURS < BACK, off_from(run[tag], OFF, 0.5, minutes), run[tag])
    (one,) = found(run)
    assert (one.kind, one.tag, one.treatment) == ("detached", tag, "left out")
    assert one.start == pytest.approx(OFF * 3600, abs=90)
    assert one.end == pytest.approx(BACK * 3600, abs=60)


@pytest.mark.parametrize("since", [3.0, 5.0])
def test_a_control_and_its_spare_both(since: float) -> None:
    run = with_spares()
    for tag in ("T2", "T2S"):
        run[tag] = off_from(run[tag], since, 0.55, 8.0)
    faults = found(run)
    assert [(one.kind, one.tag, one.end) for one in faults] == [
        ("detached", "T2", times()[-1]),
        ("detached", "T2S", times()[-1]),
    ]
    assert {one.start for one in faults} <= {since * 3600 + s for s in (0, 30, 60, 90)}


def test_a_zone_that_cools_has_lost_its_heat() -> None:
    """All of it, by 6 K a minute; and one place of it, as slowly as 25 mm of steel can."""
    whole, one = with_spares(), with_spares()
    fall = np.interp(HOURS, [4.6, 5.2, 6.0, 6.4], [0.0, 1.0, 1.0, 0.0])
    for tag in ("T1", "T1S", "T3"):
        whole[tag] = np.round(whole[tag] - 200 * fall, 1)
    one["T3"] = np.round(one["T3"] - 90 * fall, 1)
    for run in (whole, one):
        assert not {fault.kind for fault in found(run)} & {"detached", "ambient"}
