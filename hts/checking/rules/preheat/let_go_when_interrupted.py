"""What is kept hot until it is baked or treated is not let go cold in between."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_COLD = "cool slowly and preheat again"
_UNTIL = "keep until        end of welding"

RULE = Rule(
    "P144",
    "let-go-when-interrupted",
    "advice",
    summary="A preheat that is kept until the bake or the heat treatment, and let go cold when "
    "welding stops.",
    why="Half a weld, hard and full of hydrogen, cracks sooner than the whole one that may not go "
    "cold.",
    fix="Write `when interrupted keep hot` or `bake before cooling`, or keep the preheat until the "
    "end of welding.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_UNTIL, "keep until        post-weld heat treatment"),),
            at=_COLD,
            says="W12 is kept hot until post-weld heat treatment, and let go cold when welding",
        ),
    ),
    good=(
        Good(
            (
                (_UNTIL, "keep until        post-weld heat treatment"),
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
    if preheat.until not in ("bake", "post-weld heat treatment"):
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
