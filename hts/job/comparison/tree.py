"""A specification as a tree of things with their facts, names resolved.

Every joint stands there with all that holds for it: what it has from the joint it is like, the size
and material of its sides, the treatments and the work that name it. Where something is written, in
this file or in one it uses, in one block or in several, makes no difference.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from hts.base.quantities import Quantity
from hts.base.quantities.clock import ClockPosition
from hts.job.comparison.canonical import exact
from hts.job.comparison.facts import Fact, SpecNode, fact_of, node_of, only, put_facts
from hts.job.comparison.unsaid import target
from hts.language.model import Spec
from hts.language.model.joint import Joint, Treatment
from hts.language.model.side import Figure, Side
from hts.language.vocabulary import joint as words
from hts.language.vocabulary import sides
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.segments import Hold
from hts.language.vocabulary.work import Work

#: What a joint says of its sides is told side by side, its names by the things themselves.
_RESOLVED = frozenset(("names", "like", "row", "between", "pipe", "wall", "sides"))
_JOINTS = frozenset(("joints", "together"))
_SHARED = ("materials", "fillers", "controllers", "recorders", "power_sources")
_PATHS = {
    "materials": "material",
    "fillers": "filler",
    "controllers": "controller",
    "recorders": "recorder",
    "power_sources": "power source",
}


def tree_of(spec: Spec) -> SpecNode:
    """The whole specification. The root has no facts of its own."""
    return _Builder(spec).root


class _Builder:
    def __init__(self, spec: Spec) -> None:
        self.spec = spec
        #: Things made from an entry, for all the joints that share it.
        self._made: dict[tuple[int, ...], SpecNode] = {}
        file = spec.file
        self.root = SpecNode("", file, "")
        if file.version is not None:
            self._put("version", node_of(file.version, "spec", "spec"))
        # What has a name comes before what may refer to it, so that a new name is known by then.
        for procedure in _named(spec.procedures, file.procedures):
            self._put("procedures", node_of(procedure, "procedure", procedure.name))
        for field in _SHARED:
            for entry in self._shared(field):
                self._put(field, node_of(entry, _PATHS[field], entry.name))
        if file.job is not None:
            self._put("job", only(node_of(file.job, "job", "job")))
        for joint in _joints(spec):
            self._put("joints", self._joint(joint))
        for waiver in file.waivers:
            label = f"waive[{waiver.rule} on {waiver.on}]"
            self._put("waivers", node_of(waiver, "waive", label))
        for results in file.results:
            found = node_of(results, "results", f"results[{', '.join(results.joints)}]")
            # What was found on the same joints is the same thing, wherever it stands.
            found.key = found.label
            self._put("results", found)

    def _put(self, group: str, node: SpecNode) -> None:
        self.root.children.setdefault(group, []).append(node)

    def _shared(self, field: str) -> list[Any]:
        """The file's own things of a kind, and those of used files that a joint needs."""
        needed = (entry for joint in _joints(self.spec) for entry in _needed(joint, field))
        return _named(getattr(self.spec.file, field), needed)

    # One joint ----------------------------------------------------------------------------------

    def _joint(self, joint: Joint) -> SpecNode:
        made = self._once((id(joint.entry),), lambda: _joint_thing(joint)).called(joint.name)
        if joint.preheat is not None:
            made.children["preheat"] = [self._treatment(joint.preheat, "preheat", "preheat")]
        for group, treatments in (("bakes", joint.bakes), ("cycles", joint.cycles)):
            nodes = [self._of(treatment) for treatment in treatments]
            if nodes:
                made.children[group] = nodes
        for stage in ("before", "during", "after"):
            entries = getattr(joint, stage)
            if entries:
                made.children[stage] = [self._stage(entries, f"{stage} heat")]
        return made

    def _of(self, treatment: Treatment) -> SpecNode:
        cycle = treatment.cycle
        if cycle is None:
            return self._treatment(treatment.entry, "bake", "bake")
        name = treatment.name or "cycle"
        node = self._treatment(cycle, "cycle", name).called(name)
        for other in cycle.joints if cycle.together else ():
            if other.name != treatment.joint.name:
                node.facts[f"together[{other.name}]"] = Fact(
                    "cycle.together", other.name, other, cycle, "joints", refers="joint"
                )
        return node

    def _treatment(self, entry: Entry, path: str, label: str) -> SpecNode:
        return self._once((id(entry),), lambda: _treatment_thing(entry, path, label))

    def _stage(self, entries: list[Work], path: str) -> SpecNode:
        return self._once(tuple(map(id, entries)), lambda: _stage_thing(entries, path))

    def _once(self, entry: tuple[int, ...], make: Any) -> SpecNode:
        if entry not in self._made:
            self._made[entry] = make()
        return self._made[entry]


