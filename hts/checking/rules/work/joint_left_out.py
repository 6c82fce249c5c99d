"""Checks before, during and after heat name every joint that is heated, once."""

from __future__ import annotations

from collections import Counter

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.vocabulary.work import Work

_TWO = (
    ("preheat W12 {", "joint W13 like W12 { }\n\npreheat W12, W13 {"),
    ("cycle stress-relief for W12 {", "cycle stress-relief for W12 for W13 {"),
)


def _during(joints: str) -> tuple[str, str]:
    return ("controller C1 {", f"during heat {joints} {{ reading every 1 h }}\n\ncontroller C1 {{")


RULE = Rule(
    "K104",
    "joint-left-out",
    "warning",
    summary="A joint that is heated and is left out of the checks the other joints of the job have, "
    "or that stands twice in one list.",
    why="The list was typed from another one: the joint left out is heated without its checks.",
    fix="Name every joint once.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((*_TWO, _during("W12")), at="during heat"),
        Bad((*_TWO, _during("W12, W13, W12")), at="during heat"),
    ),
    good=(Good((*_TWO, _during("W12, W13"))),),
    agrees=(
        Agreement("before heat.joints", "cycle.for", "all joints that are heated"),
        Agreement("during heat.joints", "cycle.for", "all joints that are heated"),
        Agreement("after heat.joints", "cycle.for", "all joints that are heated"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    file = case.spec.file
    blocks: tuple[list[Work], ...] = (list(file.before), list(file.during), list(file.after))
    if not any(blocks) or not all(joint.sound for joint in case.spec.own):
        return
    heated = [joint for joint in case.joints() if joint.cycles or joint.bakes]
    for group in blocks:
        named = {reference.name for block in group for reference in block.joints}
        for block in group:
            names = [reference.name for reference in block.joints]
            twice = next((name for name, n in Counter(names).items() if n > 1), None)
            if twice is not None:
                _tell(case, block, f"{twice} stands twice in one list")
        left = [joint for joint in heated if joint.name not in named]
        if group and left and len(left) < len(heated):
            words = " ".join(group[0].words)
            out = ", ".join(joint.name for joint in left)
            _tell(case, group[0], f"`{words}` leaves out {out}")


def _tell(case: Case, block: Work, message: str) -> None:
    case.add(
        RULE.found(
            message,
            block.place(),
            address=block.address,
            others=[Label(block.place("joints"), "the joints named")],
            basis=RULE.basis,
        )
    )
