"""What holds for the paper of any specification without an error, read off the paper itself."""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Collection, Iterator
from typing import Any

from hts.job.compiler import Job
from hts.job.outputs import files
from hts.paper.packet.groups import subjects
from hts.paper.packet.packet_files import pages
from tests.paper.figures import PARTED, unsafe_packet, unsafe_sheets
from tests.paper.packet.test_words import strings

Row = dict[str, str]

#: What no reader is to see: a value that was never put into words.
_UNSAID = re.compile(
    r"\bNone\b(?!\.$| are )|\bnan\b|\binf\b|Fraction\(|Quantity\(|<[\w.]+ object|\[\]|\{\}"
)
_FIGURE = re.compile(r"(\d[\d.]*(?: \d+/\d+)?|\d+/\d+)")


def broken(job: Job, told: Collection[str] = (), *, packet: bool = True) -> Iterator[str]:
    """Every statement about paper that this job does not keep, in words. ``told``: the findings of
    a check, by name; what a warning tells of may stand on paper. ``packet``: that of the packet,
    too, which takes longest."""
    made = {name: data.decode() for name, data in files(job).items()}
    for name, text in made.items():
        if name.endswith((".csv", ".md")):
            yield from (f"{name} says {word!r}" for word in _UNSAID.findall(text))
    for name in ("setpoints.csv", "schedule.csv", "tags.csv"):
        yield from _shape(name, made[name])
    yield from _program(_rows(made["setpoints.csv"]), bool(_ALARMS & set(told)))
    yield from _schedule(_rows(made["schedule.csv"]))
    yield from _tags(_rows(made["tags.csv"]))
    yield from _tables(made["setpoints.md"], bool(_NARROW & set(told)))
    yield from unsafe_sheets(job)
    if packet:
        yield from _packet(job)
        yield from (told for told in unsafe_packet(job) if told != PARTED)


def _rows(text: str) -> list[Row]:
    return list(csv.DictReader(io.StringIO(text)))


def _shape(name: str, text: str) -> Iterator[str]:
    head, *rows = csv.reader(io.StringIO(text))
    for row in rows:
        if len(row) != len(head):
            yield f"{name}: {len(row)} cells below {len(head)} heads: {row}"
    for row in _rows(text):
        for column in ("joint", "document", "revision", "status", "fingerprint"):
            if not row[column]:
                yield f"{name}: no {column} in {row}"
        for column, value in row.items():
            other = row.get(f"{column.removesuffix('[degC]')}[degF]", "")
            if column.endswith("[degC]") and value and other:
                difference = (
                    any(word in column for word in ("rate", "+/-")) and "from" not in column
                )
                if not _agree(value, other, 0 if difference else 32):
                    yield f"{name}: {column} is {value}, in degF {other}"


def _agree(celsius: str, fahrenheit: str, zero: int) -> bool:
    if _number(celsius) is None:
        return celsius == fahrenheit
    # Either is rounded to what a controller takes, at most a whole degree.
    return abs(float(fahrenheit) - float(celsius) * 1.8 - zero) <= 1.9


def _number(text: str) -> float | None:
    try:
        return float(text)
    except ValueError:
        return None


#: K; how far outside the range of its hold an alarm may come, hts.checking.rules.cycle.
_ALARM_BEYOND = 10
#: The rules that tell of alarms in the wrong place, and of a setpoint that leaves them none.
_ALARMS = {"misplaced-alarm", "alarm-wider-than-range", "target-outside-range"}
#: The rules that tell of a width less than what is asked for.
_NARROW = {
    *(f"{band}-band-too-narrow" for band in ("soak", "heated", "gradient")),
    "bake-too-narrow",
    "preheat-too-narrow",
}