def _joints(spec: Spec) -> list[Joint]:
    """The file's own joints, and those of used files that it treats."""
    own = set(map(id, spec.own))
    return [
        joint
        for joint in spec.joints.values()
        if id(joint) in own or joint.cycles or joint.bakes or joint.preheat
    ]


def _named(*groups: Iterable[Any]) -> list[Any]:
    """Each entry once, if its name could be read."""
    found = {id(entry): entry for group in groups for entry in group}
    return [entry for entry in found.values() if isinstance(entry.name, str)]


def _needed(joint: Joint, field: str) -> list[Any]:
    """What a joint refers to in another block."""
    found: list[Any] = []
    if field == "materials":
        found = [side.material for side in joint.sides]
    elif field == "fillers":
        welding = joint.entry.welding
        found = [welding.filler.target] if welding is not None and welding.filler else []
    else:
        role = {
            "controllers": "controlled_by",
            "recorders": "recorded_by",
            "power_sources": "powered_by",
        }[field]
        entries = [t.entry for t in (*joint.bakes, *joint.cycles)]
        references = [getattr(entry, role, None) for entry in (*entries, joint.preheat)]
        own = {"controlled_by": "controller", "recorded_by": "recorder"}.get(role)
        if own is not None:
            references += [getattr(tc.entry, own) for tc in joint.thermocouples]
        found = [reference.target for reference in references if reference is not None]
    return [entry for entry in found if entry is not None]


def _joint_thing(joint: Joint) -> SpecNode:
    made = node_of(joint.entry, "joint", joint.name, _RESOLVED)
    # A side has no name where that could not be read.
    sides = [_side(joint.entry, side) for side in joint.sides if side.name]
    if sides:
        made.children["sides"] = sides
    block = joint.entry.thermocouples
    if block is not None:
        thing = made.children["thermocouples"][0]
        _clocks(joint, thing)
        if block.channel_offset:
            _shift(thing, block.channel_offset)
    return made


def _treatment_thing(entry: Entry, path: str, label: str) -> SpecNode:
    made = node_of(entry, path, label, _JOINTS)
    steps: Sequence[Entry] = getattr(entry, "segments", ())
    for node in made.children.get("segments", ()):
        hold = node.entry
        found = target(steps, hold) if isinstance(hold, Hold) and hold.target is None else None
        if found is not None:
            node.implied["target"] = Fact(
                f"{node.path}.target", exact(found), found, hold, "range", counts=True
            )
    return made


def _clocks(joint: Joint, block: SpecNode) -> None:
    """A place given by its arc length is one on the clock, too: to the minute, as it is printed."""
    arcs = {tc.tag: tc for tc in joint.thermocouples if tc.entry.at is None and tc.entry.arc}
    for node in block.children.get("each", ()):
        fact, tc = node.facts.get("arc"), arcs.get(node.key)
        place = tc.position if tc is not None else None
        if fact is not None and place is not None:
            at = ClockPosition.read(str(place))
            clock = (fact.path.removesuffix("arc") + "at", f"{at.degrees} deg")
            node.facts["arc"] = fact._replace(otherwise=clock)


