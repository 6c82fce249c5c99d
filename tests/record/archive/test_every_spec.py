"""Nothing of a folder is dropped in silence: each specification has a line, whatever its text."""

import os
from pathlib import Path

import pytest

from hts.record.archive import ArchiveLine, audit
from hts.record.archive.audit import Asked
from hts.record.reading import Options

ROOT = Path(__file__).parents[3]
RELEASED = (ROOT / "specs" / "p22-header.hts").read_text()
NUMBER = 'number    "HT-0147"'


def lines(folder: Path) -> list[ArchiveLine]:
    logs = folder / "logs"
    logs.mkdir()
    (logs / "stray.csv").write_text("time,T1\n00:00:00,20\n00:01:00,21\n")
    found = list(audit(Asked(str(folder), str(logs), Options(), "2026-12-01")))
    return [line for line in found if line.record != "stray.csv"]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / ".git").mkdir()
    library = tmp_path / "library"
    library.mkdir()
    for path in (ROOT / "specs" / "library").glob("*.hts"):
        (library / path.name).write_text(path.read_text())
    return tmp_path


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (RELEASED.replace("spec 1", "spec 1\n}", 1).encode(), "errors"),
        (RELEASED.replace("axis                 horizontal", "axis  sideways").encode(), "errors"),
        (RELEASED.encode("utf-16"), "unreadable"),
        (RELEASED.encode("utf-16-le"), "unreadable"),
        (RELEASED.encode() + b"\xff", "unreadable"),
        (b"# " + b"x" * 5_000_001 + b"\n" + RELEASED.encode(), "unreadable"),
        (RELEASED.replace(NUMBER, "").encode(), "unreadable"),
    ],
    ids=["brace", "value", "utf-16", "utf-16 without mark", "bytes", "large", "no number"],
)
def test_a_specification_nothing_can_be_judged_by_is_told(
    folder: Path, text: bytes, why: str
) -> None:
    (folder / "a.hts").write_bytes(text)
    (line,) = lines(folder)
    assert (line.verdict, line.why) == ("could not judge", why)
    assert "a.hts" in line.note


def test_a_number_far_down_is_found(folder: Path) -> None:
    remarks = "# Tern Island\n" * 6000
    (folder / "a.hts").write_text(RELEASED.replace("spec 1", remarks + "spec 1", 1))
    assert [(line.document, line.verdict) for line in lines(folder)] == [("HT-0147", "no record")]


def test_what_cannot_be_looked_into_is_told(folder: Path) -> None:
    os.mkfifo(folder / "a.hts")
    (folder / "b.hts").symlink_to("/proc/self/environ")
    told = lines(folder)
    assert [(line.verdict, line.why) for line in told] == [("could not judge", "unreadable")] * 2
    assert "a.hts" in told[0].note + told[1].note and "b.hts" in told[0].note + told[1].note


def test_a_log_that_is_no_file_is_told(folder: Path) -> None:
    (folder / "logs").mkdir()
    os.mkfifo(folder / "logs" / "HT-0147.csv")
    (line,) = audit(Asked(str(folder), str(folder / "logs"), Options()))
    assert (line.record, line.why) == ("HT-0147.csv", "unreadable")


def test_a_draft_has_a_line_and_a_library_has_none(folder: Path) -> None:
    (folder / "a.hts").write_text(
        RELEASED.replace("for construction answer approved", "for review", 1)
    )
    (line,) = lines(folder)
    assert (line.document, line.verdict, line.why) == ("HT-0147", "none due", "")