def _program(rows: list[Row], alarms_told: bool) -> Iterator[str]:
    unit = "degC" if rows and "from [degC]" in rows[0] else "degF"
    slack = _ALARM_BEYOND * (1.8 if unit == "degF" else 1) + 0.1
    before: Row = {}
    # One alarm serves all holds of a cycle: it is held to the hottest of them.
    hottest: dict[str, float] = {}
    for row in rows:
        high = _number(row[f"hold range to [{unit}]"])
        if high is not None:
            hottest[row["cycle"]] = max(high, hottest.get(row["cycle"], high))
    for row in rows:
        told = f"step {row['step']} of {row['cycle']}, zone {row['zone']}"

        def value(name: str, unit: str = "", row: Row = row) -> float | None:
            return _number(row[f"{name} [{unit}]" if unit else name])

        start, end = value("from", unit), value("to", unit)
        if start is None or end is None:
            yield f"{told}: no temperature in {row}"
            continue
        if row["action"] == "hold":
            low, high = value("hold range from", unit), value("hold range to", unit)
            below, above = value("alarm below", unit), value("alarm above", unit)
            if low is None or high is None or not low <= start <= high:
                yield f"{told}: {start} in {low} to {high}"
            elif alarms_told:
                pass
            elif below is not None and not low - slack <= below < start:
                yield f"{told}: alarm below {below}, setpoint {start}, range from {low}"
            elif above is not None and not start < above <= hottest[row["cycle"]] + slack:
                yield f"{told}: alarm above {above}, setpoint {start}, range to {high}"
        if (row["action"] == "heat" and end < start) or (row["action"] == "cool" and end > start):
            yield f"{told}: {row['action']} from {start} to {end}"
        set_rate, limit = value("programmed rate", f"{unit}/h"), value("rate limit", f"{unit}/h")
        if set_rate is not None and limit is not None and set_rate > limit:
            yield f"{told}: set to {set_rate}, limit {limit}"
        if row["action"] != "hold" and not row[f"programmed rate [{unit}/h]"]:
            yield f"{told}: says neither a rate nor that it is free"
        takes = value("duration", "min")
        if set_rate and takes is not None:
            least = abs(end - start) / set_rate * 60
            # On a controller of whole minutes.
            if not least - 0.6 <= takes <= least + 1.6:
                yield f"{told}: takes {takes} min, {least:.2f} by its rate"
        ends = [value(f"{which}end", "min") for which in ("earliest ", "", "latest ")]
        known = [time for time in ends if time is not None]
        if known != sorted(known):
            yield f"{told}: earliest, planned and latest end {known}"
        same = (row["joint"], row["cycle"], row["zone"])
        if before and same == (before["joint"], before["cycle"], before["zone"]):
            if row["start [min]"] != before["end [min]"]:
                yield f"{told}: starts at {row['start [min]']}, {before['end [min]']} before"
            if row[f"from [{unit}]"] != before[f"to [{unit}]"]:
                yield f"{told}: from {row[f'from [{unit}]']}, {before[f'to [{unit}]']} before"
        before = row


def _schedule(rows: list[Row]) -> Iterator[str]:
    last: Row = {}
    for row in rows:
        same = last and (row["joint"], row["cycle"]) == (last["joint"], last["cycle"])
        if same and float(row["elapsed [min]"]) < float(last["elapsed [min]"]):
            yield f"schedule: {row['elapsed [min]']} after {last['elapsed [min]']} min"
        last = row


def _tags(rows: list[Row]) -> Iterator[str]:
    for row in rows:
        for name in [name for name in row if name.endswith("[mm]")]:
            inches = row.get(f"{name.removesuffix('[mm]')}[in]")
            if inches is None:
                continue
            if bool(row[name]) is not bool(inches):
                yield f"{row['tag']}: {name} {row[name]!r}, in inches {inches!r}"
            elif row[name] and abs(_inches(inches) * 25.4 - float(row[name])) > 1.4:
                yield f"{row['tag']}: {name} {row[name]}, in inches {inches}"
        if not row["duty"]:
            yield f"{row['tag']} has no duty"
        if row["expected at hold [mV]"] and float(row["expected at hold [mV]"]) <= 0:
            yield f"{row['tag']}: {row['expected at hold [mV]']} mV at the hold"


def _inches(text: str) -> float:
    whole, _, part = text.partition(" ")
    if "/" in whole:
        whole, part = "0", whole
    over, _, under = (part or "0/1").partition("/")
    return float(whole) + float(over) / float(under or 1)


