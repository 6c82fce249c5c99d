"""Connectors carry the alloys of the thermocouple on."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_CABLE = "class 1 length 20 m"

RULE = Rule(
    "C124",
    "copper-connectors",
    "warning",
    summary="Connectors with copper contacts between thermocouple and instrument.",
    why="Where one end of the connector is warmer than the other, that difference is missing from "
    "the reading: the part is hotter than shown.",
    fix="Use connectors with contacts of the thermocouple alloys: `connectors same alloy`.",
    source="derived: a stretch of copper adds no voltage for the temperatures it lies between "
    "(reference functions of IEC 60584-1)",
    basis="derived",
    about=("joint.thermocouples.extension.connectors",),
    bad=(Bad(((_CABLE, f"{_CABLE} connectors copper"),), at="copper"),),
    good=(Good(((_CABLE, f"{_CABLE} connectors same alloy"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    extension = block.extension if block is not None else None
    if extension is not None and extension.connectors == "copper":
        case.add(
            RULE.found(
                f"the connectors of {joint.name} have copper contacts",
                extension.place("connectors"),
                address=f"{joint.address}/thermocouples",
            )
        )
