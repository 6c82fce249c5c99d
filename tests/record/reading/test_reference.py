"""The map and the events of the reference and of the README are read as they stand there."""

from __future__ import annotations

import re
from pathlib import Path

from hts.record.reading import read
from hts.record.reading.options import Options
from hts.record.reading.sidecar import beside
from hts.record.record import EVENTS
from tests.record.reading.short_log import Channel, Tag

ROOT = Path(__file__).parents[3]
TAGS = tuple(Tag(tag, Channel("R2", n)) for n, tag in enumerate(("T1", "T2", "T3", "T3S"), 1))


def examples(path: str) -> list[str]:
    return re.findall(r"```yaml\n(.*?)```", (ROOT / path).read_text(encoding="utf-8"), re.DOTALL)


def log(tmp_path: Path, day: str, events: str) -> None:
    rows = [f"{day} {9 + n // 60:02d}:{n % 60:02d}:00,20,21,22,23\n" for n in range(400)]
    (tmp_path / "run.csv").write_text("Time,T1 [C],T2 [C],T3 [C],T3S [C]\n" + "".join(rows))
    (tmp_path / "run.events.yaml").write_text(events)


def test_the_map_of_the_reference(tmp_path: Path) -> None:
    (text,) = [one for one in examples("grammar/LANGUAGE.md") if one.startswith("columns:")]
    (tmp_path / "run.yaml").write_text(text)
    found = beside(str(tmp_path / "run.csv"), Options())
    assert found.columns == {"T1": "Sensor A", "T2": "Sensor B"}
    assert found.recorder == "R2"
    assert found.options.time == "Date, Clock" and found.options.decimal == ","


def test_the_events_of_the_reference(tmp_path: Path) -> None:
    (text,) = [one for one in examples("grammar/LANGUAGE.md") if one.startswith("- {at")]
    log(tmp_path, "2026-11-24", text)
    record = read([str(tmp_path / "run.csv")], TAGS)
    assert {event.kind for event in record.events} == set(EVENTS)
    assert record.events[0].at == 65 * 60


def test_the_events_of_the_readme(tmp_path: Path) -> None:
    (text,) = [one for one in examples("README.md") if one.startswith("- {at")]
    log(tmp_path, "2026-11-20", text)
    record = read([str(tmp_path / "run.csv")], TAGS)
    assert [event.kind for event in record.events] == ["power lost", "power back", "replaced"]
