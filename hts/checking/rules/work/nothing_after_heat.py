"""A job that is checked before and during the heat is examined after it."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule

_DURING = 'before heat W12 { caution "Hot" }\n\nduring heat W12 { reading every 1 h }\n\n'
_AFTER = "after heat W12 { hardness weld at most 248 HV10 count 3 }\n\n"

RULE = Rule(
    "K105",
    "nothing-after-heat",
    "warning",
    summary="A treatment with a list of checks before and during the heat, and none after it.",
    why="Hardness, examination and records are what shows that the treatment worked; the block was "
    "lost.",
    fix="Write `after heat` with what is measured, examined and handed over.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("controller C1 {", f"{_DURING}controller C1 {{"),), at="before heat"),),
    good=(Good((("controller C1 {", f"{_DURING}{_AFTER}controller C1 {{"),)),),
)


@RULE.for_spec
def check(case: Case) -> None:
    file = case.spec.file
    if not (file.before and file.during) or file.after:
        return
    if any(joint.cycles for joint in case.joints()):
        block = file.before[0]
        case.add(
            RULE.found(
                "the job has checks before and during the heat, and nothing after it",
                block.place(),
                address=block.address,
                basis=RULE.basis,
            )
        )
