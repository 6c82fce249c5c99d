"""Which rows of a compiled job a change reaches, for marks of change on paper."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import Interval, Quantity
from hts.job.comparison.change import Change
from hts.job.comparison.limits_in_force import LimitsInForce, step_by_rule
from hts.job.comparison.registry import NOTE
from hts.job.compiler.derivations import Derivation
from hts.language.model import Spec
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.segments import Cool, Heat, Hold, Segment
from hts.limits import LIMITED

JOINT, ZONE, THERMOCOUPLE, BAND, STEP, LIMIT, SETTING, WORK, DOCUMENT = (
    "joint", "zone", "thermocouple", "band", "step", "limit", "setting", "work", "document",
)  # fmt: skip
_BANDS = ("soak band", "heated band", "gradient band")
_STEPS: dict[str, tuple[type[Segment], ...]] = {
    "hold temperature": (Hold,),
    "bake temperature": (Hold,),
    "hold time": (Hold,),
    "bake time": (Hold,),
    "heating rate": (Heat,),
    "cooling rate": (Cool,),
}
_KINDS: dict[str, type[Segment]] = {"heat": Heat, "hold": Hold, "cool": Cool}


class ChangedRow(NamedTuple):
    """A row of the newer side. `treatment` is the name of a cycle, `bake` or `preheat`, empty for
    what holds for the whole joint; `joint` is empty for the document.

    `part` and `name`: zone and its name, thermocouple and its tag, band and what it is called,
    limit and its quantity, step and its number in the text (`Step.segment` of a compiled
    program, counted from 1), setting and the words of the entry, work and its stage, joint or
    document and the words of the entry.
    """

    joint: str
    treatment: str
    part: str
    name: str


def rows_of(changes: list[Change], old: Spec | None, new: Spec) -> frozenset[ChangedRow]:
    """The rows that changed. What was removed has no row any more."""
    sides = [LimitsInForce(spec) for spec in (old, new) if spec is not None]
    return frozenset(
        row
        for change in changes
        # What a check finds has its cause in another change, which marks its row.
        if change.new is not None and change.area != "check"
        for row in _rows(change, sides, new)
    )


def _rows(change: Change, sides: list[LimitsInForce], new: Spec) -> Iterator[ChangedRow]:
    assert change.new is not None
    name, _, rest = change.new.address.partition("/")
    joint = new.joints.get(name)
    steps = change.path.split(".")
    last = steps[-1]
    if joint is None or (change.area in ("document", "governing")):
        yield ChangedRow("", "", DOCUMENT, last)
    elif change.path in LIMITED:
        yield from _limit(change, sides, joint, rest.rpartition("limits/")[0].rstrip("/"))
    elif steps[0] in ("cycle", "bake"):
        treatment, *below = rest.split("/")
        if change.kind == "order of steps":
            yield from _all_steps(joint, treatment)
            return
        number = _number(joint, treatment, below[0]) if below else None
        if number is not None:
            yield ChangedRow(name, treatment, STEP, str(number))
        else:
            yield ChangedRow(name, treatment, SETTING, steps[1] if len(steps) > 1 else last)
    elif steps[0] == "preheat":
        yield ChangedRow(name, "preheat", SETTING, steps[1] if len(steps) > 1 else last)
    elif steps[0].endswith(" heat"):
        yield ChangedRow(name, "", WORK, steps[0])
    elif steps[:3] == ["joint", "heating", "zone"]:
        yield ChangedRow(name, "", ZONE, rest.split("/")[1])
    elif steps[:3] == ["joint", "thermocouples", "thermocouple"]:
        yield ChangedRow(name, "", THERMOCOUPLE, rest.split("/")[1])
    elif last in _BANDS:
        yield ChangedRow(name, "", BAND, last)
    else:
        yield ChangedRow(name, "", JOINT, last)


def _limit(
    change: Change, sides: list[LimitsInForce], joint: Joint, where: str
) -> Iterator[ChangedRow]:
    """The limit, and what the program takes from it."""
    quantity = change.path
    yield ChangedRow(joint.name, where, LIMIT, quantity)
    if change.verdict == NOTE:
        return
    if quantity in _BANDS:
        yield ChangedRow(joint.name, "", BAND, quantity)
    treatment = _treatment(joint, where)
    if treatment is not None and quantity in _STEPS:
        bounds = _bounds(sides, joint.name, where, quantity)
        above = [bound.above for bound in bounds]
        counts = None if None in above else min(above, key=_size, default=None)
        segments = treatment.entry.segments
        for number, segment in enumerate(segments, 1):
            if (
                isinstance(segment, _STEPS[quantity])
                and any(step_by_rule(segment, quantity, one.direction) for one in bounds)
                and _reaches(segments[:number], counts)
            ):
                yield ChangedRow(joint.name, where, STEP, str(number))


def _bounds(sides: list[LimitsInForce], joint: str, where: str, quantity: str) -> list[Derivation]:
    """What is demanded of a quantity on either side."""
    found = []
    for side in sides:
        read = side.joint(joint)
        treatment = _treatment(read, where) if read is not None else None
        if read is not None and treatment is not None:
            demanded, _ = side.demanded(read, treatment)
            found += [one for one in demanded if one.quantity == quantity]
    return found


def _size(temperature: Quantity | None) -> Fraction:
    return temperature.value if temperature is not None else Fraction(0)


def _reaches(done: list[Segment], counts_from: Quantity | None) -> bool:
    """Whether the last of these steps heats to, or cools from, where a limit counts; so does one
    of which the text does not say."""
    if counts_from is None or isinstance(done[-1], Hold):
        return True
    hottest = done[-1].to if isinstance(done[-1], Heat) else _before(done[:-1])
    return hottest is None or hottest.value > counts_from.value


def _before(done: list[Segment]) -> Quantity | None:
    """The highest temperature after these steps, where the text says it."""
    if not done:
        return None
    last = done[-1]
    if isinstance(last, Hold):
        return last.range.high if isinstance(last.range, Interval) else None
    return last.to if isinstance(last, Heat | Cool) else None


def _all_steps(joint: Joint, treatment: str) -> Iterator[ChangedRow]:
    found = _treatment(joint, treatment)
    for number in range(1, len(found.entry.segments) + 1 if found is not None else 1):
        yield ChangedRow(joint.name, treatment, STEP, str(number))


def _number(joint: Joint, treatment: str, label: str) -> int | None:
    """The place in the text of a step that an address calls the second heating, `heat-2`."""
    word, _, count = label.rpartition("-")
    kind, found = _KINDS.get(word), _treatment(joint, treatment)
    if kind is None or found is None or not count.isdigit():
        return None
    places = [n for n, s in enumerate(found.entry.segments, 1) if isinstance(s, kind)]
    return places[int(count) - 1] if int(count) <= len(places) else None


def _treatment(joint: Joint, name: str) -> Treatment | None:
    return next((t for t in (*joint.bakes, *joint.cycles) if t.name == name), None)
