"""Events: a list in YAML, a list in the map, a column of remarks."""

from pathlib import Path

import pytest

from hts.record.errors import RecordError
from hts.record.reading import Options, read
from hts.record.reading.events import from_cell
from hts.record.record import HEATER_BACK, HEATER_LOST, NOTE, Event, Record
from tests.record.reading.test_columns import TAGS
from tests.rows import each_row


def record(tmp_path: Path, events: str, stamps: list[str] | None = None) -> Record:
    stamps = stamps or [f"2026-11-21 {h}:{m:02d}:00" for h in range(10, 20) for m in (0, 20, 40)]
    path = tmp_path / "log.csv"
    path.write_text(
        "Time,T1 [C],T2 [C]\n" + "".join(f"{stamp},{20 + n},20\n" for n, stamp in enumerate(stamps))
    )
    (tmp_path / "events.yaml").write_text(events)
    return read([str(path)], TAGS, Options(events=str(tmp_path / "events.yaml")))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("at", "seconds"),
    [
        ("2026-11-21 14:03:20", 4 * 3600 + 200),
        ("2026-11-21T14:03", 4 * 3600 + 180),
        ("21-Nov-2026 14:03", 4 * 3600 + 180),
        ("14:03", 4 * 3600 + 180),
        ("2:03 PM", 4 * 3600 + 180),
        ("14:03:20", 4 * 3600 + 200),
        ("9:55", -300),
        ("20:05", 36300),
        ("4 h 3 min", 4 * 3600 + 180),
    ],
)
def test_times_in_the_clock_of_the_record(tmp_path: Path, at: str, seconds: float) -> None:
    found = record(tmp_path, f"- {{at: {at}, kind: power lost}}\n")
    assert found.events == (Event("power lost", seconds),)


def test_every_kind(tmp_path: Path) -> None:
    found = record(
        tmp_path,
        "- {at: 12:00, kind: power back}\n- {at: 11:00, kind: power lost}\n"
        "- {at: 13:00, kind: replaced, tag: t1, by: T3S}\n"
        "- {at: 14:00, kind: insulation opened, text: at 6 o'clock}\n"
        "- {at: 14:10, kind: insulation closed}\n- {at: 15:00, kind: note, text: shift changed}\n",
    )
    assert found.events == (
        Event("power lost", 3600),
        Event("power back", 7200),
        Event("replaced", 10800, "T1", "T3S"),
        Event("insulation opened", 14400, text="at 6 o'clock"),
        Event("insulation closed", 15000),
        Event("note", 18000, text="shift changed"),
    )


def test_counted_time_and_a_lead_in(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("Elapsed (s),T1 [C]\n" + "".join(f"{n},20\n" for n in range(-60, 600)))
    (tmp_path / "log.events.yaml").write_text("- {at: '00:01:30', kind: power lost}\n")
    assert read([str(path)]).events == (Event("power lost", 150),)


def test_the_clock_went_back(tmp_path: Path) -> None:
    hours = [f"2026-10-25 {h:02d}:{m:02d}:00" for h in (1, 2, 2, 3, 4) for m in range(0, 60, 10)]
    found = record(tmp_path, "- {at: '04:30', kind: power lost}\n", hours)
    assert found.clock(found.events[0].at) == "2026-10-25 04:30:00"
    assert found.events[0].at == 4.5 * 3600


@pytest.mark.parametrize(
    ("text", "place", "cause"),
    [
        ("- {at: 12:00, kind: exploded}\n", "events.yaml:1:15", "not a kind of event"),
        ("- {at: noon, kind: note}\n", "events.yaml:1:4", "not a time of this record"),
        ("- {at: 2026-11-22 12:00, kind: note}\n", "events.yaml:1:4", "not a time of this record"),
        ("- {kind: note}\n", "events.yaml:1:3", "no 'at'"),
        ("- {at: 12:00, kind: replaced, tag: T1}\n", "events.yaml:1:3", "names no thermocouples"),
        ("- {at: 12:00, kind: replaced, tag: T1, by: T9}\n", "events.yaml:1:40", "no thermocouple"),
        ("- at: 12:00\n  kind: note\n  who: me\n", "events.yaml:3:3", "has no meaning"),
        ("- power lost\n", "events.yaml:1:3", "is a map"),
        ("at: 12:00\n", "events.yaml", "not a list"),
    ],
)
def test_a_list_that_is_wrong(tmp_path: Path, text: str, place: str, cause: str) -> None:
    with pytest.raises(RecordError) as error:
        record(tmp_path, text)
    assert error.value.place == place
    assert cause in error.value.cause


def test_a_time_of_day_in_a_record_of_days(tmp_path: Path) -> None:
    days = [f"2026-11-{d} {h:02d}:00:00" for d in (21, 22, 23) for h in range(24)]
    with pytest.raises(RecordError, match="with the date"):
        record(tmp_path, "- {at: 12:00, kind: note}\n", days)


def test_a_column_of_remarks(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text(
        "Time [min],T1 [C],T2 [C],Remarks\n0,20,20,\n1,20,20,Power off\n2,20,20,power restored\n"
        "3,20,20,T1 replaced by T3S\n4,20,20,Insulation removed at 6:00\n5,20,20,tea\n"
    )
    found = read([str(path)], TAGS)  # type: ignore[arg-type]
    assert [(event.kind, event.at, event.tag, event.by) for event in found.events] == [
        ("power lost", 60, "", ""),
        ("power back", 120, "", ""),
        ("replaced", 180, "T1", "T3S"),
        ("insulation opened", 240, "", ""),
        ("note", 300, "", ""),
    ]
    assert list(found.series) == ["T1", "T2"]


@each_row(
    ("said", "kind", "zone"),
    [
        ("heater of zone bottom failed", HEATER_LOST, "bottom"),
        ("Heaters lost", HEATER_LOST, ""),
        ("14:03 heater in the zone top burnt out, technician told", HEATER_LOST, "top"),
        ("heater replaced, zone bottom", HEATER_BACK, "bottom"),
        ("heater lead checked", NOTE, ""),
    ],
)
def test_a_lost_heater_in_a_remark(said: str, kind: str, zone: str) -> None:
    event = from_cell(said, 60.0, ["T1"])
    assert (event.kind, event.zone) == (kind, zone)
