"""A spare takes over without an interruption."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import SPARE, Treatment

_LOSS = "on thermocouple loss  change to the spare"

RULE = Rule(
    "Y119",
    "unused-spare",
    "advice",
    summary="A cycle that stops when a thermocouple fails, though there are spares.",
    why="A spare is there so that the cycle can go on; a stop costs a repeated hold.",
    fix="Write `on thermocouple loss change to the spare`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_LOSS, "on thermocouple loss  stop and repair"),), at="stop and repair"),),
    good=(Good(((_LOSS, "on thermocouple loss  ask the engineer"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    loss = treatment.entry.thermocouple_loss
    if loss is None or loss.action != "stop and repair":
        return
    spares = [tc for tc in treatment.joint.thermocouples if tc.duty == SPARE]
    if spares:
        case.add(
            RULE.found(
                f"{treatment.name} stops when a thermocouple of {treatment.joint.name} fails, "
                f"though {spares[0].tag} could take over",
                loss.place("action"),
                address=treatment.address,
                others=[Label(spares[0].place("spare_for"), "a spare")],
                basis=RULE.basis,
            )
        )
