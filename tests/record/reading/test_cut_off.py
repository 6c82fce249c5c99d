"""A log copied while the recorder was writing: its last row may be half a row."""

from pathlib import Path

import numpy as np
import pytest

from hts.record.reading import read

ROWS = "time,T1 [degC],T2 [degC]\n00:00:00,20.0,21.0\n00:01:00,342.1,340.8\n00:02:00,344.0,343.1\n"


def made(tmp_path: Path, text: str):  # type: ignore[no-untyped-def]
    path = tmp_path / "log.csv"
    path.write_text(text)
    return read([str(path)])


@pytest.mark.parametrize("cut", range(1, len("00:02:00,344.0,")))
def test_half_a_row_is_no_reading(tmp_path: Path, cut: int) -> None:
    whole = ROWS.rindex("00:02:00")
    record = made(tmp_path, ROWS[: whole + cut])
    if "," in ROWS[whole + cut : -1]:
        assert len(record.elapsed) == 2
        assert any("cut off" in said for said in record.assumed)
    assert np.nanmax(record.series["T1"].values) >= 342.1


def test_a_whole_last_row_without_a_line_end_counts(tmp_path: Path) -> None:
    record = made(tmp_path, ROWS.rstrip("\n"))
    assert len(record.elapsed) == 3
    assert record.series["T2"].values[-1] == 343.1
    assert not any("cut off" in said for said in record.assumed)
