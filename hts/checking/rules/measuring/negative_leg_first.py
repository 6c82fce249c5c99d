"""The positive wire is attached first."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "C116",
    "negative-leg-first",
    "advice",
    summary="Thermocouples whose negative wire is attached first.",
    why="A fixed order, positive wire first, keeps the two from being swapped.",
    fix="Write `first leg positive`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((" each leg apart", " first leg negative each leg apart"),), at="negative"),),
    good=(Good(((" each leg apart", " first leg positive each leg apart"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is not None and attached.order == "negative":
        case.add(
            RULE.found(
                f"the negative wire is attached first at {joint.name}; common practice is the "
                f"positive wire first",
                attached.place("order"),
                address=f"{joint.address}/thermocouples",
                basis=RULE.basis,
            )
        )
