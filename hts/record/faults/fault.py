"""A fault found in a record."""

from __future__ import annotations

from typing import NamedTuple

from hts.record.faults.fault_kinds import CLOCK_JUMP, CLOCK_RATE, HIGH, LEFT_OUT, FaultKind


class Spell(NamedTuple):
    """A stretch of rows, both in s from the start of the record and included."""

    start: float
    end: float


class Fault(NamedTuple):
    """`kind` is the name of one of KINDS; `tag` the thermocouple, "" for the record as a whole, and
    `others` further ones it is about. `evidence` has numbers and no full stop. `treatment` is "left
    out" or "kept". `spells` are the readings that are wrong, where these are not
    all from `start` to `end`. `zone` is set where it is about a zone and its heaters; `over`
    whether the zone had its heat again before the record ended.
    """

    kind: str
    tag: str
    others: tuple[str, ...]
    start: float
    end: float
    evidence: str
    confidence: str
    treatment: str
    spells: tuple[Spell, ...] = ()
    zone: str = ""
    over: bool = False

    @property
    def wrong(self) -> tuple[Spell, ...]:
        """The stretches whose readings are wrong."""
        return self.spells or (Spell(self.start, self.end),)

    @property
    def whose(self) -> str:
        """The thermocouples it is about, for people: `T1`, `T1 and T2`, `zone top`,
        `all`, `clock`."""
        if self.zone:
            return f"zone {self.zone}"
        tags = [tag for tag in (self.tag, *self.others) if tag]
        of_clock = self.kind in (CLOCK_JUMP.name, CLOCK_RATE.name)
        return " and ".join(tags) or ("clock" if of_clock else "all")


def fault_of_all(kind: FaultKind, evidence: str, spells: list[Spell]) -> Fault:
    """A fault of the record as a whole, whose readings are left out in these stretches."""
    start, end = spells[0].start, spells[-1].end
    return Fault(kind.name, "", (), start, end, evidence, HIGH, LEFT_OUT, tuple(spells))


def fault(
    kind: FaultKind,
    tag: str,
    start: float,
    end: float,
    evidence: str,
    confidence: str,
    treatment: str,
    spells: tuple[Spell, ...] = (),
) -> Fault:
    """A fault of one thermocouple."""
    return Fault(kind.name, tag, (), start, end, evidence, confidence, treatment, spells)
