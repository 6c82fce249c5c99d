"""Junctions under heaters are shielded from them."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "C111",
    "unshielded-junction",
    "warning",
    summary="Thermocouples under resistance heaters without a cover of the junction.",
    why="A junction that sees the heater reads the heater, and the metal stays colder.",
    fix='Write what covers it: `junction cover "refractory putty"`.',
    source="AWS D10.10:2021 (junctions are shielded from heater radiation)",
    basis="published",
    about=("joint.thermocouples.junction cover",),
    bad=(Bad((('    junction cover      "refractory putty"\n', ""),), at="thermocouples"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block, heating = joint.entry.thermocouples, joint.entry.heating
    if block is None or heating is None or heating.method != "resistance":
        return
    if block.junction_cover is None and (treated(joint) or joint.bakes):
        case.add(
            RULE.found(
                f"nothing shields the junctions of {joint.name} from the heaters",
                block.place(),
                address=f"{joint.address}/thermocouples",
            )
        )
