"""The recorder: terminals, filter, samples, digits, clock, and the file it writes."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

import numpy as np

from tests.record.physics.circuit import (
    at_terminals,
    head_temperature,
    indicated,
    right,
    shunted,
)
from tests.record.physics.faults import Trouble
from tests.record.physics.metal import Floats
from tests.record.physics.oven import Run

UPSCALE, DOWNSCALE = 9999.0, -9999.0


@dataclass
class Table:
    """What the recorder holds: s [rows], degC [rows, tags]; NaN is an empty cell, UPSCALE a
    break."""

    seconds: Floats
    values: Floats
    tags: list[str]
    clock: datetime
    text: dict[str, str] = field(default_factory=dict)
    events: list[dict[str, str]] = field(default_factory=list)
    units: dict[str, str] = field(default_factory=dict)
    shift: Floats | None = None  # s the clock is off, for each row

    def column(self, tag: str) -> int:
        return self.tags.index(tag)

    def times(self) -> list[datetime]:
        off = np.zeros(len(self.seconds)) if self.shift is None else self.shift
        return [
            self.clock + timedelta(seconds=round(float(s + o)))
            for s, o in zip(self.seconds, off, strict=True)
        ]


@dataclass(frozen=True)
class Settings:
    """`noise` K, `digits` K, `interval` s; `unit` and `form` of the file."""

    interval: float
    noise: float = 0.15
    digits: float = 0.1
    unit: str = "degC"
    form: str = "plain"


def record(
    run: Run, settings: Settings, troubles: dict[str, Trouble], rng: np.random.Generator
) -> Table:
    """Samples every circuit of a run."""
    sampled = np.arange(0.0, run.seconds[-1], settings.interval)
    letter = run.plant.type
    day = np.sin(sampled / 86400 * 2 * np.pi + rng.uniform(0, 6))
    terminals = 24 + 2.5 * day
    # Wire and input of each channel: a fixed error within class 1 and the recorder's tolerance.
    error = np.clip(rng.normal(0, 0.0008, len(run.places)), -0.0016, 0.0016)
    columns = []
    for n, place in enumerate(run.places):
        wall = np.interp(sampled, run.seconds, run.true[:, n])
        heater = np.interp(sampled, run.seconds, run.heater[:, n])
        trouble = troubles.get(place.tag, Trouble())
        loop = right(letter)
        junction = trouble.junction(sampled, wall, heater)
        head = head_temperature(wall)
        volts = at_terminals(loop, junction, head, terminals)
        if trouble.loop is not None:
            wrong = at_terminals(trouble.loop, junction, head, terminals)
            volts = np.where(trouble.when(sampled), wrong, volts)
        if trouble.leak is not None:
            beneath = trouble.leak_at * wall + (1 - trouble.leak_at) * 20
            leaking = shunted(loop, junction, beneath, head, terminals, trouble.leak(wall))
            volts = np.where(trouble.when(sampled), leaking, volts)
        volts = volts * (1 + error[n]) * trouble.gain(sampled)
        seen = indicated(
            trouble.set_to or letter, volts, terminals + trouble.cold_junction(sampled)
        )
        seen = _filtered(np.clip(seen, DOWNSCALE, UPSCALE), settings.interval)
        seen = seen + rng.normal(0, settings.noise, len(seen)) + trouble.pick_up(sampled, rng)
        seen = np.where(np.abs(seen) > 3000, np.sign(seen) * UPSCALE, seen)
        seen = np.where(trouble.broken(sampled), trouble.break_reads, seen)
        columns.append(seen)
    start = datetime(2026, 11, 25, 6) + timedelta(minutes=int(rng.integers(0, 300)))
    return Table(sampled, np.array(columns).T, [place.tag for place in run.places], start)


def _filtered(values: Floats, interval: float, constant: float = 6.0) -> Floats:
    part = 1 - np.exp(-interval / constant)
    if part > 0.98:
        return values
    out = values.copy()
    for n in range(1, len(out)):
        out[n] = out[n - 1] + part * (values[n] - out[n - 1])
    return out


def write(table: Table, settings: Settings, path: Path) -> None:
    """The file, in one of a few plain forms; formats are tested elsewhere."""
    comma = settings.form == "comma"
    separator = ";" if comma else "\t" if settings.form == "tab" else ","
    lines = [f"{key}{separator}{value}" for key, value in table.text.items()]
    names = [f"{tag} ({table.units.get(tag, settings.unit)})" for tag in table.tags]
    lines.append(separator.join(["time", *names]))
    values = table.values
    if settings.unit == "degF":
        values = np.where(np.abs(values) < 3000, values * 1.8 + 32, values)
    shown = np.round(values / settings.digits) * settings.digits
    places = 0 if settings.digits >= 1 else 1
    for when, row in zip(table.times(), shown, strict=True):
        cells = [_cell(value, places, comma) for value in row]
        stamp = when.strftime("%d.%m.%Y %H:%M:%S" if comma else "%Y-%m-%d %H:%M:%S")
        lines.append(separator.join([stamp, *cells]))
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def _cell(value: float, places: int, comma: bool) -> str:
    if np.isnan(value):
        return ""
    if abs(value) > 3000:
        return "OPEN"
    text = f"{value:.{places}f}"
    return text.replace(".", ",") if comma else text
