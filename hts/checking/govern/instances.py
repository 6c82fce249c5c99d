"""The entries of a job that a demand is put to: those of one joint, and of all that serves it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from hts.base.quantities import Interval, Quantity
from hts.language.model.instrument import error_at
from hts.language.model.joint import Joint, Treatment
from hts.language.model.side import Side
from hts.language.model.spec import Spec
from hts.language.vocabulary.cycle import Bake, Cycle
from hts.language.vocabulary.declare import Entry, Field
from hts.language.vocabulary.demanded import Target
from hts.language.vocabulary.equipment import Controller, Instrument, PowerSource, Recorder
from hts.language.vocabulary.job import Job, Waive
from hts.language.vocabulary.joint import Joint as JointEntry
from hts.language.vocabulary.material import Filler, Material
from hts.language.vocabulary.preheat import Preheat
from hts.language.vocabulary.segments import Hold

#: Figures of a material that its grade gives where the text does not.
_BY_GRADE = ("p_number", "group", "en_group", "tensile_strength", "lower_critical")


class Root(NamedTuple):
    """An entry of the file with what belongs to it: the side of a material, the treatment; of an
    instrument ``hottest``, the highest hold it serves."""

    entry: Entry
    side: Side | None = None
    treatment: Treatment | None = None
    hottest: Quantity | None = None


class Instance(NamedTuple):
    """One entry a demand is put to, and the root it lies in."""

    entry: Entry
    root: Root

    def value(self, field: Field) -> Any:
        """What it says in a field; None, False or an empty list where it says nothing."""
        if isinstance(self.entry, Instrument) and field.name == "error":
            # In K, also where it is stated as a share: a demand is for the error of a reading.
            return error_at(self.entry, self.root.hottest)
        stated = getattr(self.entry, field.name)
        if stated is None and self.root.side is not None and field.name in _BY_GRADE:
            figure = self.root.side.figure(field.name)
            return None if figure is None else figure.value
        return stated


def roots(spec: Spec, joint: Joint | None, cls: type[Entry]) -> list[Root]:
    """The entries of one kind that serve a joint; of the whole job where there is no joint."""
    if cls is Job:
        return [Root(spec.file.job)] if spec.file.job is not None else []
    if cls is Waive:
        return [Root(waiver) for waiver in spec.waivers]
    return _distinct(_of_joint(joint, cls)) if joint is not None else []


def _of_joint(joint: Joint, cls: type[Entry]) -> Iterator[Root]:
    if cls is JointEntry:
        yield Root(joint.entry)
    elif cls is Material:
        yield from (Root(side.material, side) for side in joint.sides if side.material is not None)
    elif cls is Filler:
        welding = joint.entry.welding
        if welding is not None and welding.filler is not None and welding.filler.target is not None:
            yield Root(welding.filler.target)
    elif cls is Preheat and joint.preheat is not None:
        yield Root(joint.preheat)
    elif cls in (Bake, Cycle):
        for treatment in joint.bakes if cls is Bake else joint.cycles:
            yield Root(treatment.entry, None, treatment)
    elif cls in (Controller, Recorder, PowerSource):
        hottest = _hottest(joint)
        yield from (
            Root(entry, hottest=hottest) for entry in _equipment(joint) if isinstance(entry, cls)
        )
    else:
        stages = (*joint.before, *joint.during, *joint.after)
        yield from (Root(stage) for stage in stages if isinstance(stage, cls))


def _equipment(joint: Joint) -> Iterator[Entry]:
    for treatment in (*joint.bakes, *joint.cycles):
        for entry in (treatment.recorder, treatment.controller, treatment.power_source):
            if entry is not None:
                yield entry
    named = [joint.preheat.recorded_by, joint.preheat.controlled_by] if joint.preheat else []
    for tc in joint.thermocouples:
        named += [tc.entry.recorder, tc.entry.controller]
    for reference in named:
        if reference is not None and reference.target is not None:
            yield reference.target


def _hottest(joint: Joint) -> Quantity | None:
    """The top of the hottest hold of a joint that states its range."""
    tops = [
        segment.range.high
        for treatment in (*joint.bakes, *joint.cycles)
        for segment in treatment.entry.segments
        if isinstance(segment, Hold) and isinstance(segment.range, Interval)
    ]
    return max((top for top in tops if top is not None), default=None)


def _distinct(found: Iterable[Root]) -> list[Root]:
    """Each entry once: both sides may be of one material, all cycles on one recorder."""
    return list({id(root.entry): root for root in found}.values())


def below(root: Root, target: Target) -> list[Instance]:
    """The entries of one root that a target leads to; none where one on the way is missing."""
    found: list[Entry] = [root.entry]
    for field in target.chain:
        assert field.entry is not None
        inner = (each for entry in found for each in _listed(getattr(entry, field.name)))
        found = [each for each in inner if isinstance(each, field.entry)]
    return [Instance(entry, root) for entry in found]


def _listed(value: Any) -> Iterable[Entry]:
    if value is None:
        return ()
    return value if isinstance(value, list | tuple) else (value,)
