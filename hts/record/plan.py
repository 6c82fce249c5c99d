"""What the compiled job asks of one run, as floats for arithmetic on arrays of readings.

The exact values stay beside (`job`, `sheet`, `run`) and are the ones that are shown.
"""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.job.compiler.job import Job, JointSheet, Run
from hts.job.compiler.program import BAKE, PREHEAT
from hts.job.compiler.steps import COOL, HEAT, HOLD, Step
from hts.job.demands.asked import FROM_ALL, WINDOW, Asked, Bound
from hts.job.demands.critical import Margin, margins
from hts.job.demands.watched import Watched, pairs_within
from hts.language.model.joint import CONTROLS, SPARE
from hts.language.vocabulary.segments import Segment
from hts.record.errors import RecordError

__all__ = [
    "CONTROLS",
    "COOL",
    "FROM_ALL",
    "HEAT",
    "HOLD",
    "SPARE",
    "WINDOW",
    "Bound",
    "Plan",
    "Span",
    "Watched",
    "plan",
]


class Span(NamedTuple):
    """One step of the program: temperatures in degC, rates in K/h, times in s.

    `end` None: wherever the part cools to. `limit` is the fastest rate allowed, counted from
    `counts_from` (None: throughout), and `slowest` the slowest; None where nothing limits it.
    `low` and `high` are the range of a hold, `least` and `longest` its time.
    """

    number: int
    action: str
    start: float
    end: float | None
    limit: float | None
    slowest: float | None
    counts_from: float | None
    low: float | None
    high: float | None
    least: float | None
    longest: float | None
    step: Step


class Plan(Asked):
    """What is asked of one run of one joint; made once, used for any number of records."""

    def __init__(self, job: Job, sheet: JointSheet, run: Run) -> None:
        super().__init__(job, sheet, run)
        self._pairs: dict[float | None, list[tuple[int, int]]] = {}
        self.spans: tuple[Span, ...] = tuple(_span(step, self) for step in run.program.steps)

    @cached_property
    def zones(self) -> tuple[str, ...]:
        return tuple(zone.name for zone in self.sheet.joint.zones)

    @cached_property
    def holds(self) -> tuple[Span, ...]:
        return tuple(span for span in self.spans if span.action == HOLD)

    @cached_property
    def margins(self) -> tuple[Margin, ...]:
        """How far the run stays below the temperatures at which the steel changes."""
        return tuple(margins(self))

    def pairs_within(self, distance: float | None) -> list[tuple[int, int]]:
        """Pairs of the required thermocouples no farther apart than `distance` mm (None: all)."""
        if distance not in self._pairs:
            self._pairs[distance] = pairs_within(self.required, distance)
        return self._pairs[distance]

    def counts_from(self, span: Span) -> str | None:
        """What the text says of when the time of a hold begins to count."""
        return getattr(self.segment(span), "after", None)

    def segment(self, span: Span) -> Segment | None:
        """The entry of the text a step is made from; None in a preheat, which has none."""
        return self.segment_of(span.step)


def plan(job: Job, joint: str | None = None, cycle: str | None = None) -> Plan:
    """The run asked for. Raises RecordError where the names leave none or several."""
    runs = [(sheet, run) for sheet in job.joints for run in sheet.runs]
    found = [
        (sheet, run)
        for sheet, run in runs
        if joint in (None, sheet.joint.name) and cycle in (None, run.program.name)
    ]
    if cycle is None and len(found) > 1:
        # A record is that of the treatment, if there is one, rather than of what led up to it.
        treated = [(sheet, run) for sheet, run in found if run.program.kind not in (BAKE, PREHEAT)]
        found = treated or found
    if len(found) == 1:
        return Plan(job, *found[0])
    choices = ", ".join(
        f"--joint {sheet.joint.name} --cycle {run.program.name}" for sheet, run in found or runs
    )
    asked = " ".join(word for word in (joint, cycle) if word) or "the record"
    cause = "fits several runs" if found else "fits no run"
    raise RecordError(job.document.title, f"{asked} {cause} of this job", f"say which: {choices}")


def _span(step: Step, plan: Plan) -> Span:
    longest = plan.longest_of(step)
    window = step.window
    return Span(
        step.number,
        step.action,
        float(step.start.value),
        _float(step.end),
        _float(step.limit),
        _float(getattr(plan.segment_of(step), "slowest", None)),
        _float(step.counts_from),
        _float(window.low) if window is not None else None,
        _float(window.high) if window is not None else None,
        _float(step.least),
        longest.value if longest is not None else None,
        step,
    )


def _float(quantity: object) -> float | None:
    return float(quantity.value) if isinstance(quantity, Quantity) else None
