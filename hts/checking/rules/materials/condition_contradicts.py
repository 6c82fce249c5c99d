"""The delivery condition, the tempering and the grade of a metal fit each other."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule

_TEMPERED = ("normalized and tempered", "quenched and tempered")
_HEAT = '  heat number  "H4471"\n'


def _spool(condition: str) -> tuple[str, str]:
    """Another metal, of 9Cr steel with vanadium."""
    entries = f'  grade "A335 P91"\n  condition {condition}\n'
    return ("joint W12 {", f"material spool {{\n{entries}}}\n\njoint W12 {{")


RULE = Rule(
    "M208",
    "condition-contradicts",
    "warning",
    summary="A metal tempered at the mill that was not delivered tempered, or 9Cr steel with "
    "vanadium that was not.",
    why="The hold is kept below the tempering temperature; a metal never tempered has none, and "
    "Grade 91 that was not tempered is not Grade 91.",
    fix="State the condition the certificate gives.",
    source="common practice, no source; ASTM A335 for P91 and P92, from memory",
    basis="practice",
    bad=(
        Bad(
            ((_HEAT, f"{_HEAT}  condition annealed\n  tempered at 760 degC\n"),),
            at="annealed",
        ),
        Bad(((_HEAT, f"{_HEAT}  condition quenched and tempered\n"),), at="quenched"),
        Bad((_spool("normalized"),), at="normalized"),
        # Carbon steel is hardly ever tempered.
        Bad(
            (
                (
                    "joint W12 {",
                    'material spool {\n  grade "A106-B"\n  condition normalized and tempered\n}\n\njoint W12 {',
                ),
            ),
            at="normalized and tempered",
            says="at which temperature spool was tempered",
        ),
    ),
    good=(
        Good((_spool("normalized and tempered"),)),
        Good(((_HEAT, f"{_HEAT}  condition normalized\n"),)),
        Good(((_HEAT, f"{_HEAT}  condition normalized and tempered\n  tempered at 760 degC\n"),)),
    ),
    agrees=(
        Agreement("material.condition", "material.tempered.at", "only tempered metal was tempered"),
        Agreement("material.condition", "material.grade", "9Cr steel with vanadium is tempered"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for material in case.spec.file.materials:
        condition = material.condition
        if not material.sound or condition is None:
            continue
        if condition in _TEMPERED:
            known = _p_number(material.grade, material.p_number)
            if material.tempered is None and (condition == "quenched and tempered" or known == "1"):
                case.add(
                    RULE.found(
                        f"nothing says at which temperature {material.name} was tempered",
                        material.place("condition"),
                        address=material.name,
                        help='write `tempered at … degC certificate "…"` from its certificate',
                        basis=RULE.basis,
                    )
                )
            continue
        if material.tempered is not None:
            message = f"{material.name} is {condition}, and tempered"
            others = [Label(material.tempered.place(), "tempered")]
        elif _p_number(material.grade, material.p_number) == "15E":
            message = f"{material.name} is {condition}; this grade is delivered tempered"
            others = [Label(material.place("grade"), "the grade")]
        else:
            continue
        case.add(
            RULE.found(
                message,
                material.place("condition"),
                address=material.name,
                others=others,
                basis=RULE.basis,
            )
        )


def _p_number(name: str | None, p_number: str | None) -> str | None:
    if p_number is not None or name is None:
        return p_number
    from hts.science.tables.grades import UnknownGrade, grade

    try:
        known = grade(name).p_number
    except UnknownGrade:
        return None
    return str(known.value) if known is not None else None
