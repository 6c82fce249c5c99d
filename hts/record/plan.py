"""What the compiled job asks of one run, as floats for arithmetic on arrays of readings.

The exact values stay beside (`job`, `sheet`, `run`) and are the ones that are shown.
"""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from hts.base.quantities import TIME, Quantity
from hts.job.compiler.derivations import Derivation
from hts.job.compiler.job import Job, JointSheet, Run
from hts.job.compiler.program import BAKE, PREHEAT
from hts.job.compiler.steps import COOL, HEAT, HOLD, Step
from hts.job.compiler.why import Why, practice, stated
from hts.language.model.joint import CONTROLS, SPARE
from hts.language.vocabulary.cycle import Limit, Treatment
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.segments import Segment
from hts.record.errors import RecordError
from hts.record.watched import Watched, watched

__all__ = ["CONTROLS", "COOL", "HEAT", "HOLD", "SPARE", "Bound", "Plan", "Span", "Watched", "plan"]

CONTROLLING, STARTS_AGAIN = "while controlling in range", "starts again"
FROM_ALL, FROM_CONTROLLING = "all in range", "controlling in range"

#: Window a rate is judged over where the text states none.
WINDOW = Quantity.of(15, "min", TIME)


class Bound(NamedTuple):
    """A limit of the treatment: `value` in s, K or degC, as `written`, and its reason.

    `within` is the distance over which a spread counts, None: any distance.
    """

    value: float
    written: Quantity
    why: Why
    within: Quantity | None = None


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


