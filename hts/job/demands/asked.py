"""What the text asks of one run, and where it is silent what books and procedures give."""

from __future__ import annotations

from functools import cached_property
from typing import NamedTuple

from hts.base.quantities import TIME, Quantity
from hts.checking.govern import Authority
from hts.job.compiler.derivations import Derivation
from hts.job.compiler.job import Job, JointSheet, Run
from hts.job.compiler.program import BAKE
from hts.job.compiler.steps import HOLD, Step
from hts.job.compiler.why import Why, practice, stated
from hts.job.demands.watched import Watched, watched
from hts.language.vocabulary.allowances import Limit, MeanOfHold, Share
from hts.language.vocabulary.cycle import KEPT_HOT, Bake, Treatment
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.joint import Nearby
from hts.language.vocabulary.segments import Segment

CONTROLLING, ADDS_UP = "while controlling in range", "adds up"
FROM_ALL, FROM_CONTROLLING = "all in range", "controlling in range"

#: Window a rate is judged over where the text states none.
WINDOW = Quantity.of(15, "min", TIME)
#: Readings farther apart than so many intervals leave a gap. Common practice, no source.
GAP = 3


class Bound(NamedTuple):
    """A limit of the treatment: `value` in s, K or degC, as `written`, and its reason.

    `within` is the distance over which a spread counts, None: any distance.
    """

    value: float
    written: Quantity
    why: Why
    within: Quantity | None = None


