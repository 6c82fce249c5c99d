"""What judging a record comes to."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import Literal, NamedTuple

from hts.job.compiler.why import Why

Outcome = Literal["met", "not met", "not shown", "conditional"]
MET: Outcome = "met"
NOT_MET: Outcome = "not met"
NOT_SHOWN: Outcome = "not shown"
CONDITIONAL: Outcome = "conditional"

#: K. Readings come from conversions in floating point; this is far below what any instrument
#: resolves, and lets a reading that is exactly at a limit meet it.
SAME = 1e-6
#: s. Lines between readings cross a limit at times that are rounded in floating point.
SAME_TIME = 1e-3


class Stretch(NamedTuple):
    """A stretch of time, s from the start of the record."""

    start: float
    end: float

    @property
    def length(self) -> float:
        return self.end - self.start


class Failure(NamedTuple):
    """Where and when a requirement failed; `sentence` is one sentence with the numbers."""

    tags: tuple[str, ...]
    start: float
    end: float
    sentence: str


#: A text, or what makes it when it is first read: of most records of an archive none is.
Text = str | Callable[[], str]


class Verdict:
    """One requirement: what is specified, what the record shows, and what follows.

    `guarded` is the verdict with the guard band, None where the job asks for none or none
    applies. `elsewhere`: no temperature record can show it; other evidence has to, and the
    judgement as a whole does not hang on it.
    """

    def __init__(
        self,
        requirement: str,
        address: str,
        specified: Text,
        actual: Text,
        verdict: Outcome,
        guarded: Outcome | None,
        failures: tuple[Failure, ...],
        source: Why | None,
        elsewhere: bool = False,
    ) -> None:
        self.requirement, self.address = requirement, address
        self._texts = specified, actual
        self.verdict, self.guarded = verdict, guarded
        self.failures, self.source, self.elsewhere = failures, source, elsewhere

    @cached_property
    def specified(self) -> str:
        return _read(self._texts[0])

    @cached_property
    def actual(self) -> str:
        return _read(self._texts[1])

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Verdict) and self._all() == other._all()

    def __hash__(self) -> int:
        return hash((self.requirement, self.address, self.verdict))

    def __repr__(self) -> str:
        return f"Verdict{self._all()}"

    def _all(self) -> tuple[object, ...]:
        said = self.requirement, self.address, self.specified, self.actual
        return *said, self.verdict, self.guarded, self.failures, self.source, self.elsewhere


def _read(text: Text) -> str:
    return text if isinstance(text, str) else text()


class HoldClock(NamedTuple):
    """When the hold counted. `intervals` are the pieces that count and `lost` those in range that
    do not, for what lay between ended the hold; `arrived` is when all required were first in
    range, `left` when they last were; None where they never were. `least` and `longest` are asked
    for, in s.
    `last` is the thermocouple that came into range last, `worst` the one longest out of it.
    """

    low: float
    high: float
    intervals: tuple[Stretch, ...]
    total: float
    arrived: float | None
    left: float | None
    least: float | None
    longest: float | None
    last: str
    worst: str
    lost: tuple[Stretch, ...] = ()

    @property
    def since(self) -> float | None:
        """When the pieces that count began."""
        return self.intervals[0].start if self.intervals else None

    @property
    def complete(self) -> bool:
        """Whether the time asked for has counted."""
        return self.arrived is not None and self.total >= (self.least or 0.0) - SAME_TIME


class Segment(NamedTuple):
    """A part of the record, s from its start: heating, a hold, cooling; `number` is the step of
    the program it begins with."""

    start: float
    end: float
    number: int
    action: str


class Noted(NamedTuple):
    """A figure worked out from the record that no requirement limits."""

    name: str
    sentence: str
    source: Why | None
