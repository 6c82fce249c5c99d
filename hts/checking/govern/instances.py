"""The entries of a job that a demand is put to: those of one joint, and of all that serves it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from hts.base.quantities import LENGTH, Interval, Quantity
from hts.language.model.apart import apart
from hts.language.model.instrument import error_at
from hts.language.model.joint import Joint, Thermocouple, Treatment
from hts.language.model.orientation import Orientation
from hts.language.model.side import Side
from hts.language.model.spec import Spec
from hts.language.vocabulary.cycle import Bake, Cycle
from hts.language.vocabulary.declare import WORKED_OUT, Entry, Field
from hts.language.vocabulary.demanded import Target
from hts.language.vocabulary.equipment import Controller, Instrument, PowerSource, Recorder
from hts.language.vocabulary.heating import Heating
from hts.language.vocabulary.job import Job, Waive
from hts.language.vocabulary.joint import Joint as JointEntry
from hts.language.vocabulary.material import Filler, Material
from hts.language.vocabulary.preheat import Preheat
from hts.language.vocabulary.segments import Hold
from hts.language.vocabulary.thermocouples import Thermocouple as ThermocoupleEntry
from hts.language.vocabulary.types import Offset

#: Figures of a material that its grade gives where the text does not.
_BY_GRADE = ("p_number", "group", "en_group", "tensile_strength", "lower_critical")


class Since(NamedTuple):
    """A time that has been running since a day (ISO date), and still runs."""

    day: str


class Root(NamedTuple):
    """An entry of the file with what belongs to it: the side of a material, the treatment; of an
    instrument ``hottest``, the highest hold it serves; the joint where it is one."""

    entry: Entry
    side: Side | None = None
    treatment: Treatment | None = None
    hottest: Quantity | None = None
    joint: Joint | None = None


class Instance(NamedTuple):
    """One entry a demand is put to, and the root it lies in."""

    entry: Entry
    root: Root

    def value(self, field: Field) -> Any:
        """What it says in a field; None, False or an empty list where it says nothing."""
        if isinstance(self.entry, Instrument) and field.name == "error":
            # In K, also where it is stated as a share: a demand is for the error of a reading.
            return error_at(self.entry, self.root.hottest)
        if field.form == WORKED_OUT or (field.name == "at" and self.thermocouple is not None):
            return self._worked_out(field)
        stated = getattr(self.entry, field.name)
        if stated is None and self.root.side is not None and field.name in _BY_GRADE:
            figure = self.root.side.figure(field.name)
            return None if figure is None else figure.value
        if stated is None and isinstance(self.entry, Heating) and field.name == "zone_count":
            # Zones are counted from their lines where their number is not said.
            return len(self.root.joint.zones) or None if self.root.joint is not None else None
        return stated

    @property
    def thermocouple(self) -> Thermocouple | None:
        """The thermocouple of the joint that the entry is, if it is one."""
        if not isinstance(self.entry, ThermocoupleEntry) or self.root.joint is None:
            return None
        return next((tc for tc in self.root.joint.thermocouples if tc.entry is self.entry), None)

    @property
    def side(self) -> tuple[str, int] | None:
        """The end of the pipe it lies toward in words, and the sign of that end; None on the weld
        and where the text does not tell."""
        fields = type(self.entry).fields.values()
        offsets = (getattr(self.entry, f.name) for f in fields if isinstance(f.type, Offset))
        offset = next((each for each in offsets if each is not None), None)
        if offset is None or self.root.joint is None or not offset.distance.value:
            return None
        return offset.side, Orientation(self.root.joint.entry).along(offset.side)[1]

    def _worked_out(self, field: Field) -> Any:
        """What follows from the entry and the joint it belongs to; None where it is not told."""
        if isinstance(self.entry, Instrument):
            return Since(self.entry.calibrated.on) if self.entry.calibrated is not None else None
        tc = self.thermocouple
        if tc is None:
            return None
        if field.name == "at":
            # By the arc, where the text gives that.
            return tc.position
        distance = apart(tc, tc.spare_of) if tc.spare_of is not None else None
        return None if distance is None else Quantity.of(distance, "mm", LENGTH)


def roots(spec: Spec, joint: Joint | None, cls: type[Entry]) -> list[Root]:
    """The entries of one kind that serve a joint; of the whole job where there is no joint."""
    if cls is Job:
        return [Root(spec.file.job)] if spec.file.job is not None else []
    if cls is Waive:
        return [Root(waiver) for waiver in spec.waivers]
    return _distinct(_of_joint(joint, cls)) if joint is not None else []


def _of_joint(joint: Joint, cls: type[Entry]) -> Iterator[Root]:
    if cls is JointEntry:
        yield Root(joint.entry, joint=joint)
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


def home(root: Root, target: Target) -> Entry:
    """The entry in whose block what a target leads to stands, or would have to stand; the last on
    the way that is there."""
    for length in range(len(target.chain) - 1, 0, -1):
        found = below(root, target._replace(chain=target.chain[:length]))
        if found:
            return found[-1].entry
    return root.entry


def _listed(value: Any) -> Iterable[Entry]:
    if value is None:
        return ()
    return value if isinstance(value, list | tuple) else (value,)
