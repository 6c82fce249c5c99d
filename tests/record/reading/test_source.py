"""What a log may be as a file: regular, of a stated size, whole or damaged, of any name."""

from __future__ import annotations

import gzip
import io
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from hts.record.errors import RecordError
from hts.record.labels import labels
from hts.record.reading import Options, read
from hts.record.reading.source import source

HEAD = "Time,T1 [C],T2 [C]\n"
ROWS = "".join(f"2026-11-24 06:{n:02d}:00,{n},{n + 0.5}\n" for n in range(50))


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "log.csv"
    os.mkfifo(pipe)
    for ask in (lambda: read([str(pipe)]), lambda: labels(str(pipe))):
        with pytest.raises(RecordError, match="no file, but a folder, pipe or device"):
            ask()
    (tmp_path / "run.csv").write_text(HEAD + ROWS)
    with pytest.raises(RecordError, match="no file"):
        read([str(tmp_path / "run.csv")], None, Options(events=str(pipe)))
    os.mkfifo(tmp_path / "run.yaml")
    read([str(tmp_path / "run.csv")])  # a map beside is a file, or there is none


@pytest.mark.skipif(not os.path.exists("/dev/zero"), reason="no devices here")
def test_a_device_is_not_read() -> None:
    with pytest.raises(RecordError, match="no file"):
        read(["/dev/zero"])


def test_a_folder(tmp_path: Path) -> None:
    with pytest.raises(RecordError) as error:
        read([str(tmp_path)])
    assert error.value.remedy


def test_a_log_too_large_is_refused_before_it_is_unpacked(tmp_path: Path) -> None:
    plain, packed = tmp_path / "log.csv", tmp_path / "log.csv.gz"
    plain.write_bytes(b"x" * 1001)
    packed.write_bytes(gzip.compress(b"0" * 10_000_000))
    book = tmp_path / "log.xlsx"
    inside = io.BytesIO()
    with zipfile.ZipFile(inside, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", b" " * 10_000_000)
    book.write_bytes(inside.getvalue())
    assert packed.stat().st_size < 20_000 and book.stat().st_size < 20_000
    for path, largest in ((plain, 1000), (packed, 1_000_000), (book, 1_000_000)):
        with pytest.raises(RecordError, match="holds more than"):
            source(str(path), largest)


def test_a_packed_log_that_ends_early_is_read_as_far_as_it_goes(tmp_path: Path) -> None:
    import random

    rows = "".join(f"{n},{random.Random(n).random():.9f},1\n" for n in range(5000))
    packed = gzip.compress(("Time [s],T1 [C],T2 [C]\n" + rows).encode())
    path = tmp_path / "log.csv.gz"
    path.write_bytes(packed[: len(packed) * 2 // 3])
    record = read([str(path)])
    assert 1000 < len(record.elapsed) < 5000
    assert any("ends early" in note for note in record.assumed)


@pytest.mark.parametrize("data", [b"\x1f\x8b\x08damaged", b"PK\x03\x04damaged"])
def test_damaged_archives(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "log").write_bytes(data)
    with pytest.raises(RecordError):
        read([str(tmp_path / "log")])


def test_an_archive_that_is_no_workbook(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "log.zip", "w") as archive:
        archive.writestr("log.csv", HEAD + ROWS)
    with pytest.raises(RecordError, match="no workbook"):
        read([str(tmp_path / "log.zip")])


#: Cells, headings and remarks of a million letters, of forms that invite to go back and forth.
LONG = {
    "digits": HEAD + ROWS + f"2026-11-24 07:00:00,{'1' * 1_000_000},2\n",
    "groups": HEAD + ROWS + f"2026-11-24 07:00:00,{'1.000' * 200_000},2\n",
    "blanks": HEAD + ROWS + f"2026-11-24 07:00:00,1{' ' * 1_000_000}x,2\n",
    "open": HEAD + ROWS + f"2026-11-24 07:00:00,{'open(' * 200_000},2\n",
    "quotes": HEAD + ROWS + "2026-11-24 07:00:00," + '""' * 500_000 + ",2\n",
    "heading": f"Time,T1 {'(C' * 15_000},T2\n" + ROWS,
    "line before": ": " * 15_000 + "\n" + HEAD + ROWS,
    "remark": (HEAD + ROWS).replace("T2 [C]", "Remarks")
    + f"2026-11-24 07:00:00,2,{'T1 replaced ' * 80_000}\n",
    "time": HEAD + ROWS + f"2026-11-24{' ' * 1_000_000}07:00,1,2\n",
    "empty lines": HEAD + ROWS + "\n" * 1_000_000,
    "marks": HEAD + ROWS + f"2026-11-24 07:00:00,{'[' * 500_000},2\n",
}


@pytest.mark.parametrize("name", LONG)
def test_long_cells_take_no_longer_than_their_length(tmp_path: Path, name: str) -> None:
    """Not timed: one that took the square of its length would not end within the day."""
    path = tmp_path / "log.csv"
    path.write_text(LONG[name])
    labels(str(path))
    record = read([str(path)], None, Options(unit="degC"))
    assert record.series["T1" if name != "heading" else next(iter(record.series))].values[49] == 49


@pytest.mark.parametrize("line", ["x" * 2_000_000, "1," * 1_000_000])
def test_a_line_that_is_no_row_is_told(tmp_path: Path, line: str) -> None:
    path = tmp_path / "log.csv"
    path.write_text(line + "\n" + HEAD + ROWS)
    with pytest.raises(RecordError, match="no row of readings") as error:
        read([str(path)])
    assert error.value.place == "log.csv:1"


@pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="names are Unicode there")
def test_a_name_that_is_no_utf8(tmp_path: Path) -> None:
    name = os.path.join(os.fsencode(tmp_path), b"run-\xff\xfe.csv")
    with open(name, "wb") as file:
        file.write((HEAD + ROWS).encode())
    record = read([os.fsdecode(name)])
    assert record.files[0].name == "run-\ufffd\ufffd.csv"
    spec = Path(__file__).parents[3] / "specs/p91-pipe.hts"
    for form in ("text", "json"):
        said = subprocess.run(
            [sys.executable, "-m", "hts", "record", "check", str(spec), name, "--format", form,
             "--joint", "W33", "--cycle", "tempering"],
            capture_output=True, check=False,
        )  # fmt: skip
        assert said.returncode in (1, 2) and b"Traceback" not in said.stderr, said.stderr
        assert b"run-" in said.stdout + said.stderr


def test_map_and_events_beside_a_packed_log(tmp_path: Path) -> None:
    (tmp_path / "run.csv.gz").write_bytes(gzip.compress((HEAD + ROWS).encode()))
    (tmp_path / "run.yaml").write_text("joint: W12\n")
    (tmp_path / "run.events.yaml").write_text("- {at: 06:05, kind: power lost}\n")
    record = read([str(tmp_path / "run.csv.gz")])
    assert [event.at for event in record.events] == [300]
    assert labels(str(tmp_path / "run.csv.gz")).joint == "W12"
