"""A part that goes into the furnace has no heaters, zones or coil of its own."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "E114",
    "zones-in-furnace",
    "warning",
    summary="Heating in a furnace, with zones, heaters or a coil round the weld.",
    why="One of the two is a slip: the furnace heats the whole part, heaters a band of it, and "
    "limits and thermocouples differ.",
    fix="Correct `heating by`, or leave out what belongs to local heating.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("heating by resistance accepted", "heating by furnace accepted"),),
            at="furnace",
            says="zone top",
        ),
    ),
    agrees=(Agreement("joint.heating.by", "joint.heating.zone", "a furnace has no such zones"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.method != "furnace":
        return
    local = [
        *((f"zone {zone.name}", zone.place("name")) for zone in heating.zones),
        *((f"heater {heater.name}", heater.place("name")) for heater in heating.heaters),
        *((("a coil", heating.coil.place()),) if heating.coil is not None else ()),
    ]
    if local:
        case.add(
            RULE.found(
                f"{joint.name} is heated in a furnace and has {local[0][0]}",
                heating.place("method"),
                address=f"{joint.address}/heating",
                others=[Label(at, what) for what, at in local],
                basis=RULE.basis,
            )
        )
