"""Work that is checked at two of the stages before, during and after the heat is checked at the third."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import open_point_on
from hts.checking.rules.helpers.metals import hardens
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.work import After, Work

_DURING = 'before heat W12 { caution "Hot" }\n\nduring heat W12 { reading every 1 h }\n\n'
_AFTER = "after heat W12 { hardness weld at most 248 HV10 count 3 }\n\n"

RULE = Rule(
    "K105",
    "nothing-after-heat",
    "warning",
    summary="A treatment with lists of checks for two of the stages before, during and after the "
    "heat, and none for the third; or none of hardness after the heat of a steel that hardens.",
    why="The release before, the readings during, hardness and records after are what shows that "
    "the treatment worked; the block was lost.",
    fix="Write the block of the stage with what is checked, measured and handed over.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((("controller C1 {", f"{_DURING}controller C1 {{"),), at="before heat"),
        Bad(
            (
                (
                    "controller C1 {",
                    f'{_DURING}after heat W12 {{ marking "W12" }}\n\ncontroller C1 {{',
                ),
            ),
            at="after heat",
        ),
    ),
    good=(Good((("controller C1 {", f"{_DURING}{_AFTER}controller C1 {{"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    stages: dict[str, list[Work]] = {
        "before": [*joint.before],
        "during": [*joint.during],
        "after": [*joint.after],
    }
    blocks: list[Work] = [block for found in stages.values() for block in found]
    lacking = [name for name, found in stages.items() if not found]
    if not joint.cycles or not all(block.sound for block in blocks):
        return
    message = ""
    if len(lacking) == 1:
        message = f"nothing is checked {lacking[0]} the heat of {joint.name}"
        block = blocks[0]
    elif (
        not lacking
        and not any(isinstance(block, After) and block.hardness for block in joint.after)
        and hardens(joint)
        and not open_point_on(case, "hardness")
    ):
        message = f"nothing measures the hardness of {joint.name} after the heat"
        block = joint.after[0]
    if message:
        case.add(RULE.found(message, block.place(), address=joint.address, basis=RULE.basis))