def _tables(text: str, narrow_told: bool) -> Iterator[str]:
    """The tables for people: widths and limits."""
    for joint in text.split("\n## Joint ")[1:]:
        if "### Where the limits come from" not in joint:
            yield "no section says where the limits come from"
        limits: dict[str, list[list[str]]] = {}
        for cells in _table(joint, "### Where the limits come from"):
            limits.setdefault(cells[0], []).append(cells)
            if not cells[1] or not cells[3]:
                yield f"limit without figure or source: {cells}"
            elif cells[1].startswith(("at least", "at most")):
                yield from _both_units(cells[0], cells[1])
        for cells in _table(joint, "### Widths "):
            name, total, each = cells[:3]
            if not (total or each) or not all(cells[3:6]):
                yield f"width without figure, reason or source: {cells}"
            if total and each and 2 * _first(each) < _first(total) - 1e-9:
                yield f"{name}: {each} on each side, {total} in total"
            for _, least, *_ in limits.get(name, ()):
                stated = total and least.startswith("at least") and _unit_of(least) == "mm"
                # Either is rounded up to a whole millimetre.
                if stated and not narrow_told and _first(total) < _first(least) - 1:
                    yield f"{name} {total}, {least}"


def _table(text: str, head: str) -> Iterator[list[str]]:
    lines = iter(text.partition(head)[2].partition("\n#")[0].splitlines())
    rows = [line for line in lines if line.startswith("| ")]
    for row in rows[2:]:
        yield [cell.strip() for cell in row.strip("|").split(" | ")]


def _first(text: str) -> float:
    found = _FIGURE.search(text)
    assert found, text
    return _inches(found[1])


def _unit_of(text: str) -> str:
    return re.sub(r"^at (?:least|most) [\d./ ]+", "", text).partition(" ")[0]


#: How many of the second unit make one of the first, and what is added.
_TURNED = {("mm", "in"): (25.4, 0.0), ("in", "mm"): (1 / 25.4, 0.0), ("°C", "°F"): (1 / 1.8, -32.0),
           ("°F", "°C"): (1.8, 32 / 1.8), ("°C/h", "°F/h"): (1 / 1.8, 0.0),
           ("°F/h", "°C/h"): (1.8, 0.0), ("K", "°F"): (1 / 1.8, 0.0)}  # fmt: skip


def _both_units(name: str, text: str) -> Iterator[str]:
    """The second unit is not on the wrong side of the first by more than a step of either."""
    found = re.match(r"at (least|most) ([\d./ ]+) (\S+) \(([\d./ ]+) ([^)]+)\)", text)
    if not found:
        return
    side, first, unit, second, other = found.groups()
    turned = _TURNED.get((unit, other))
    if turned is None:
        return
    factor, added = turned
    value, also = _inches(first), (_inches(second) + added) * factor
    # 1/16 in, 1 mm and 1 degree are the steps of paper.
    step = {"mm": 1.6, "in": 1 / 16, "°C": 1.0, "°F": 1.8}.get(unit, 1.8)
    if {unit, other} == {"°C", "°F"} and _printed_as_a_pair(_inches(first), unit, _inches(second)):
        step = {"°C": 2.5, "°F": 5.0}[unit]
    if not math.isclose(value, also, abs_tol=step + 1e-6):
        yield f"{name}: {side} {text}"


def _printed_as_a_pair(first: float, unit: str, second: float) -> bool:
    """Whether a book may print the two side by side: whole fives of degC, whole tens of degF.

    It prints 675 degC beside 1250 degF, which is 676.7 degC: half a step of either rounding.
    """
    celsius, fahrenheit = (first, second) if unit == "°C" else (second, first)
    return celsius % 5 == 0 and fahrenheit % 10 == 0


def _packet(job: Job) -> Iterator[str]:
    for subject in subjects(job):
        for block in _blocks(pages(subject)):
            for text in strings(block):
                yield from (f"the packet says {word!r}: {text}" for word in _UNSAID.findall(text))


def _blocks(page: dict[str, Any]) -> Iterator[Any]:
    for group in page["groups"]:
        yield from group["front"]
        for part in group["parts"]:
            yield from part["blocks"]
