"""What is kept hot until it is baked or treated is not let go cold in between."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_COLD = "cool slowly and preheat again"
_KEPT = "keep until        post-weld heat treatment"
_UNTIL = "keep until        end of welding"

RULE = Rule(
    "P144",
    "let-go-when-interrupted",
    "warning",
    summary="A preheat that is kept until the bake, or maintained and kept until the heat treatment, "
    "and let go cold when welding stops.",
    why="Half a weld, hard and full of hydrogen, cracks sooner than the whole one that may not go "
    "cold.",
    fix="Write `when interrupted keep hot` or `bake before cooling`, or keep the preheat until the "
    "end of welding.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_UNTIL, f"maintain at least 150 degC\n  {_KEPT}"),),
            at=_COLD,
            says="W12 is kept hot until post-weld heat treatment, and let go cold when welding",
        ),
    ),
    good=(
        Good(((_UNTIL, _KEPT),)),
        Good(
            (
                (_UNTIL, _KEPT),
                (_COLD, "keep hot\n  maintain at least 150 degC"),
            )
        ),
        Good(()),
    ),
    agrees=(
        Agreement(
            "preheat.when interrupted", "preheat.keep until", "hot until then, hot in between"
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound or preheat.interrupted != _COLD:
        return
    # Kept hot until its treatment alone, the finished weld may have been cold when half done.
    kept = preheat.until == "post-weld heat treatment" and preheat.maintain is not None
    baked = preheat.until == "bake" and bool(joint.bakes)
    if not baked and not kept:
        return
    case.add(
        RULE.found(
            f"{joint.name} is kept hot until {preheat.until}, and let go cold when welding stops",
            preheat.place("interrupted"),
            address=f"{joint.address}/preheat",
            others=[Label(preheat.place("until"), "kept until then")],
            basis=RULE.basis,
        )
    )
