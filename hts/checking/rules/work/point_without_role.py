"""Every point of the inspection plan names who is there."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule

_POINT = 'during heat W12 {{ hold point "Start is released"{} }}\n\ncontroller C1 {{'

RULE = Rule(
    "K106",
    "point-without-role",
    "warning",
    summary="A hold, witness or review point that names nobody to release, witness or review.",
    why="Work stops until somebody releases it; with nobody named the crew releases itself.",
    fix='Write who it is: `by "Owner\'s inspector"`.',
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("controller C1 {", _POINT.format("")),), at="hold point"),),
    good=(Good((("controller C1 {", _POINT.format(' by "Welding inspector"')),)),),
)


@RULE.for_spec
def check(case: Case) -> None:
    file = case.spec.file
    for block in (*file.before, *file.during, *file.after):
        for point in (*block.hold_points, *block.witness_points, *block.review_points):
            if point.by is None and point.sound and block.sound:
                case.add(
                    RULE.found(
                        f"{point.words[0]} `{point.text}` names nobody",
                        point.place(),
                        address=block.address,
                        basis=RULE.basis,
                    )
                )
