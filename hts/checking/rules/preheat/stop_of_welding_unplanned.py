"""Before welding begins it is decided what happens to the preheated joint when it stops."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_LINE = "  when interrupted  cool slowly and preheat again\n"

RULE = Rule(
    "P120",
    "stop-of-welding-unplanned",
    "advice",
    summary="A preheat that does not say what is done when welding stops.",
    why="At the end of the shift the heat is switched off with half a weld in the joint; hydrogen "
    "and shrinkage crack it while nobody looks.",
    fix="Write `when interrupted` and what is done, or `maintain at least` and the temperature.",
    source="common practice, no source",
    basis="practice",
    about=("preheat.when interrupted",),
    bad=(Bad(((_LINE, ""),), at="W12"),),
    good=(Good(((_LINE, "  maintain at least  150 degC\n"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound:
        return
    if not preheat.says("interrupted") and not preheat.says("maintain"):
        message = f"nothing says what is done with {joint.name} when welding stops"
    else:
        return
    case.add(
        RULE.found(
            message,
            preheat.place("joints"),
            address=f"{joint.address}/preheat",
            basis=RULE.basis,
        )
    )
