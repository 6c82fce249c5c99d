"""The power source has a circuit for each zone and the power for them all."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import POWER, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import counted
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "E104",
    "too-little-supply",
    "error",
    summary="A power source with fewer circuits than zones, or less power than the heaters take.",
    why="The rate is not reached, or the supply trips when the metal is hot.",
    fix="Use a larger supply, or a second one.",
    source="arithmetic: circuits and power of the zones",
    basis="derived",
    edges=(
        Edge(
            (("circuits  6", "circuits  {}"),),
            keeps="2",
            breaks="1",
            says="has 1 circuit for 2 zones",
        ),
        Edge(
            (("output    65 kVA", "output    {}"),),
            keeps="18 kVA",
            breaks="17 kVA",
            says="18 kVA … 17 kVA",
        ),
        Edge(
            (("circuits  6", "circuits  2\n  circuit power {}"),),
            keeps="9 kW",
            breaks="8.9 kW",
            at="circuits",
            says="take 18 kW … 2 circuits of PS1 at 8.9 kW carry 17.8 kW",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    source, joint = treatment.power_source, treatment.joint
    if source is None or not joint.zones:
        return
    if source.circuits is not None and source.circuits < len(joint.zones):
        case.add(
            RULE.found(
                f"{source.name} has {counted(source.circuits, 'circuit')} for "
                f"{counted(len(joint.zones), 'zone')} of {joint.name}",
                source.place("circuits"),
                address=source.name,
                others=[Label(joint.zones[-1].place("name"), "the last zone")],
            )
        )
        return
    taken = sum(zone.entry.power.value for zone in joint.zones if zone.entry.power is not None)
    if source.output is not None and taken > source.output.value:
        total = Quantity.of(taken, "W", POWER).in_unit(source.output.unit.symbol)
        case.add(
            RULE.found(
                f"the zones of {joint.name} take {total}, {source.name} gives {source.output}",
                source.place("output"),
                address=source.name,
                others=[Label(joint.zones[0].place("power"), "power of the zones")],
            )
        )
        return
    each = source.circuit_power
    if source.circuits is not None and each is not None and taken > source.circuits * each.value:
        total = Quantity.of(taken, "W", POWER).in_unit(each.unit.symbol)
        case.add(
            RULE.found(
                f"the zones of {joint.name} take {total}, {counted(source.circuits, 'circuit')} of "
                f"{source.name} at {each} carry {each * source.circuits}",
                source.place("circuits"),
                address=source.name,
                others=[Label(joint.zones[0].place("power"), "power of the zones")],
            )
        )