class Plan:
    """What is asked of one run of one joint; made once, used for any number of records."""

    def __init__(self, job: Job, sheet: JointSheet, run: Run) -> None:
        self.job = job
        self.sheet = sheet
        self.run = run
        self.entry: Entry = run.program.entry
        self.watched: tuple[Watched, ...] = watched(sheet, run, self.kind)
        self.spans: tuple[Span, ...] = tuple(_span(step, self) for step in run.program.steps)

    @property
    def joint(self) -> str:
        return self.sheet.joint.name

    @property
    def name(self) -> str:
        """Of the cycle; `bake` or `preheat` for those."""
        return self.run.program.name

    @property
    def kind(self) -> str:
        """CYCLE, BAKE or PREHEAT of hts.job.compiler.program."""
        return self.run.program.kind

    @property
    def address(self) -> str:
        """The treatment as findings name it: `W12/stress-relief`."""
        return f"{self.joint}/{self.name}"

    @cached_property
    def required(self) -> tuple[Watched, ...]:
        """The thermocouples that must be in range during the hold."""
        return tuple(one for one in self.watched if one.required)

    @cached_property
    def by_tag(self) -> dict[str, Watched]:
        return {one.tag: one for one in self.watched}

    @cached_property
    def zones(self) -> tuple[str, ...]:
        return tuple(zone.name for zone in self.sheet.joint.zones)

    @cached_property
    def holds(self) -> tuple[Span, ...]:
        return tuple(span for span in self.spans if span.action == HOLD)

    @property
    def control_start(self) -> float | None:
        """degC at which control and record begin."""
        return None if self.start_bound is None else self.start_bound.value

    @property
    def control_end(self) -> float | None:
        """degC at which control and record end."""
        return None if self.end_bound is None else self.end_bound.value

    # What the treatment states, else what books and procedures give ---------------------------

    def said(self, field: str) -> object:
        """What the text says in a field of the treatment; None for a preheat without it."""
        return getattr(self.entry, field, None)

    def why(self, field: str, numbers: str = "") -> Why:
        return stated(self.entry, field, numbers)

    def ruled(self, quantity: str, direction: str = "maximum") -> Derivation | None:
        """The bound that books and procedures set on a quantity of this treatment."""
        for found in self.run.program.derived:
            if found.quantity == quantity and found.direction == direction:
                return found
        return None

    @cached_property
    def start_bound(self) -> Bound | None:
        return self._point("start_control", "start of control")

    @cached_property
    def end_bound(self) -> Bound | None:
        return self._point("end_control", "end of control")

    @cached_property
    def heating_spread(self) -> Bound | None:
        return self._spread("heating_spread", "heating spread")

    @cached_property
    def holding_spread(self) -> Bound | None:
        return self._spread("holding_spread", "holding spread")

    @cached_property
    def excursion_each(self) -> Bound | None:
        """The longest single time outside a limit that is tolerated."""
        return self._excursion("each")

    @cached_property
    def excursion_total(self) -> Bound | None:
        """All times outside the hold range, added, that are tolerated."""
        found = self._excursion("total")
        if found is not None or self.excursion_each is not None:
            return found
        return self._by_rule("excursion")

    @cached_property
    def window(self) -> Bound:
        """The time a rate is judged over."""
        said = self.said("window")
        if isinstance(said, Quantity):
            return Bound(float(said.value), said, self.why("window", f"rate over {said}"))
        return Bound(
            float(WINDOW.value), WINDOW, practice(str(WINDOW), "assumed: the text states no window")
        )

    @property
    def counts_all(self) -> bool:
        """Whether the hold counts while all required are in range, not only the controlling."""
        said = self.said("hold_count")
        if said is None:
            return all(self.counts_from(span) != FROM_CONTROLLING for span in self.holds)
        return said != CONTROLLING

    def counts_from(self, span: Span) -> str | None:
        """What the text says of when the time of a hold begins to count."""
        return getattr(self.segment(span), "after", None)

    def segment(self, span: Span) -> Segment | None:
        """The entry of the text a step is made from; None in a preheat, which has none."""
        segments = self.entry.segments if isinstance(self.entry, Treatment) else []
        index = span.step.segment - 1
        return segments[index] if index < len(segments) else None

    @property
    def adds_up(self) -> bool:
        """Whether the pieces of an interrupted hold are added."""
        return self.said("interrupted_hold") != STARTS_AGAIN

    @property
    def guard(self) -> str | None:
        """The decision rule where the text asks for a guard band."""
        band = self.said("guard_band")
        rule = getattr(band, "rule", None)
        return None if rule in (None, "none") else str(rule)

    def _point(self, field: str, quantity: str) -> Bound | None:
        said = self.said(field)
        if isinstance(said, Quantity):
            return Bound(float(said.value), said, self.why(field, f"{quantity} {said}"))
        return self._by_rule(quantity)

    def _spread(self, field: str, quantity: str) -> Bound | None:
        said = self.said(field)
        if isinstance(said, Limit) and said.at_most is not None:
            why = stated(said, "at_most", f"at most {said.at_most}")
            return Bound(float(said.at_most.value), said.at_most, why, said.within)
        return self._by_rule(quantity)

    def _excursion(self, flag: str) -> Bound | None:
        entry = self.entry
        for one in entry.excursion if isinstance(entry, Treatment) else ():
            # Without a word an allowance is for all times together, the stricter reading.
            if one.at_most is not None and (one.each if flag == "each" else not one.each):
                why = stated(one, "at_most", f"at most {one.at_most}")
                return Bound(float(one.at_most.value), one.at_most, why)
        return None

    def _by_rule(self, quantity: str) -> Bound | None:
        found = self.ruled(quantity)
        if found is None or not isinstance(found.value, Quantity):
            return None
        return Bound(float(found.value.value), found.value, found.why, found.within)


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
    segments = plan.entry.segments if isinstance(plan.entry, Treatment) else []
    segment = segments[step.segment - 1] if step.segment <= len(segments) else None
    longest = getattr(segment, "longest", None)
    if step.action == HOLD and segment is not None and longest is None:
        found = plan.ruled("bake time" if plan.kind == BAKE else "hold time")
        longest = found.value if found is not None else None
    window = step.window
    return Span(
        step.number,
        step.action,
        float(step.start.value),
        _float(step.end),
        _float(step.limit),
        _float(getattr(segment, "slowest", None)),
        _float(step.counts_from),
        _float(window.low) if window is not None else None,
        _float(window.high) if window is not None else None,
        _float(step.least),
        _float(longest),
        step,
    )


def _float(quantity: object) -> float | None:
    return float(quantity.value) if isinstance(quantity, Quantity) else None
