"""Wires and cable are joined in connectors that fit one way round."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_CABLE = "class 1 length 20 m"

RULE = Rule(
    "C140",
    "joined-without-connectors",
    "advice",
    summary="Extension cable that is joined to the wires of the thermocouples without connectors.",
    why="Wires that are twisted or clamped together are easily exchanged, and read too low the "
    "hotter the joint between them is; nothing holds them by one way round.",
    fix="Use connectors of the thermocouple alloys: `connectors same alloy`.",
    source="common practice, no source",
    basis="practice",
    about=("joint.thermocouples.extension.connectors",),
    bad=(Bad(((_CABLE, f"{_CABLE} connectors none"),), at="none"),),
    good=(Good(((_CABLE, f"{_CABLE} connectors same alloy"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    extension = block.extension if block is not None else None
    if extension is not None and extension.connectors == "none":
        case.add(
            RULE.found(
                f"nothing joins the wires of {joint.name} to their extension cable one way round",
                extension.place("connectors"),
                address=f"{joint.address}/thermocouples",
                basis=RULE.basis,
            )
        )
