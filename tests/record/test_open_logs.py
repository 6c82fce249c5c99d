"""Open logs of fire experiments: real recorders, real faults. Not part of this project.

Files of the NIST Fire Research Division's experimental database (github.com/firemodels/exp, commit
39d8b735). They are read where the environment variable HTS_OPEN_RECORDS names their folder. What
is in them was counted in the files with other tools.
"""

import os
from functools import cache

import numpy as np
import pytest

from hts.record.errors import RecordError
from hts.record.faults import Fault, find
from hts.record.reading import Options, read
from hts.record.record import READ, TEXT, Record

FOLDER = os.environ.get("HTS_OPEN_RECORDS", "")

if not os.path.isdir(FOLDER):
    pytest.skip("HTS_OPEN_RECORDS names no folder of open logs", allow_module_level=True)


@cache
def log(name: str) -> Record:
    stated = name.startswith("E119")
    options = Options() if stated else Options(unit="degC", time_unit="s")
    return read([os.path.join(FOLDER, name)], None, options)


def faults(name: str) -> dict[str, list[Fault]]:
    found: dict[str, list[Fault]] = {}
    for one in find(log(name)):
        found.setdefault(one.tag, []).append(one)
    return found


def test_a_log_without_units_asks_for_them() -> None:
    path = os.path.join(FOLDER, "CAROLFIRE_PT_1.csv")
    with pytest.raises(RecordError, match="--time-unit"):
        read([path])
    with pytest.raises(RecordError, match="--unit"):
        read([path], None, Options(time_unit="s"))


def test_jitter_and_a_lead_in() -> None:
    record = log("CAROLFIRE_PT_1.csv")
    assert len(record.elapsed) == 1613
    assert list(record.series) == ["Shroud", *(f"Cable {n}" for n in range(1, 6))]
    assert record.origin == -0.5
    assert record.interval == pytest.approx(1.0)
    assert record.gaps == ()
    assert all((series.status == READ).all() for series in record.series.values())


def test_a_hold() -> None:
    """Shroud reaches 470 to 490 degC at 96.5 s and stays there for 782 s, 486.9 degC at most."""
    record = log("CAROLFIRE_PT_1.csv")
    shroud = record.series["Shroud"].values
    inside = np.flatnonzero((shroud >= 470) & (shroud <= 490))
    held = [part for part in np.split(inside, np.flatnonzero(np.diff(inside) > 1) + 1)
            if len(part) > 100]  # fmt: skip
    assert len(held) == 1
    rows = held[0]
    start, end = record.elapsed[rows[0]], record.elapsed[rows[-1]]
    assert record.origin + start == pytest.approx(96.5)
    assert end - start == pytest.approx(782.0)
    assert shroud[rows].max() == pytest.approx(486.9)


def test_cables_that_lag_are_no_faults() -> None:
    assert faults("CAROLFIRE_PT_1.csv") == {}


def test_an_intermittent_open_circuit() -> None:
    record = log("CAROLFIRE_PT_30.csv")
    assert len(record.elapsed) == 1984
    assert np.count_nonzero(record.series["Cable 2"].status == TEXT) == 888
    found = faults("CAROLFIRE_PT_30.csv")
    assert list(found) == ["Cable 2"]
    assert {one.kind for one in found["Cable 2"]} == {"error-text", "intermittent"}


def test_its_wild_readings_are_left_out() -> None:
    """658.9, 1241.2, 1188.6 and 594.6 degC stand alone beside a neighbour near 200 to 290 degC."""
    from hts.record.faults import apply

    record = log("CAROLFIRE_PT_30.csv")
    left = apply(record, find(record)).series["Cable 2"].values
    neighbour = record.series["Cable 3"].values
    assert np.nanmax(record.series["Cable 2"].values) > 1200
    assert np.nanmax(np.abs(left - neighbour)) < 100


def test_a_row_of_units_and_other_quantities() -> None:
    record = log("E119_Compartment_Test_1.csv")
    assert len(record.elapsed) == 144
    assert record.interval == 15.0
    assert len(record.series) == 35
    assert {name: series.unit for name, series in record.unmapped.items()} == {
        "HG1": "kW/m2", "HG2": "kW/m2", "HG3": "kW/m2", "HRR": "kW", "HRRburner": "kW",
    }  # fmt: skip


def test_a_dead_channel() -> None:
    """BeamTC8 stays at 12.9 to 17.1 degC while BeamTC1 reaches 436.9 degC."""
    found = faults("E119_Compartment_Test_1.csv")
    (one,) = found.pop("BeamTC8")
    assert (one.kind, one.confidence, one.treatment) == ("flat", "high", "left out")
    assert "between 12.9 degC and 17.1 degC" in one.evidence
    # Flames flicker as no part under heat treatment does.
    assert {one.kind for its in found.values() for one in its} <= {"mains-pick-up"}