def _shift(block: SpecNode, offset: int) -> None:
    """Channels as they are plugged: the offset of the block is in them."""
    del block.facts["channel-offset"]
    for node in block.children.get("each", ()):
        for label in ("channel", "control-channel"):
            fact = node.facts.get(label)
            if fact is not None:
                channel = fact.value + offset
                node.facts[label] = fact._replace(canonical=str(channel), value=channel)


def _stage_thing(entries: list[Work], path: str) -> SpecNode:
    """All that is to be done at one stage, from however many blocks."""
    whole = node_of(entries[0], path, path.replace(" ", "-"), _JOINTS)
    for entry in entries[1:]:
        more = node_of(entry, path, whole.label, _JOINTS)
        whole.facts = {**more.facts, **whole.facts}
        for group, nodes in more.children.items():
            whole.children.setdefault(group, []).extend(nodes)
    return whole


# The sides -------------------------------------------------------------------------------------


def _side(entry: words.Joint, side: Side) -> SpecNode:
    """One side as it results from `between`, `pipe`, `wall` and `side`."""
    said = next((one for one in entry.sides if one.name == side.name), None)
    made = SpecNode("joint.side", said or entry, side.name, side.name)
    _word(made, "name", side.name, said)
    _material(made, entry, said, side)
    size = f"NPS {side.nominal_size}" if side.nominal_size is not None else "its size"
    _figure(made, "outside diameter", side.outside_diameter, size, said, entry.pipe)
    _figure(made, "wall", side.wall, f"schedule {side.schedule}", said, entry.wall or entry.pipe)
    taken = side.wall_taken
    if taken is not None:
        _word(made, "taken", taken, said if said is not None and said.taken else entry.wall)
    if side.schedule is not None:
        _word(made, "schedule", side.schedule, said if said and said.schedule else entry.pipe)
    for field in ("taper", "slope", "part", "heat_number"):
        step = field.replace("_", " ")
        if said is not None and getattr(said, field) is not None:
            found = sides.Side.fields[field]
            put_facts(made, said, found, (step, step.replace(" ", "-")), getattr(said, field))
    return made


def _material(made: SpecNode, entry: words.Joint, said: sides.Side | None, side: Side) -> None:
    if said is not None and said.material is not None:
        field = sides.Side.fields["material"]
        made.facts["of"] = fact_of("joint.side.of", said, field, said.material)
    elif entry.between is not None:
        first = side.name in ("run", "upstream")
        name = "first" if first else "second"
        reference = getattr(entry.between, name)
        if reference is not None:
            field = sides.Between.fields[name]
            made.facts["of"] = fact_of("joint.side.of", entry.between, field, reference)


def _figure(
    made: SpecNode,
    step: str,
    figure: Figure | None,
    size: str,
    said: sides.Side | None,
    shared: Entry | None,
) -> None:
    """A diameter or wall, stated or looked up; the text of one looked up says by what."""
    if figure is None or not isinstance(figure.value, Quantity):
        return
    entry, field = made.entry, ""
    names = (
        ("outside_diameter", "nps", "dn") if step != "wall" else ("wall", "thickness", "schedule")
    )
    for owner in (said, shared):
        name = next((n for n in names if owner is not None and getattr(owner, n, None)), None)
        if owner is not None and name is not None:
            entry, field = owner, name
            break
    stated = figure.basis == "stated"
    value: Any = figure.value if stated else f"{figure.value} ({size})"
    made.facts[step.replace(" ", "-")] = Fact(
        f"joint.side.{step}", exact(figure.value), value, entry, field, counts=True
    )


def _word(made: SpecNode, step: str, text: str, owner: Entry | None) -> None:
    made.facts[step] = Fact(f"joint.side.{step}", text, text, owner or made.entry, step)
