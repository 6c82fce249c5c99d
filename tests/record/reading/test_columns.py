"""Columns go to thermocouples by map, by tag, by recorder and channel. Names of columns as
recorders write them: common practice, no source."""

from pathlib import Path
from typing import NamedTuple

import pytest

from hts.record.errors import RecordError
from hts.record.reading import Options, read
from hts.record.record import Record


class Channel(NamedTuple):
    instrument: str | None
    number: int | None


class Tag(NamedTuple):
    tag: str
    recorder: Channel
    connected: bool = True
    spare_of: str = ""


TAGS = (
    Tag("T1", Channel("R1", 1)),
    Tag("T2", Channel("R1", 2)),
    Tag("T3", Channel("R2", 1)),
    Tag("T3S", Channel("R2", 12), connected=False, spare_of="T3"),
)


def record(tmp_path: Path, head: str, options: Options = Options(), tags: object = TAGS) -> Record:  # noqa: B008
    names = head.split(",")
    rows = [",".join([str(n), *(str(20 + at) for at in range(1, len(names)))]) for n in range(3)]
    path = tmp_path / "log.csv"
    path.write_text("\n".join((head, *rows)))
    return read([str(path)], tags, options._replace(time_unit="s"))  # type: ignore[arg-type]


def columns(record: Record) -> dict[str, float]:
    return {tag: float(series.values[0]) for tag, series in record.series.items()}


@pytest.mark.parametrize(
    ("head", "wanted"),
    [
        ("Time,T1 [C],T2 [C],T3 [C]", {"T1": 21, "T2": 22, "T3": 23}),
        ("Time,t3 (°C),t2 (°C),t1 (°C)", {"T1": 23, "T2": 22, "T3": 21}),
        ("Time,R1 ch 1 [C],R1 ch 2 [C],R2 ch 1 [C]", {"T1": 21, "T2": 22, "T3": 23}),
        ("Time,R2/1 [C],R1/2 [C],R1/1 [C]", {"T1": 23, "T2": 22, "T3": 21}),
        ("Time,R2 CH01 [C],R1-CH02 [C],R1:Ch.1 [C]", {"T1": 23, "T2": 22, "T3": 21}),
        # Channel 2 there is on one recorder only, channel 1 on two: it stays open.
        ("Time,CH1 [C],CH2 [C]", {"T2": 22}),
        ("Time,1 [C],2 [C]", {"T2": 22}),
        ("Time,CH1 T1 [C],T3 (R2 ch 1) [C]", {"T1": 21, "T3": 22}),
        # A setpoint or an output is not the reading.
        ("Time,T1 [C],T1 SP [C],T1 output [%]", {"T1": 21}),
        # What a spare is called beside its own tag; beside another's it is some spare of that.
        ("Time,T1 top [C],T3 spare [C],T3S spare (degC)", {"T1": 21, "T3S": 23}),
        ("Time,T2 backup [C],T3S backup [C],T3 [C]", {"T3S": 22, "T3": 23}),
    ],
)
def test_by_tag_or_channel(tmp_path: Path, head: str, wanted: dict[str, float]) -> None:
    assert columns(record(tmp_path, head)) == wanted


def test_the_recorder_the_log_is_of(tmp_path: Path) -> None:
    (tmp_path / "log.yaml").write_text("recorder: R2\n")
    assert columns(record(tmp_path, "Time,CH1 [C],CH2 [C]")) == {"T3": 21}


def test_what_has_no_column_is_told(tmp_path: Path) -> None:
    found = record(tmp_path, "Time,T1 [C],T2 [C],Supply [V]")
    assert list(found.unmapped) == ["Supply"]
    notes = " ".join(found.assumed)
    assert "No column belongs to T3: nothing is shown for it." in notes
    assert "T3S, which is not connected" in notes


def test_no_column_at_all(tmp_path: Path) -> None:
    with pytest.raises(RecordError, match="columns are Time, a, b"):
        record(tmp_path, "Time,a [C],b [C]")


def test_two_columns_for_one(tmp_path: Path) -> None:
    with pytest.raises(RecordError, match="'T1' and 'T1' can all be T1"):
        record(tmp_path, "Time,T1 [C],T1 [C]")


def test_a_second_row_of_names(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("Tag,T1,T2,T3\nTime,CH1,CH2,CH3\ns,degC,degC,degC\n0,20,21,22\n1,20,21,22\n")
    assert columns(read([str(path)], TAGS)) == {"T1": 20, "T2": 21, "T3": 22}  # type: ignore[arg-type]


def test_the_map(tmp_path: Path) -> None:
    (tmp_path / "log.yaml").write_text(
        'columns: {T1: "Chan 3", t2: upper}\nunit: {upper: degF}\ntime unit: min\n'
    )
    path = tmp_path / "log.csv"
    path.write_text("Time,upper,Chan 3 [C]\n0,68,100\n1,68,101\n")
    found = read([str(path)], TAGS)  # type: ignore[arg-type]
    assert columns(found) == {"T1": 100, "T2": 20}
    assert found.elapsed.tolist() == [0, 60]
    assert "The map log.yaml beside the log is used." in found.assumed


def test_an_option_goes_before_the_map(tmp_path: Path) -> None:
    (tmp_path / "map.yaml").write_text("unit: degF\n")
    options = Options(mapping=str(tmp_path / "map.yaml"))
    assert columns(record(tmp_path, "Time,T1", options)) == {"T1": pytest.approx(-6.1111, abs=1e-3)}
    assert columns(record(tmp_path, "Time,T1", options._replace(unit="degC"))) == {"T1": 21}


@pytest.mark.parametrize(
    ("text", "place", "cause"),
    [
        ("columns: {T1: a}\ncolumns: {T2: b}\n", "map.yaml:2:1", "stands twice"),
        ("columns: {T1: a, T1: b}\n", "map.yaml:1:18", "stands twice"),
        ("columns: [T1, a]\n", "map.yaml:1:1", "are a map"),
        ("columns: {T1: {x: y}}\n", "map.yaml:1:11", "one word"),
        ("colums: {T1: a}\n", "map.yaml:1:1", "has no meaning"),
        ("columns: {T1: a\n", "map.yaml:2:1", "expected"),
        ("a: &x [1]\nb: *x\n", "map.yaml:2:4", "anchor"),
        ("unit: {a: degX}\n", "map.yaml:1:1", "no unit"),
        ("columns: {T9: a}\n", "log.csv", "no such thermocouple"),
        ("columns: {T1: a}\n", "log.csv", "no column 'a'"),
        ("!!python/object/apply:os.getcwd []\n", "map.yaml", "not a map"),
        ("", "map.yaml", "empty"),
    ],
)
def test_a_map_that_is_wrong(tmp_path: Path, text: str, place: str, cause: str) -> None:
    (tmp_path / "map.yaml").write_text(text)
    with pytest.raises(RecordError) as error:
        record(tmp_path, "Time,T1 [C]", Options(mapping=str(tmp_path / "map.yaml")))
    assert error.value.place == place
    assert cause in error.value.cause
