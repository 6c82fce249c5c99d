"""A way of fixing that reads too hot is corrected for."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import CONTROLS, Joint

RULE = Rule(
    "C109",
    "uncorrected-attachment",
    "warning",
    summary="Controlling thermocouples fixed mechanically, or sheathed, without the bias stated.",
    why="They read up to 72 K too hot at 700 degC, so the metal stays below its range.",
    fix="Attach the wires by capacitor discharge, or state `bias`.",
    source="AWS D10.10:2021 (up to 72 K at 700 degC; 16 to 22 K in another study)",
    basis="published",
    bad=(
        Bad(
            (
                (
                    "attached            capacitor discharge legs apart 6 mm energy 100 J each leg apart",
                    "attached            mechanical",
                ),
            ),
            at="mechanical",
        ),
    ),
    good=(
        Good(
            (
                (
                    "attached            capacitor discharge legs apart 6 mm energy 100 J each leg "
                    "apart",
                    "attached            mechanical bias 20 K",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is None or attached.bias is not None or not (treated(joint) or joint.bakes):
        return
    if attached.how in ("mechanical", "sheathed", "banded") and any(
        tc.duty == CONTROLS for tc in joint.thermocouples
    ):
        case.add(
            RULE.found(
                f"fixed by {attached.how} means they read too hot by an amount that is not stated",
                attached.place("how"),
                address=f"{joint.address}/thermocouples",
            )
        )
