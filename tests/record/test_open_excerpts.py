"""Excerpts of open logs of fire experiments (tests/record/open_logs): real recorders, real faults.

What is in them was counted in the files with another tool (awk). The whole files are read by
test_open_logs.py where they are at hand.
"""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from hts.record.errors import RecordError
from hts.record.faults import apply, find
from hts.record.reading import Options, read
from hts.record.record import TEXT, Record

FOLDER = Path(__file__).parent / "open_logs"


@cache
def log(name: str) -> Record:
    options = Options() if "room" in name else Options(unit="degC", time_unit="s")
    return read([str(FOLDER / name)], None, options)


def test_the_notice_stands_beside_them() -> None:
    notice = (FOLDER / "LICENSE-NIST.md").read_text()
    assert notice.startswith("NIST-developed software is provided by NIST as a public service.")
    named = (FOLDER / "README.md").read_text()
    assert all(f"`{path.name}`" in named for path in FOLDER.glob("*.csv"))


def test_a_log_without_units_asks_for_them() -> None:
    path = str(FOLDER / "fire-cables-1.csv")
    with pytest.raises(RecordError, match="--time-unit"):
        read([path])
    with pytest.raises(RecordError, match="--unit"):
        read([path], None, Options(time_unit="s"))


def test_a_lead_in_and_a_hold() -> None:
    """Shroud is from 470 to 490 degC from 99.5 s to 874.5 s, 156 rows, 486.8 degC at most."""
    record = log("fire-cables-1.csv")
    assert len(record.elapsed) == 323 and record.origin == -0.5 and record.gaps == ()
    shroud = record.series["Shroud"].values
    inside = np.flatnonzero((shroud >= 470) & (shroud <= 490))
    assert len(inside) == 156 and np.all(np.diff(inside) == 1)
    assert record.origin + record.elapsed[inside[0]] == pytest.approx(99.5)
    assert record.elapsed[inside[-1]] - record.elapsed[inside[0]] == pytest.approx(775.0)
    assert shroud[inside].max() == pytest.approx(486.8)


def test_cables_that_lag_are_no_faults() -> None:
    assert find(log("fire-cables-1.csv")) == ()


def test_an_open_circuit_told_as_text() -> None:
    """83 times NaN in 150 rows of Cable 2, and nothing wrong with the others."""
    record = log("fire-cables-30.csv")
    assert len(record.elapsed) == 150
    assert np.count_nonzero(record.series["Cable 2"].status == TEXT) == 83
    found = find(record)
    assert {one.tag for one in found} == {"Cable 2"}
    left = apply(record, found).series["Cable 2"].values
    others = record.series["Cable 3"].values
    assert np.nanmax(np.abs(left - others)) < 100


def test_a_row_of_units_and_a_dead_channel() -> None:
    """BeamTC8 stays at 12.9 to 17.1 degC while BeamTC1 reaches 436.9 degC."""
    record = log("fire-room-1.csv")
    assert len(record.elapsed) == 144 and record.interval == 15.0
    assert {name: one.unit for name, one in record.unmapped.items()} == {
        "HG1": "kW/m2",
        "HRR": "kW",
    }
    assert record.series["BeamTC1"].values.max() == pytest.approx(436.9)
    (one,) = [one for one in find(record) if one.tag != "BeamTC3"]  # that one flickers in flames
    assert (one.tag, one.kind, one.treatment) == ("BeamTC8", "flat", "left out")
    assert "between 12.9 degC and 17.1 degC" in one.evidence
