"""A weld that is heat treated is examined afterwards."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import open_point_on
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_BLOCKS = (
    'before heat W12 {{ caution "Hot" }}\n\nduring heat W12 {{ reading every 1 h }}\n\n'
    'after heat W12 {{\n  hardness weld at most 248 HV10 count 3\n  hand over "Chart"{}\n}}\n\n'
    "controller C1 {{"
)

RULE = Rule(
    "K126",
    "not-examined-after-heat",
    "advice",
    summary="A list of what is done after the heat that measures hardness and hands something over, and "
    "examines nothing.",
    why="Cracks open in the heat and after it: what was examined before says nothing of them.",
    fix='Say what is examined, `examine "MT" extent "100 %" accepted`.',
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("controller C1 {", _BLOCKS.format("")),), at="after heat"),),
    good=(Good((("controller C1 {", _BLOCKS.format('\n  examine "MT" accepted')),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    blocks = joint.after
    # A list that hands nothing over is not all that is done.
    if not any(block.hand_over for block in blocks):
        return
    if not treated(joint) or not all(block.sound for block in blocks):
        return
    if not any(block.hardness for block in blocks) or any(block.examinations for block in blocks):
        return
    if open_point_on(case, "examin"):
        return
    case.add(
        RULE.found(
            f"nothing examines {joint.name} after the heat",
            blocks[0].place(),
            address=joint.address,
            basis=RULE.basis,
        )
    )
