"""Puts a file and the files it uses together: names, `like`, sides, and who works on what."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from hts.base.findings import Finding, Label, Report
from hts.base.text import Span
from hts.language.model import sides
from hts.language.model.joint import Joint, Thermocouple, Treatment, Zone
from hts.language.model.like import over
from hts.language.model.listed import Listed
from hts.language.model.names import Names
from hts.language.model.numbered import holes
from hts.language.vocabulary import joint as words
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cycle import Treatment as TreatmentEntry
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.procedure import Procedure
from hts.language.vocabulary.required import require_laid_over
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types import Reference

_NAMED = (
    ("procedure", "procedures"),
    ("material", "materials"),
    ("filler", "fillers"),
    ("controller", "controllers"),
    ("recorder", "recorders"),
    ("power source", "power_sources"),
)

#: Joints one after the other, each like the next: nobody could say what the first of them is.
MOST_LIKE = 20


class Resolver:
    """The result is in ``joints``, ``own`` and ``procedures``."""

    def __init__(self, file: File, libraries: list[File], report: Report) -> None:
        self.report = report
        self.names = Names(report, file.uses)
        self.joints: dict[str, Joint] = {}
        self.own: list[Joint] = []
        self.listed = Listed(self.names)
        self._wholes: dict[int, words.Joint] = {}
        #: How many joints lie between one and the first it goes back to.
        self._way: dict[int, int] = {}
        for library in libraries:
            self._declare(library, own=False)
        self._declare(file, own=True)
        for source in [*libraries, file]:
            self._joints(source, own=source is file)
        for entry in (*file.preheats, *file.bakes, *file.cycles):
            self._treatment(entry)
        for stage in ("before", "during", "after"):
            for entry in getattr(file, stage):
                for target in self._targets(entry):
                    getattr(target, stage).append(entry)
        self.listed.untreated(file, self.joints)
        for found in holes(file.weld_lists, self.joints):
            self.report.add(found)
        self.procedures = self._followed(file)

    def _declare(self, file: File, own: bool) -> None:
        for what, field in _NAMED:
            self.names.declare(what, _named(getattr(file, field)), own)
        self.names.declare("weld list", _named(file.weld_lists), own)
        self.names.declare("joint", self.listed.named(file), own)

    def _followed(self, file: File) -> list[Procedure]:
        if file.job is None:
            return list(file.procedures)
        found = [self.names.resolve(reference, file.job) for reference in file.job.follows]
        return [procedure for procedure in found if procedure is not None]

    # Joints ------------------------------------------------------------------------------------

    def _joints(self, file: File, own: bool) -> None:
        for name, entry, _ in self.listed.named(file):
            if self.names.find("joint", name) is not entry:
                continue
            whole = self._whole(name, entry, ())
            made = self._joint(name, whole if whole is not None else entry)
            made.row = self.listed.row(name, entry)
            self.joints[name] = made
            if own:
                self.own.append(made)

    def _whole(
        self, name: str, entry: words.Joint, chain: tuple[words.Joint, ...]
    ) -> words.Joint | None:
        """The joint with all it has from the one it is like; None in a circle, and where the way
        to the first of them is too long."""
        known = self._wholes.get(id(entry))
        if known is None:
            known = self._laid_over(name, entry, chain)
            if known is not None:
                self._wholes[id(entry)] = known
        return known

    def _laid_over(
        self, name: str, entry: words.Joint, chain: tuple[words.Joint, ...]
    ) -> words.Joint | None:
        row = self.listed.row(name, entry)
        if row is not None and row is not entry:
            below = self._whole(name, row, (*chain, entry))
            if below is None:
                return None
            self._nothing_left_out(name, entry, below)
            return self._laid(below, entry)
        if entry.like is None:
            self._nothing_left_out(name, entry, None)
            return entry
        base = self.names.resolve(entry.like, entry)
        if base is None:
            return entry
        if base is entry or base in chain:
            entry.sound = False
            self.report.add(
                Finding(
                    mistakes.UNKNOWN_NAME,
                    f"joint {name} is like itself, by way of {entry.like.name}",
                    Label(entry.source.span(entry.like.start, entry.like.end)),
                    address=name,
                    help="begin one of the joints without `like`",
                )
            )
            return None
        whole = None
        if len(chain) < MOST_LIKE:
            whole = self._whole(entry.like.name, base, (*chain, entry))
            self._way[id(entry)] = self._way.get(id(base), 0) + 1
        else:
            self._way[id(entry)] = MOST_LIKE + 1
        if self._way[id(entry)] > MOST_LIKE:
            # Told of the joint that is asked for, not of those that lie between.
            if not chain:
                self._too_far(name, entry)
            return None
        if whole is None:
            return None
        self._nothing_left_out(name, entry, whole)
        return self._laid(whole, entry)

    def _too_far(self, name: str, entry: words.Joint) -> None:
        """To go on would take the longer the more joints there are, and end at no answer."""
        assert entry.like is not None
        entry.sound = False
        self.report.add(
            Finding(
                mistakes.UNKNOWN_NAME,
                f"joint {name} is like a joint that is like another, more than {MOST_LIKE} times",
                Label(entry.source.span(entry.like.start, entry.like.end)),
                address=name,
                help="make it like the joint that they all go back to",
            )
        )

    def _laid(self, below: words.Joint, entry: words.Joint) -> words.Joint:
        made = over(below, entry)
        require_laid_over(made, self.report)
        return made

    def _nothing_left_out(self, name: str, entry: words.Joint, base: words.Joint | None) -> None:
        """Reports a `without` for what is not there to be left out."""
        fields = {" ".join(field.words): field.name for field in words.Joint.fields.values()}
        for stated in entry.without:
            if base is None or not getattr(base, fields[stated]):
                self._idle(name, entry, stated, base)
        for part, each in (("heating", "zones"), ("thermocouples", "each")):
            block, below = getattr(entry, part), getattr(base, part, None)
            for reference in block.without if block is not None else ():
                known = {member.name for member in getattr(below, each, ())}
                if reference.name not in known:
                    self._idle(name, block, reference.name, base)

    def _idle(self, name: str, entry: Entry, stated: str, base: words.Joint | None) -> None:
        message = (
            f"the joint {name} is like has no {stated}"
            if base
            else f"{name} is not `like` another joint"
        )
        self.report.add(
            Finding(
                mistakes.NOTHING_LEFT_OUT,
                message,
                Label(entry.place("without")),
                address=entry.address or name,
            )
        )

    def _joint(self, name: str, entry: words.Joint) -> Joint:
        made = Joint(name, entry)
        made.sides = sides.of(entry, name, self.names, self.report)
        if entry.welding is not None:
            self.names.resolve(entry.welding.filler, entry.welding)
        self._heating(made)
        self._thermocouples(made)
        for plate in made.entry.test_plates:
            self.names.resolve(plate.material, plate)
        made.sound = made.sound and entry.sound and _all_sound(entry)
        return made

    def _heating(self, made: Joint) -> None:
        heating = made.entry.heating
        if heating is None:
            return
        made.zones = [Zone(made, entry) for entry in _once(heating.zones, "zone", self.report)]
        for heater in heating.heaters:
            self._local(heater.zone, heater, {zone.name: zone for zone in made.zones})

    def _thermocouples(self, made: Joint) -> None:
        block = made.entry.thermocouples
        if block is None:
            return
        entries = _once(block.each, "thermocouple", self.report)
        made.thermocouples = [Thermocouple(made, entry) for entry in entries]
        by_tag = {tc.tag: tc for tc in made.thermocouples}
        zones = {zone.name: zone for zone in made.zones}
        for tc in made.thermocouples:
            tc.zone = self._local(tc.entry.controls, tc.entry, zones)
            if tc.zone is not None:
                tc.zone.controls.append(tc)
            tc.spare_of = self._local(tc.entry.spare_for, tc.entry, by_tag)
            self.names.resolve(tc.entry.recorder, tc.entry)
            self.names.resolve(tc.entry.controller, tc.entry)
        for tc in made.thermocouples:
            if tc.spare_of is not None and tc.zone is None:
                tc.zone = tc.spare_of.zone
        for item in made.entry.nearby:
            self._local(item.monitored, item, by_tag)
        for plate in made.entry.test_plates:
            self._local(plate.monitored_by, plate, by_tag)

    def _local(self, reference: Reference | None, owner: Entry, known: dict[str, Any]) -> Any:
        """What a name stands for inside its joint."""
        if reference is None:
            return None
        found = known.get(reference.name)
        if found is None:
            self.names.unknown(reference, owner, known)
        return found

    # Treatments --------------------------------------------------------------------------------

    def _treatment(self, entry: Any) -> None:
        for target in self._targets(entry):
            if not isinstance(entry, TreatmentEntry):
                if target.preheat is not None:
                    self._twice(entry, target.preheat, f"joint {target.name} has two preheats")
                else:
                    target.preheat = entry
                continue
            made = Treatment(target, entry)
            made.recorder = self.names.resolve(entry.recorded_by, entry)
            made.controller = self.names.resolve(entry.controlled_by, entry)
            made.power_source = self.names.resolve(entry.powered_by, entry)
            into = target.bakes if made.is_bake else target.cycles
            for other in into:
                if other.name == made.name:
                    self._twice(entry, other.entry, f"joint {target.name} has two {made.name}s")
            into.append(made)
        if not isinstance(entry, TreatmentEntry):
            self.names.resolve(entry.recorded_by, entry)
            self.names.resolve(entry.controlled_by, entry)

    def _twice(self, entry: Entry, first: Entry, message: str) -> None:
        self.report.add(
            Finding(
                mistakes.REPEATED_NAME,
                message,
                Label(entry.place()),
                address=entry.address,
                others=[Label(first.place(), "the first one")],
                help="keep one of them",
            )
        )

    def _targets(self, entry: Any) -> Iterable[Joint]:
        entry.joints = list(self.listed.each(entry))
        for reference in entry.joints:
            found = self.names.resolve(reference, entry)
            if found is not None:
                reference.target = self.joints[reference.name]
                yield self.joints[reference.name]


def _named(entries: Iterable[Any]) -> list[tuple[str, Any, Span]]:
    return [(e.name, e, e.place("name")) for e in entries if isinstance(e.name, str)]


def _once(entries: list[Any], what: str, report: Report) -> list[Any]:
    """The entries with a readable name, each name once."""
    seen: dict[str, Any] = {}
    for entry in entries:
        if not isinstance(entry.name, str):
            continue
        if entry.name in seen:
            report.add(
                Finding(
                    mistakes.REPEATED_NAME,
                    f"there are two {what}s named {entry.name}",
                    Label(entry.place("name")),
                    address=entry.address,
                    others=[Label(seen[entry.name].place("name"), "the first one")],
                    help="give each a name of its own",
                )
            )
            continue
        seen[entry.name] = entry
    return list(seen.values())


def _all_sound(entry: words.Joint) -> bool:
    inner = [entry.heating, entry.thermocouples]
    parts: list[Any] = [part for part in inner if part is not None]
    if entry.heating is not None:
        parts += entry.heating.zones
    if entry.thermocouples is not None:
        parts += entry.thermocouples.each
    return all(part.sound for part in parts)
