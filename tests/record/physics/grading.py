"""Made records put to `hts record check`, and its answers put beside the truth."""

from __future__ import annotations

import json
import re
import tempfile
from pathlib import Path
from typing import NamedTuple

import numpy as np
from click.testing import CliRunner

from hts.cli.main import cli
from tests.record.physics.cases import (
    EITHER,
    MUST,
    NEVER,
    OPEN,
    UNSHOWN,
    Kind,
    Situation,
    make,
    without_heat,
)
from tests.record.physics.kinds import ALL, HEATER_LOSS
from tests.record.physics.plants import PLANTS, STRICT, Plant
from tests.record.physics.recorder import Settings, write

#: A fault found that is the loss of a zone's heat.
HEAT_LOST = re.compile(HEATER_LOSS[0], re.IGNORECASE)
JOINTS = tuple(plant.name for plant in PLANTS)


class Named(NamedTuple):
    """A fault found: its kind, the tags joined by +, and the zone whose heaters it is about."""

    kind: str
    tag: str
    zone: str

    def __str__(self) -> str:
        where = self.tag or (f"zone {self.zone}" if self.zone else "")
        return f"{self.kind} ({where})" if where else self.kind


class Answer(NamedTuple):
    """`named` is every fault found; `failed` the requirements not met, as told."""

    overall: str
    named: tuple[Named, ...]
    failed: tuple[str, ...]
    assumed: tuple[str, ...]


class Graded(NamedTuple):
    """`at` are the faulty tags, `zone` the zone whose heaters failed, `cold` the zones that truly
    got no heat for a while. `blamed` are healthy thermocouples, and zones, that a fault was found
    on."""

    kind: Kind
    joint: str
    number: int
    may: str
    truth: str
    broken: tuple[str, ...]
    at: tuple[str, ...]
    zone: str
    cold: tuple[str, ...]
    settings: Settings
    answer: Answer

    @property
    def met(self) -> bool:
        return self.answer.overall.startswith("met")

    @property
    def false_met(self) -> bool:
        return self.met and self.may in (NEVER, UNSHOWN)

    @property
    def refused(self) -> bool:
        return not self.met and self.may == MUST

    @property
    def named_right(self) -> bool:
        for fault in self.answer.named:
            if not self._fits(fault):
                continue
            if self.zone:
                if fault.zone == self.zone:
                    return True
            elif not self.at or not fault.tag or set(fault.tag.split("+")) & set(self.at):
                return True
        # What is no fault of one circuit may be told as a requirement or a note instead.
        told = (*self.answer.assumed, *self.answer.failed, self.answer.overall)
        return not (self.at or self.zone) and any(
            re.search(word, line, re.IGNORECASE) for word in self.kind.words for line in told
        )

    def _fits(self, fault: Named) -> bool:
        return any(re.search(word, fault.kind, re.IGNORECASE) for word in self.kind.words)

    @property
    def alarms(self) -> tuple[Named, ...]:
        """Faults found but for loss of the heat that a zone truly lacked."""
        return tuple(
            fault
            for fault in self.answer.named
            if not (HEAT_LOST.search(fault.kind) and fault.zone in self.cold)
        )

    @property
    def blamed(self) -> tuple[str, ...]:
        if len(self.at) > 3:
            return ()
        return tuple(
            sorted(
                {
                    f"{fault.tag or fault.zone}: {fault.kind}"
                    for fault in self.alarms
                    if (fault.tag or fault.zone) and not set(fault.tag.split("+")) & set(self.at)
                }
            )
        )


def ask(plant: Plant, log: Path, events: Path | None = None) -> Answer:
    """What `hts record check` says."""
    said = ["record", "check", str(plant.path), str(log), "--joint", plant.joint]
    said += ["--cycle", plant.cycle, "--format", "json"]
    if events is not None:
        said += ["--events", str(events)]
    result = CliRunner().invoke(cli, said)
    if result.exit_code not in (0, 1) or not result.stdout:
        if result.exception is not None and not isinstance(result.exception, SystemExit):
            raise result.exception
        return Answer("refused", (), ((result.stderr or result.output).strip(),), ())
    told = json.loads(result.stdout)
    named = tuple(
        Named(
            fault["kind"],
            "+".join([fault["tag"] or "", *fault["others"]]).strip("+"),
            fault["zone"],
        )
        for fault in told["faults"]
    )
    failed = tuple(
        f"{one['requirement']} ({one['specified']}): {one['verdict']}; {one['actual']}"
        for one in sorted(told["verdicts"], key=lambda one: one["verdict"])
        if one["verdict"] != "met" and one["actual"] != "the record does not tell"
    )
    return Answer(told["overall"], named, failed, tuple(told["assumed"]))


def grade(kind: Kind, plant: Plant, seed: int, number: int, keep: Path | None = None) -> Graded:
    """One record of a kind, made from (seed, number), put to the judge."""
    rng = np.random.default_rng([seed, number])
    made, known, may = make(kind, plant, rng)
    with tempfile.TemporaryDirectory() as folder:
        place = keep or Path(folder)
        log = place / f"{number}-{plant.joint}.csv"
        write(made.table, made.settings, log)
        events = _events(made, place / f"{number}-{plant.joint}-events.yaml")
        answer = ask(plant, log, events)
    return Graded(
        kind,
        plant.name,
        number,
        may,
        known.verdict,
        known.broken,
        made.blame,
        made.zone,
        without_heat(made.run),
        made.settings,
        answer,
    )


def _events(made: Situation, path: Path) -> Path | None:
    if not made.table.events:
        return None
    lines = []
    for event in made.table.events:
        pairs = ", ".join(f"{key}: {value}" for key, value in event.items() if key != "seconds")
        lines.append(f"- {{{pairs}}}")
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def sample(records: int) -> list[tuple[Kind, Plant, int]]:
    """The kinds one after another, each time on another job, until there are enough."""
    found: list[tuple[Kind, Plant, int]] = []
    turn = 0
    while len(found) < records:
        for n, kind in enumerate(ALL):
            fit = [plant for plant in (*PLANTS, *STRICT) if plant.name in (kind.plants or JOINTS)]
            found.append((kind, fit[(turn + n) % len(fit)], len(found)))
            if len(found) == records:
                break
        turn += 1
    return found


__all__ = ["EITHER", "MUST", "NEVER", "OPEN", "UNSHOWN", "Graded", "grade", "sample"]
