"""An intermediate treatment is followed by the final one."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.examples import CYCLE
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_PURPOSE = "  purpose             stress relief\n"
_INTERMEDIATE = "  purpose             intermediate stress relief\n"
_WORK = "cycle stress-relief for W12 {\n"
_FIRST = f"cycle first for W12 {{\n{CYCLE.replace(_PURPOSE, _INTERMEDIATE)}}}\n\n"

RULE = Rule(
    "Y126",
    "treatment-left-unfinished",
    "warning",
    summary="A joint whose last treatment is called intermediate.",
    why="An intermediate stress relief makes the weld safe to put aside; whoever reads it waits for "
    "the final one, which nobody has planned.",
    fix="Write the final treatment, or call this one `stress relief`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_PURPOSE, _INTERMEDIATE),), at="intermediate stress relief"),),
    good=(Good(((_WORK, _FIRST + _WORK),)),),
    agrees=(Agreement("cycle.purpose", "cycle.for", "intermediate, where another one follows"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    cycles = [cycle for cycle in joint.cycles if heats(cycle)]
    last = cycles[-1] if cycles else None
    cycle = last.cycle if last is not None else None
    if last is None or cycle is None or cycle.purpose != "intermediate stress relief":
        return
    case.add(
        RULE.found(
            f"{last.name} is the last treatment of {joint.name} and an intermediate one",
            cycle.place("purpose"),
            address=last.address,
            basis=RULE.basis,
        )
    )
