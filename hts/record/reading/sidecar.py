"""The small YAML map beside a log.

    columns: {T1: "Chan 3", T2: "Chan 4"}   # thermocouple: column
    recorder: R1                            # the log is of this recorder
    unit: degC                              # or one for each column: {"Chan 3": degF}
    time: Date, Clock                       # the column of the time, or two
    time unit: s
    day order: day
    zone: Europe/Oslo
    separator: ";"
    decimal: ","
    events: [{at: 14:03, kind: power lost}]

`log.yaml` beside `log.csv` is found by itself.
"""

from __future__ import annotations

import os
from typing import NamedTuple

from hts.record.errors import RecordError
from hts.record.reading import source, yaml_text
from hts.record.reading.options import Options
from hts.record.reading.units import temperature_unit
from hts.record.reading.yaml_text import List, Mapping, Text, Value

_OPTIONS = {
    "unit": "unit",
    "time": "time",
    "time unit": "time_unit",
    "day order": "day_order",
    "zone": "zone",
    "separator": "separator",
    "decimal": "decimal",
}
#: What the record is of, for judging many (hts.record.archive).
_OF = ("document", "joint", "cycle")
_KEYS = (*_OPTIONS, "columns", "recorder", "events", *_OF)


class Map(NamedTuple):
    """`columns` is thermocouple -> column, `units` column -> unit; `events` are not yet read."""

    columns: dict[str, str]
    units: dict[str, str]
    recorder: str
    options: Options
    events: List | None
    note: str


NONE = Map({}, {}, "", Options(), None, "")


def beside(log: str, options: Options) -> Map:
    """The map named by the options, or the one beside the log, or none."""
    if options.mapping is not None:
        return _read(options.mapping, "")
    path = source.beside(log, ".yaml")
    if not os.path.isfile(path):
        return NONE
    return _read(path, f"The map {os.path.basename(path)} beside the log is used.")


def _read(path: str, note: str) -> Map:
    name = os.path.basename(path)
    value = yaml_text.load(path, name)
    if not isinstance(value, Mapping):
        raise RecordError(name, "this is not a map", "write for instance: columns: {T1: Chan 3}")
    for key in value:
        if key not in _KEYS:
            raise RecordError(
                value.keys_at[key], f"{key!r} has no meaning here", f"known are: {', '.join(_KEYS)}"
            )
    events = value.get("events")
    if events is not None and not isinstance(events, List):
        raise RecordError(value.keys_at["events"], "events are a list", "write each after a dash")
    unit = value.get("unit")
    units = _texts(unit) if isinstance(unit, Mapping) else {}
    stated = {
        field: _text(value, key)
        for key, field in _OPTIONS.items()
        if key in value and not isinstance(value[key], Mapping)
    }
    for column, written in units.items():
        if temperature_unit(written) is None:
            raise RecordError(
                value.keys_at["unit"],
                f"{written!r} of {column!r} is no unit",
                "use degC, degF or K",
            )
    columns = value.get("columns")
    if columns is not None and not isinstance(columns, Mapping):
        raise RecordError(value.keys_at["columns"], "columns are a map", "write T1: Chan 3")
    return Map(
        _texts(columns) if isinstance(columns, Mapping) else {},
        {column.casefold(): written for column, written in units.items()},
        _text(value, "recorder") if "recorder" in value else "",
        Options(**stated),
        events,
        note,
    )


def _texts(mapping: Mapping) -> dict[str, str]:
    return {key: _text(mapping, key) for key in mapping}


def _text(mapping: Mapping, key: str) -> str:
    value: Value = mapping[key]
    if isinstance(value, List) and key == "time":
        return ",".join(str(item) for item in value)
    if not isinstance(value, Text):
        raise RecordError(mapping.keys_at[key], f"{key!r} is one word or text", "write it as one")
    return str(value)
