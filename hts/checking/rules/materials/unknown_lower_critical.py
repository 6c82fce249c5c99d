"""The lower critical temperature of what is heat treated is known."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.missing import already_told
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

#: Austenitic and duplex groups do not transform on heating.
_NONE = ("8", "10H", "45")

RULE = Rule(
    "M201",
    "unknown-lower-critical",
    "warning",
    summary="A steel that is heat treated, without its lower critical temperature.",
    why="Nothing shows that the hold stays below the temperature that ruins the steel.",
    fix="State `lower critical` of the material, or its grade as the grade table spells it.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    '  grade        "A335 P22"',
                    "  p-number 5A\n  group 1\n  tensile strength 415 MPa",
                ),
            ),
            at="pipe",
        ),
    ),
    good=(
        Good(
            (
                (
                    '  grade        "A335 P22"',
                    "  p-number 5A\n  group 1\n"
                    "  tensile strength 415 MPa\n  lower critical 800 degC",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not treated(joint) or "lower_critical" in already_told(joint):
        return
    for side in joint.sides:
        p_number = side.figure("p_number")
        if side.material is None or side.figure("lower_critical") is not None:
            continue
        if p_number is not None and p_number.value in _NONE:
            continue
        case.add(
            RULE.found(
                f"the lower critical temperature of {side.material.name} is not known",
                side.material.place("name"),
                address=side.material.name,
            )
        )
