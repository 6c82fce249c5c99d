"""What people noted during the run: a YAML list, or a column of the log.

- {at: 2026-11-21 14:03, kind: power lost}
- {at: 14:20, kind: power back}
- {at: 15:10:30, kind: replaced, tag: T3, by: T3S}
- {at: 16:40, kind: heater lost, zone: bottom}
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterable

from hts.record.errors import RecordError
from hts.record.reading import yaml_text
from hts.record.reading.yaml_text import List, Mapping, Text
from hts.record.record import (
    EVENTS,
    HEATER_BACK,
    HEATER_LOST,
    INSULATION_CLOSED,
    INSULATION_OPENED,
    NOTE,
    POWER_BACK,
    POWER_LOST,
    REPLACED,
    Event,
)

#: Names of a column of remarks.
COLUMNS = frozenset(
    ("event", "events", "remark", "remarks", "note", "notes", "comment", "comments", "marker")
)
_KEYS = ("at", "kind", "tag", "by", "zone", "text")
_HEATER = r"heaters?(?: of (?:the )?zone [\w-]+)?(?: in (?:the )?zone [\w-]+)?"
_ZONE = re.compile(r"\bzone\s+([\w-]+)", re.I)
_WORDS = (
    (POWER_LOST, r"power (?:was )?(?:lost|off|out|fail\w*|cut)"),
    (POWER_BACK, r"power (?:was |is )?(?:back|on|restored|returned)"),
    (
        HEATER_LOST,
        rf"{_HEATER} (?:was |is )?(?:lost|failed|fails|out|off|broken|burnt out|tripped)",
    ),
    (HEATER_BACK, rf"{_HEATER} (?:was |is )?(?:back|on|restored|replaced|repaired)"),
    (INSULATION_OPENED, r"insulation (?:was )?(?:opened|open|removed|lifted)"),
    (INSULATION_CLOSED, r"insulation (?:was )?(?:closed|refitted|put back)"),
)
#: Events of a list: nobody notes more by hand.
MOST = 2_000
#: Letters of a remark that are looked at.
_LONGEST = 500
_REPLACED = re.compile(r"([\w.-]+)\s+(?:was )?replaced by\s+([\w.-]+)", re.I)


def listed(path: str) -> List:
    """The list of a file of events, as it stands. Raises RecordError."""
    name = os.path.basename(path)
    value = yaml_text.load(path, name)
    if isinstance(value, Mapping) and list(value) == ["events"]:
        value = value["events"]
    if not isinstance(value, List):
        raise RecordError(name, "this is not a list of events", "write each event after a dash")
    if len(value) > MOST:
        raise RecordError(
            value[MOST].place,
            f"more than {MOST:,} events are no notes of one run",
            "list what bears on the judgement alone",
        )
    return value


def from_list(
    items: List, when: Callable[[str], float | None], tags: Iterable[str] | None
) -> list[Event]:
    """`when` gives the seconds from the start for a time as written, None for none it knows.

    `tags` are the thermocouples there are, None where any name will do.
    """
    known = {tag.casefold(): tag for tag in tags} if tags is not None else None
    return [_event(item, when, known) for item in items]


def _event(
    item: yaml_text.Value, when: Callable[[str], float | None], known: dict[str, str] | None
) -> Event:
    if not isinstance(item, Mapping):
        raise RecordError(item.place, "an event is a map", "write {at: 14:03, kind: power lost}")
    for key, value in item.items():
        if key not in _KEYS:
            raise RecordError(
                item.keys_at[key], f"{key!r} has no meaning here", f"known are: {', '.join(_KEYS)}"
            )
        if not isinstance(value, Text):
            raise RecordError(item.keys_at[key], f"{key!r} is one text", "write it as one")
    entry = {key: str(value) for key, value in item.items()}
    for key in ("at", "kind"):
        if key not in entry:
            raise RecordError(item.place, f"an event has no {key!r}", "write {at: …, kind: …}")
    if entry["kind"] not in EVENTS:
        raise RecordError(
            item.keys_at["kind"],
            f"{entry['kind']!r} is not a kind of event",
            f"kinds are: {', '.join(EVENTS)}",
        )
    at = when(entry["at"])
    if at is None:
        raise RecordError(
            item.keys_at["at"],
            f"{entry['at']!r} is not a time of this record",
            "write it as the record does, with the date where the record has one",
        )
    for key in ("tag", "by"):
        if known is not None and key in entry:
            if entry[key].casefold() not in known:
                raise RecordError(
                    item.keys_at[key],
                    f"there is no thermocouple {entry[key]!r}",
                    f"there are: {', '.join(known.values())}",
                )
            entry[key] = known[entry[key].casefold()]
    if entry["kind"] == REPLACED and not (entry.get("tag") and entry.get("by")):
        raise RecordError(
            item.place, "a replacement names no thermocouples", "write tag: T3, by: T3S"
        )
    return Event(
        entry["kind"],
        at,
        entry.get("tag", ""),
        entry.get("by", ""),
        entry.get("text", ""),
        entry.get("zone", ""),
    )


def from_cell(text: str, at: float, tags: Iterable[str]) -> Event:
    """A remark in a column of the log; one that is not understood is a note."""
    text = text[:_LONGEST]
    found = _REPLACED.search(text)
    if found:
        known = {tag.casefold(): tag for tag in tags}
        tag, by = (known.get(name.rstrip(".").casefold(), "") for name in found.groups())
        if tag and by:
            return Event(REPLACED, at, tag, by, text)
    for kind, pattern in _WORDS:
        if re.search(rf"\b{pattern}\b", text, re.I):
            zone = _ZONE.search(text) if kind in (HEATER_LOST, HEATER_BACK) else None
            return Event(kind, at, text=text, zone=zone[1] if zone else "")
    return Event(NOTE, at, text=text)
