"""A stated P-number is the one of the grade."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "M202",
    "group-of-other-grade",
    "error",
    summary="A stated P-number or group that is not that of the grade.",
    why="Preheat, hold range and exemptions all follow from it.",
    fix="Remove the P-number, or correct the grade.",
    source="ASME IX QW/QB-422 as far as the grade table holds it (from memory)",
    basis="memory",
    bad=(
        Bad(
            (
                ('  grade        "A335 P22"', '  grade        "A335 P22"\n  p-number 5B'),
                ("  rate margin  ", "  begin within 48 h\n  rate margin  "),
            ),
            at="5B",
        ),
    ),
    good=(
        Good(
            (('  grade        "A335 P22"', '  grade        "A335 P22"\n  p-number 5A\n  group 1'),)
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for side in joint.sides:
        material, grade = side.material, side.grade
        if material is None or grade is None:
            continue
        for field, words, known in (
            ("p_number", "P-number", grade.p_number),
            ("group", "group", grade.group),
        ):
            stated = getattr(material, field)
            if stated is None or known is None or stated == known.value:
                continue
            case.add(
                RULE.found(
                    f"{material.name} is stated as {words} {stated}; {grade.name} is {words} "
                    f"{known.value} ({known.source})",
                    material.place(field),
                    address=material.name,
                    basis=known.basis,
                )
            )
            break
