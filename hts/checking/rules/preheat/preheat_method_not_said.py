"""A preheat says how the metal is heated."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_METHOD = "  method            resistance\n"
#: degC up to which a part is warm enough indoors, or after a flame to dry it. Common practice.
_WARM = 50

RULE = Rule(
    "P129",
    "preheat-method-not-said",
    "advice",
    summary="A preheat that has to be heated for and does not say how.",
    why="Whoever comes first takes the flame that lies there: soot and oxide on the groove, one side "
    "hot, and nothing that holds the preheat while the weld is made.",
    fix="Write `method resistance`, `induction`, `gas` or `furnace`.",
    source="common practice, no source",
    basis="practice",
    about=("preheat.method",),
    bad=(Bad(((_METHOD, ""),), at="preheat", says="150 degC (302 degF)"),),
    good=(
        Good(((_METHOD, "  method            gas\n"),)),
        Good(((_METHOD, "  controlled by     C1\n"),)),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    # What a controller drives is heated by the heaters of the joint.
    if preheat is None or not preheat.sound or preheat.says("method") or preheat.controlled_by:
        return
    least = limits_of(case, joint).preheat()
    if not isinstance(least, Quantity) or least.to("degC") <= _WARM:
        return
    case.add(
        RULE.found(
            f"nothing says how {joint.name} is heated to {least.both()} for welding",
            preheat.place(),
            address=f"{joint.address}/preheat",
            basis=RULE.basis,
        )
    )
