"""Whether the welding qualification named in the text still covers the joint, before and after.

Each question is put to either side by itself, so that what stops being covered one way is covered
again the other way. The paragraphs of ASME IX are known from quotations only.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import DIFFERENCE, Interval, Quantity
from hts.base.quantities.number import short_text
from hts.job.comparison.canonical import exact
from hts.job.comparison.change import Change, Side, make, under
from hts.job.comparison.limits_in_force import LimitsInForce
from hts.job.comparison.lookup import named
from hts.job.comparison.registry import ADDED, CHANGED, LOOSENED, NOTE, REMOVED, TIGHTENED, Action
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.joint import Qualified
from hts.language.vocabulary.segments import Hold
from hts.science.metallurgy.qualification import longest_production

COVERED, OPEN, UNCOVERED = "covered", "open", "not covered"

UNTREATED, BELOW = "without heat treatment", "below lower critical"
ABOVE = "above upper then below lower critical"
#: Purpose of a cycle -> condition it leaves the weld in.
_CONDITIONS = {"stress relief": BELOW, "tempering": BELOW, "normalize and temper": ABOVE}
#: A drop of more than this needs another qualification (QW-406.4: 100 degF).
DROP = Quantity.of(100, "degF", DIFFERENCE)
#: The hold range of a test piece covers so much more on either side (ISO 15614-1, from memory).
_BESIDE = Quantity.of(20, "K", DIFFERENCE)
#: Above the upper critical temperature the wall is at most so many times the test piece's
#: (QW-407.4).
_THICKER = Fraction(11, 10)


class Standing(NamedTuple):
    """The answer for one side: `text` shows the figures, `facts` are those it hangs on, `far` how
    far the joint is from the test piece, the more the worse (None: no more and less)."""

    state: str
    text: str
    facts: tuple[str, ...]
    far: Fraction | None = None
    lacks: str = ""


class _Side(NamedTuple):
    """A joint with its treatments that have steps, and its limits, on one side."""

    force: LimitsInForce
    joint: Joint

    @property
    def cycles(self) -> list[Treatment]:
        return [t for t in self.force.treatments(self.joint) if not t.is_bake and t.entry.segments]

    @property
    def bakes(self) -> list[Treatment]:
        return [t for t in self.force.treatments(self.joint) if t.is_bake]

    def holds(self) -> list[tuple[Treatment, Hold]]:
        return [(c, s) for c in self.cycles for s in c.entry.segments if isinstance(s, Hold)]

    def condition(self) -> str | None:
        """The condition the weld goes into service in; None where the text does not say."""
        if not self.cycles:
            return UNTREATED
        purposes = {c.cycle.purpose for c in self.cycles if c.cycle is not None}
        found = {_CONDITIONS.get(purpose or "") for purpose in purposes}
        if found == {None}:
            return BELOW if self._stays_below() else None
        found.discard(None)
        return ABOVE if ABOVE in found else BELOW

    def _stays_below(self) -> bool:
        """Whether every hold stays below every lower critical temperature, as far as known."""
        tops = [self.force.limits(self.joint, c).hold_range(h) for c, h in self.holds()]
        figures = [side.figure("lower_critical") for side in self.joint.sides]
        known = [f.value for f in figures if f is not None and isinstance(f.value, Quantity)]
        return bool(
            tops
            and len(known) == len(figures)
            and all(t is not None and t.high is not None and t.high < min(known) for t in tops)
        )


Question = Callable[[_Side, Qualified | None], Standing]


def requalifications(
    old: LimitsInForce, new: LimitsInForce, joints: list[tuple[str, str]]
) -> Iterator[Change]:
    """What the qualification of these joints covers no longer, covers again, or cannot be told."""
    for before, after in joints:
        mine, theirs = old.joint(before), new.joint(after)
        if mine is not None and theirs is not None and _read(mine) and _read(theirs):
            for kind, question in QUESTIONS.items():
                first = _asked(question, _Side(old, mine))
                second = _asked(question, _Side(new, theirs))
                yield from _compared(kind, first, second, before, after)


def _read(joint: Joint) -> bool:
    """Whether all that is done to the joint could be read."""
    return all(treatment.entry.sound for treatment in (*joint.bakes, *joint.cycles))


def _asked(question: Question, side: _Side) -> Standing:
    """The worst answer for any of the records: every one of them has to fit."""
    records: Sequence[Qualified | None] = side.joint.entry.qualified or [None]
    answers = [question(side, record) for record in records]
    order = (UNCOVERED, OPEN, COVERED)
    worst = min(answers, key=lambda a: (order.index(a.state), -(a.far or 0)))
    return worst._replace(facts=tuple(sorted({fact for a in answers for fact in a.facts})))


def _compared(kind: str, old: Standing, new: Standing, before: str, after: str) -> Iterator[Change]:
    if old.state == new.state and (old.facts == new.facts or new.state == COVERED):
        return
    mine, theirs = _side(old, before, kind), _side(new, after, kind)
    if UNCOVERED in (old.state, new.state):
        row = named("requalification", kind)
        if old.state == new.state:
            yield make(kind, row, CHANGED, mine, theirs)
        elif new.state == UNCOVERED:
            yield make(kind, row, ADDED, None, theirs)
        else:
            cover = "covers it" if new.state == COVERED else "may cover it"
            yield under(make(kind, row, REMOVED, mine, None), NOTE, f"the qualification {cover}")
    if OPEN not in (old.state, new.state):
        return
    row = named("requalification", f"{kind}, undecided")
    if old.state == new.state:
        yield make(kind, row, _way(old, new), mine, theirs, lacks=new.lacks)
    elif new.state == OPEN:
        yield make(kind, row, ADDED, None, theirs, lacks=new.lacks)
    else:
        yield under(make(kind, row, REMOVED, mine, None), NOTE, "it can be told now")


def _way(old: Standing, new: Standing) -> Action:
    if old.far is None or new.far is None or old.far == new.far:
        return CHANGED
    return LOOSENED if new.far > old.far else TIGHTENED


def _side(standing: Standing, joint: str, kind: str) -> Side:
    address = f"{joint}/qualified/{kind.replace(' ', '-')}"
    return Side(address, standing.text, "; ".join(standing.facts), None)


def _name(record: Qualified | None) -> str:
    return record.record if record is not None else "the qualification"


# The questions -------------------------------------------------------------------------------


def _condition(side: _Side, record: Qualified | None) -> Standing:
    """QW-407.1: each heat-treatment condition is qualified by itself."""
    wanted = side.condition()
    tested = record.condition if record is not None else None
    text = f"{wanted or 'condition not known'}; {_name(record)}: {tested or 'not stated'}"
    facts = (f"{wanted}", f"{tested}")
    if wanted is None or tested is None:
        lacks = (
            "the purpose of the cycle"
            if wanted is None
            else f"the heat-treatment condition of {_name(record)}"
        )
        return Standing(OPEN, text, facts, lacks=lacks)
    return Standing(COVERED if wanted == tested else UNCOVERED, text, facts)


def _time(side: _Side, record: Qualified | None) -> Standing:
    """QW-407.2: the test piece had at least 80 % of all the time at temperature."""
    total = sum(
        (past_heating.time.value for past_heating in side.joint.entry.earlier if past_heating.time),
        Fraction(0),
    )
    for cycle, hold in side.holds():
        time = hold.longest or side.force.limits(side.joint, cycle).hold_time(hold)
        total += time.value if time is not None else 0
    tested = record.hold if record is not None else None
    tough = record is not None and record.toughness
    shown = _hours(total)
    facts = (f"{total} s", exact(tested) if tested else "", str(tough))
    if tested is None:
        text = f"{shown} at temperature; time of {_name(record)} not stated"
        lacks = f"the time at temperature of {_name(record)}"
        return Standing(OPEN if total else COVERED, text, facts, total, lacks)
    allowed = longest_production(tested.value)
    text = f"{shown} at temperature; {_name(record)} with {tested} covers {_hours(allowed)}"
    if total <= allowed:
        return Standing(COVERED, text, facts, total)
    if tough:
        return Standing(UNCOVERED, text, facts, total)
    return Standing(OPEN, text, facts, total, "whether toughness is required")


def _thickness(side: _Side, record: Qualified | None) -> Standing:
    """QW-407.4: above the upper critical temperature, at most 1.1 times the test piece."""
    walls = [s.wall.value for s in side.joint.sides if s.wall is not None]
    known = [wall for wall in walls if isinstance(wall, Quantity)]
    if side.condition() != ABOVE or not known:
        return Standing(COVERED, "", ())
    thickest = max(known)
    tested = record.thickness if record is not None else None
    facts = (exact(thickest), exact(tested) if tested else "")
    if tested is None:
        text = f"wall {thickest}; thickness of {_name(record)} not stated"
        lacks = f"the thickness of {_name(record)}"
        return Standing(OPEN, text, facts, thickest.value, lacks)
    text = f"wall {thickest}; {_name(record)} with {tested} covers 1.1 times that"
    state = COVERED if thickest.value <= _THICKER * tested.value else UNCOVERED
    return Standing(state, text, facts, thickest.value)


def _preheat(side: _Side, record: Qualified | None) -> Standing:
    """QW-406.4: a drop of more than 100 degF."""
    least = side.force.limits(side.joint).preheat()
    tested = record.preheat if record is not None else None
    facts = (exact(least) if least else "none", exact(tested) if tested else "")
    far = -least.value if least is not None else None
    shown = f"preheat {least}" if least is not None else "no preheat known"
    if tested is None:
        text = f"{shown}; preheat of {_name(record)} not stated"
        return Standing(OPEN, text, facts, far, f"the preheat of {_name(record)}")
    text = f"{shown}; {_name(record)} was preheated to {tested}"
    if least is None:
        return Standing(OPEN, text, facts, far, "the preheat")
    return Standing(UNCOVERED if tested - least > DROP else COVERED, text, facts, far)


def _interpass(side: _Side, record: Qualified | None) -> Standing:
    """QW-406.4: a rise; the language has no entry for the interpass temperature of a test."""
    highest = side.force.limits(side.joint).interpass()
    facts = (exact(highest) if highest is not None else "none",)
    text = f"interpass {highest}" if highest is not None else "no interpass temperature known"
    lacks = f"the interpass temperature of {_name(record)}"
    return Standing(OPEN, text, facts, highest.value if highest is not None else None, lacks)


def _release(side: _Side, record: Qualified | None) -> Standing:
    """QW-406.11: a hydrogen release added or left out."""
    baked = bool(side.bakes)
    text = "with a hydrogen release" if baked else "without a hydrogen release"
    if record is None:
        return Standing(OPEN, text, (str(baked),), lacks="the qualification record")
    tested = "baked" if record.baked else "not said to be baked"
    text = f"{text}; {record.record} {tested}"
    state = COVERED if baked == record.baked else UNCOVERED
    return Standing(state, text, (str(baked), str(record.baked)))


def _range(side: _Side, record: Qualified | None) -> Standing:
    """ISO 15614-1: the hold range of the test piece and 20 K on either side."""
    tested = record.temperature if record is not None else None
    if record is None or tested is None or tested.low is None or tested.high is None:
        return Standing(COVERED, "", ())
    allowed = Interval(tested.low - _BESIDE, tested.high + _BESIDE)
    ranges = [side.force.limits(side.joint, c).hold_range(h) for c, h in side.holds()]
    outside = [r for r in ranges if r is not None and not allowed.contains(r)]
    if not outside:
        return Standing(COVERED, "", ())
    text = f"hold {outside[0].show()}; {record.record} at {tested.show()} covers 20 K beside it"
    facts = tuple(f"{exact(end)}" for r in outside for end in (r.low, r.high) if end is not None)
    return Standing(OPEN, text, facts, lacks="whether the weld is qualified to ISO 15614-1")


def _hours(seconds: Fraction) -> str:
    return f"{short_text(seconds / 3600, 2)} h"


QUESTIONS: dict[str, Question] = {
    "heat-treatment condition": _condition,
    "time at temperature": _time,
    "thickness above upper critical": _thickness,
    "preheat drop": _preheat,
    "interpass rise": _interpass,
    "hydrogen release": _release,
    "hold range of the test piece": _range,
}
