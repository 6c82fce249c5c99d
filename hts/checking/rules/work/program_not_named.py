"""A program that is to be looked at has a name."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_MARGIN = "  rate margin  "
_CHECKS = (
    "controller C1 {",
    'before heat W12 {\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "Program agrees with this sheet" about program matches procedure\n'
    "  insulation resistance at least 1 Mohm\n}\n\ncontroller C1 {",
)

RULE = Rule(
    "K117",
    "program-not-named",
    "advice",
    summary="A check that the program of the controller agrees with the sheet, and no treatment that "
    "names a program.",
    why="The controller holds the programs of other welds as well; which one was looked at nobody can "
    "tell afterwards.",
    fix="Name it in the cycle: `program` with its revision.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((_CHECKS,), at="program matches procedure"),),
    good=(Good((_CHECKS, (_MARGIN, f'  program "P12 rev B"\n{_MARGIN}'))),),
    agrees=(Agreement("before heat.check.about", "cycle.program", "named where it is checked"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    treatments = [treatment for treatment in case.treatments(joint) if treatment.controller]
    if not treatments or any(t.entry.program or t.entry.says("program") for t in treatments):
        return
    for block in joint.before:
        for item in block.checks if block.sound else ():
            if item.about == "program matches procedure":
                case.add(
                    RULE.found(
                        f"no treatment of {joint.name} names the program that is checked",
                        item.place("about"),
                        address=f"{joint.address}/before-heat",
                        others=[Label(treatments[0].place("name"), "the treatment")]
                        if not treatments[0].is_bake
                        else [],
                        basis=RULE.basis,
                    )
                )
                return