class Asked:
    """The demands of one run of one joint."""

    def __init__(self, job: Job, sheet: JointSheet, run: Run) -> None:
        self.job = job
        self.sheet = sheet
        self.run = run
        self.entry: Entry = run.program.entry
        self.watched: tuple[Watched, ...] = watched(sheet, run, self.kind)

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

    @cached_property
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

    @property
    def control_start(self) -> float | None:
        """degC at which control and record begin."""
        return None if self.start_bound is None else self.start_bound.value

    @property
    def control_end(self) -> float | None:
        """degC at which control and record end."""
        return None if self.end_bound is None else self.end_bound.value

    # What the treatment states, else what books and procedures give ---------------------------

    def stated(self, field: str) -> object:
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
    def delay(self) -> Bound | None:
        """How soon after welding heating begins."""
        return self._point("delay", "delay before heat treatment", "begin within")

    @cached_property
    def cooled_below(self) -> Bound | None:
        """What the weld has cooled to before it is heated, so that it has transformed."""
        return self._point("cooled_below", "temperature before heat treatment", "first cool below")

    @cached_property
    def heating_spreads(self) -> tuple[Bound, ...]:
        """The spreads allowed on the way, each over its own distance, the stated ones first."""
        return self._spreads("heating_spread", "heating spread")

    @cached_property
    def holding_spreads(self) -> tuple[Bound, ...]:
        """The spreads allowed during the hold."""
        return self._spreads("holding_spread", "holding spread")

    @property
    def shares(self) -> tuple[Share, ...]:
        """The shares of the hold temperature asked for beside the weld."""
        return tuple(self.entry.shares) if isinstance(self.entry, Treatment) else ()

    @property
    def means(self) -> tuple[MeanOfHold, ...]:
        """The ranges asked for of the mean of several thermocouples in the hold."""
        return tuple(self.entry.means) if isinstance(self.entry, Treatment) else ()

    @cached_property
    def excursion_each(self) -> Bound | None:
        """The longest single time outside the hold range that is tolerated."""
        return self._tolerated("excursion", each=True)

    @cached_property
    def excursion_total(self) -> Bound | None:
        """All times outside the hold range, added, that are tolerated. What an owner allows in
        total is not replaced by what a job allows each time."""
        return _shorter(self._tolerated("excursion", each=False), self._by_rule("excursion"))

    @cached_property
    def rate_excursion_each(self) -> Bound | None:
        """The longest single time over the limit of a rate that is tolerated."""
        stated = self._tolerated("rate_excursion", each=True)
        return _shorter(stated, self._by_rule("rate excursion"))

    @cached_property
    def rate_excursion_total(self) -> Bound | None:
        """All times over the limit of a rate, added, that are tolerated."""
        return self._tolerated("rate_excursion", each=False)

    @cached_property
    def window(self) -> Bound:
        """The time a rate is judged over."""
        value = self.stated("window")
        if isinstance(value, Quantity):
            return Bound(float(value.value), value, self.why("window", f"rate over {value}"))
        return Bound(
            float(WINDOW.value), WINDOW, practice(str(WINDOW), "assumed: the text states no window")
        )

    @cached_property
    def hold_steps(self) -> tuple[Step, ...]:
        return tuple(step for step in self.run.program.steps if step.action == HOLD)

    @cached_property
    def counts_all(self) -> bool:
        """Whether the hold counts while all required are in range, not only the controlling."""
        value = self.stated("hold_count")
        if value is None:
            starts = [getattr(self.segment_of(step), "after", None) for step in self.hold_steps]
            return all(start != FROM_CONTROLLING for start in starts)
        return value != CONTROLLING

    def segment_of(self, step: Step) -> Segment | None:
        """The entry of the text a step is made from; None in a preheat, which has none."""
        segments = self.entry.segments if isinstance(self.entry, Treatment) else []
        index = step.segment - 1
        return segments[index] if index < len(segments) else None

    def longest_of(self, step: Step) -> Bound | None:
        """The longest a hold may last."""
        segment = self.segment_of(step)
        if step.action != HOLD or segment is None:
            return None
        value = getattr(segment, "longest", None)
        if isinstance(value, Quantity):
            return Bound(float(value.value), value, stated(segment, "longest", f"at most {value}"))
        return self._by_rule("bake time" if self.kind == BAKE else "hold time")

    @property
    def adds_up(self) -> bool:
        """Whether the pieces of an interrupted hold are added: only where the text says so."""
        return self.stated("interrupted_hold") == ADDS_UP

    @property
    def guard(self) -> str | None:
        """The decision rule where the text asks for a guard band."""
        band = self.stated("guard_band")
        rule = getattr(band, "rule", None)
        return None if rule in (None, "none") else str(rule)

    @property
    def record_start(self) -> Bound | None:
        """Where the record has to begin; from preheat, anywhere up to the interpass temperature."""
        preheat = self.sheet.joint.preheat
        if isinstance(self.entry, Bake) and self.entry.begins == "from preheat" and preheat:
            most = self.sheet.limits.interpass()
            if most is not None:
                why = stated(preheat, "interpass", f"from preheat, at most {most}")
                return Bound(float(most.value), most, why)
        return self.start_bound

    @property
    def comes_hot(self) -> str | None:
        """From what the weld comes without cooling in between, where the text says so."""
        begins = self.stated("begins")
        return str(begins) if begins in KEPT_HOT else None

    @cached_property
    def kept_before(self) -> Bound | None:
        """What the weld does not fall below between welding, or a bake, and this treatment."""
        preheat = self.sheet.joint.preheat
        if self.comes_hot is None or preheat is None:
            return None
        field = "maintain" if preheat.maintain is not None else "at_least"
        least = preheat.maintain or self.sheet.limits.preheat()
        if not isinstance(least, Quantity):
            return None
        return Bound(float(least.value), least, stated(preheat, field, f"at least {least}"))

    @cached_property
    def greatest_preheat(self) -> Bound | None:
        """What the joint may not be hotter than before the first arc."""
        most = self.stated("at_most")
        if isinstance(most, Quantity):
            return Bound(float(most.value), most, self.why("at_most", f"at most {most}"))
        return self._by_rule("preheat")

    @cached_property
    def by_mean(self) -> Authority | None:
        """The book by which the temperature of a hold is the mean of its highest and lowest
        reading."""
        for one in self.job.authorities:
            if one.hold_by_mean:
                return one
        return None

    def watching(self, item: Nearby) -> list[Watched]:
        """The thermocouples that watch something nearby."""
        return [one for one in self.watched if _watches(one, item)]

    def _point(self, field: str, quantity: str, words: str = "") -> Bound | None:
        """What an entry states, ``words`` as it begins, else what limits the quantity."""
        value = self.stated(field)
        if isinstance(value, Quantity):
            why = self.why(field, f"{words or quantity} {value}")
            return Bound(float(value.value), value, why)
        return self._by_rule(quantity)

    def _spreads(self, field: str, quantity: str) -> tuple[Bound, ...]:
        """What the text states, and what a book or procedure asks for over distances that no
        stated spread speaks for."""
        found: list[Bound] = []
        entry = self.entry
        for one in getattr(entry, field) if isinstance(entry, Treatment) else ():
            if isinstance(one, Limit) and one.at_most is not None:
                why = stated(one, "at_most", f"at most {one.at_most}")
                found.append(Bound(float(one.at_most.value), one.at_most, why, one.within))
        for rule in self.run.program.derived:
            if rule.quantity == quantity and isinstance(rule.value, Quantity):
                bound = Bound(float(rule.value.value), rule.value, rule.why, rule.within)
                if not any(_speaks_for(one, bound) for one in found):
                    found.append(bound)
        return tuple(found)

    def _tolerated(self, field: str, *, each: bool) -> Bound | None:
        entry = self.entry
        for one in getattr(entry, field) if isinstance(entry, Treatment) else ():
            # Without a word an allowance is for all times together, the stricter reading.
            if one.at_most is not None and one.each == each:
                why = stated(one, "at_most", f"at most {one.at_most}")
                return Bound(float(one.at_most.value), one.at_most, why)
        return None

    def _by_rule(self, quantity: str) -> Bound | None:
        found = self.ruled(quantity)
        if found is None or not isinstance(found.value, Quantity):
            return None
        return Bound(float(found.value.value), found.value, found.why, found.within)


def _speaks_for(one: Bound, other: Bound) -> bool:
    """Whether whoever keeps to the one keeps to the other, or the one is what a check has told
    to be too wide over the same distance."""
    if one.within is None:
        return True
    return other.within is not None and one.within >= other.within


def _shorter(one: Bound | None, other: Bound | None) -> Bound | None:
    """The stricter of two allowances; the one there is."""
    known = [bound for bound in (one, other) if bound is not None]
    return min(known, key=lambda bound: bound.value, default=None)


def _watches(one: Watched, item: Nearby) -> bool:
    if item.monitored is not None:
        return bool(one.tag == item.monitored.name)
    offset = one.source.offset
    return (
        one.place == "nearby item"
        and offset is not None
        and offset.side == item.where.side
        and offset.distance == item.where.distance
    )
