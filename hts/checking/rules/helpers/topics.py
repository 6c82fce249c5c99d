"""What words of a job may be about, and the figures that its entries give for each."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import NamedTuple

from hts.base.quantities import LENGTH, TEMPERATURE, TIME, Dimension, Quantity
from hts.base.quantities.number import short_text
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.helpers.steps import hold_range, treated
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.segments import Hold


class Known(NamedTuple):
    """What an entry gives for a topic: from ``low`` to ``high``, as it is told, and where."""

    low: Quantity
    high: Quantity
    said: str
    at: Span


_OfJoint = Callable[[Case, Joint], Iterator[Known | None]]


class Topic(NamedTuple):
    """What a word stands for: the figures of a dimension and what the entries give. None among
    these: an entry gives what is not known, and any figure may be right."""

    what: str
    words: re.Pattern[str]
    dimension: Dimension
    known: _OfJoint


def _held(case: Case, treatments: list[Treatment]) -> Iterator[Known | None]:
    for treatment in treatments:
        for segment in treatment.entry.segments:
            if isinstance(segment, Hold):
                held = hold_range(case, treatment, segment)
                if held is None or held.low is None or held.high is None:
                    yield None
                else:
                    said = f"{str(held.low).split()[0]} .. {held.high}"
                    yield Known(held.low, held.high, said, segment.place("range"))


def _times(case: Case, treatments: list[Treatment]) -> Iterator[Known | None]:
    for treatment in treatments:
        for segment in treatment.entry.segments:
            if isinstance(segment, Hold):
                least = case.limits(treatment.joint, treatment).hold_time(segment)
                if least is None:
                    yield None
                else:
                    most = segment.longest or least
                    said = f"{least}" if most == least else f"{least} to {most}"
                    yield Known(least, max(least, most), said, segment.place("time"))


def _preheats(case: Case, joint: Joint) -> Iterator[Known | None]:
    preheat = joint.preheat
    if preheat is None:
        return
    asked = case.limits(joint).preheat()
    yield _at(asked, preheat.place("at_least"))
    for field in ("maintain", "at_most"):
        value = getattr(preheat, field)
        if isinstance(value, Quantity):
            yield _at(value, preheat.place(field))


def _interpass(case: Case, joint: Joint) -> Iterator[Known | None]:
    interpass = joint.preheat.interpass if joint.preheat is not None else None
    if interpass is None:
        return
    yield _at(case.limits(joint).interpass(), interpass.place("at_most"))
    if interpass.at_least is not None:
        yield _at(interpass.at_least, interpass.place("at_least"))


def _band(name: str) -> _OfJoint:
    def known(case: Case, joint: Joint) -> Iterator[Known | None]:
        heating = joint.entry.heating
        stated = getattr(heating, f"{name}_band") if heating is not None else None
        if heating is None or stated is None:
            return
        width = limits_of(case, joint).band(f"{name} band")
        at = heating.place(f"{name}_band")
        yield _at(width, at)
        if width is not None:
            yield _at(width / 2, at)

    return known


def _sizes(case: Case, joint: Joint) -> Iterator[Known | None]:
    """Nominal sizes, as lengths in inches."""
    for side in joint.sides:
        if side.nominal_size is None:
            yield None
        else:
            size = Quantity.of(side.nominal_size, "in", LENGTH)
            yield Known(size, size, f"NPS {short_text(side.nominal_size, 3)}", joint.place("names"))


def _waits(case: Case, joint: Joint) -> Iterator[Known | None]:
    for treatment in _cycles(joint):
        cycle = treatment.cycle
        if cycle is not None and cycle.delay is not None:
            yield _at(cycle.delay, cycle.place("delay"))


def _at(value: Quantity | None, at: Span) -> Known | None:
    return Known(value, value, str(value), at) if value is not None else None


def _cycles(joint: Joint) -> list[Treatment]:
    return [each for each in treated(joint) if each.entry.sound]


_HOLD = r"stress[- ]reli\w+|PWHT|post[- ]weld heat treat\w+|temper(?:ing|ed)?|hold(?! point)|held|soaking"
_BAKE = r"bak(?:e|ed|ing)(?:-out)?|hydrogen release|post[- ]?heat(?:ing)?"
TOPICS = (
    Topic("hold", re.compile(_HOLD, re.I), TEMPERATURE, lambda c, j: _held(c, _cycles(j))),
    Topic("hold", re.compile(_HOLD, re.I), TIME, lambda c, j: _times(c, _cycles(j))),
    Topic("bake", re.compile(_BAKE, re.I), TEMPERATURE, lambda c, j: _held(c, j.bakes)),
    Topic("bake", re.compile(_BAKE, re.I), TIME, lambda c, j: _times(c, j.bakes)),
    Topic("preheat", re.compile(r"preheat(?:ed|ing)?", re.I), TEMPERATURE, _preheats),
    Topic("interpass", re.compile(r"interpass", re.I), TEMPERATURE, _interpass),
    *(
        Topic(f"{name} band", re.compile(f"{name} band", re.I), LENGTH, _band(name))
        for name in ("soak", "heated", "gradient")
    ),
)
#: How long a weld may wait.
WAIT = Topic(
    "wait", re.compile(r"\b(?:wait|delay)\b.*(?:weld|temper|treat|stress|PWHT)", re.I), TIME, _waits
)
ANY = re.compile("|".join(topic.words.pattern for topic in TOPICS), re.IGNORECASE)
SIZE = Topic("size", re.compile("NPS"), LENGTH, _sizes)
