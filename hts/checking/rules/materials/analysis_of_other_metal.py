"""The analysis of a base metal or filler is one of the grade it is said to be."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.base.quantities import MASS_FRACTION, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.analyses import misfits
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.vocabulary.material import Filler, Material

_ANALYSIS = "C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %, Mo 0.98 %"
_FILLER = ("joint W12 {", 'filler rod { classification "E9018-B3" composition }\n\njoint W12 {')

#: Classes of low-alloy filler with at most so much carbon (AWS A5.5 and A5.28, from memory).
_LOW_CARBON = re.compile(r"-B\d+L(?:[ -]?H\d+R?)?$")
_LEAST_CARBON = Quantity.of("0.05", "%", MASS_FRACTION)

RULE = Rule(
    "M204",
    "analysis-of-other-metal",
    "warning",
    summary="An analysis that does not fit the grade or classification stated with it.",
    why="The analysis is what gives mixed-up material away; preheat, hold and the lower critical "
    "temperature are worked out from it.",
    fix="Compare grade, heat number and analysis with the certificate.",
    source="product standards of the grades and AWS A5 classifications, from memory, by families",
    basis="memory",
    bad=(
        Bad(
            (
                (
                    "joint W12 {",
                    'material old {\n  grade "A335 P91"\n'
                    "  composition C 0.10 %, Mn 0.41 %, Cr 8.60 %, Mo 0.93 %, V 0.21 %, N 0.045 %\n"
                    "}\n\njoint W12 {",
                ),
            ),
            at="C 0.10 %",
            says="A335 P91: Nb is not given",
        ),
        Bad(((_ANALYSIS, "C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %"),), at="C 0.11 %"),
        Bad(
            (
                (
                    "joint W12 {",
                    'filler rod {\n  classification "E9018-B3"\n'
                    "  composition C 0.08 %, Cr 1.25 %, Mo 0.5 %\n}\n\njoint W12 {",
                ),
            ),
            at="C 0.08 %",
            says="1.25 % is below 1.95 %, Mo 0.5 % is below 0.85 %",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "joint W12 {",
                    'filler rod {\n  classification "E8018-B2L"\n'
                    "  composition C {}, Cr 1.25 %, Mo 0.5 %\n}\n\njoint W12 {",
                ),
            ),
            keeps="0.050 %",
            breaks="0.051 %",
            says="not one of E8018-B2L: C 0.051 % is above 0.05 %",
        ),
        Edge(
            ((_ANALYSIS, "C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr {}, Mo 0.98 %"),),
            keeps="1.85 %",
            breaks="1.84 %",
            says="1.84 % is below 1.85 %",
        ),
        Edge(
            (("C 0.25 %, Mn 0.80 %", "C 0.25 %, Mn {}"),),
            keeps="0.27 %",
            breaks="0.26 %",
            base="preheat",
            says="0.26 % is below 0.27 %",
        ),
    ),
    good=(Good(((_ANALYSIS, "C 0.14 %, Mn 0.58 %, Si 0.48 %, Cr 2.55 %, Mo 1.10 %"),)),),
    agrees=(
        Agreement("material.composition", "material.grade", "the analysis is one of the grade"),
        Agreement(
            "filler.composition", "filler.classification", "the analysis is one of the deposit"
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for material in case.spec.file.materials:
        if material.sound and material.composition and material.grade is not None:
            _material(case, material)
    for filler in case.spec.file.fillers:
        if filler.sound and filler.composition and filler.classification is not None:
            _filler(case, filler)


def _material(case: Case, material: Material) -> None:
    from hts.science.tables.analyses import of_grade
    from hts.science.tables.grades import UnknownGrade, grade

    assert material.grade is not None
    try:
        known = grade(material.grade)
    except UnknownGrade:
        return
    chromium = known.chromium_nominal
    family = of_grade(
        known.name,
        str(known.p_number.value) if known.p_number is not None else None,
        float(chromium.value.value) if chromium is not None else None,
    )
    if family is not None:
        _tell(
            case,
            material,
            "grade",
            material.grade,
            family.family,
            misfits(material.composition, family),
        )


def _filler(case: Case, filler: Filler) -> None:
    from hts.science.tables.analyses import of_deposit
    from hts.science.tables.fillers import deposit

    assert filler.classification is not None
    named = deposit(filler.classification)
    family = of_deposit(named.name) if named is not None else None
    if named is None or family is None:
        return
    # Manganese of a deposit is left out where nothing hangs on it.
    needed = [e for e in family.needed if e != "Mn" or named.name in ("carbon steel", "9Cr-1Mo-V")]
    found = [*misfits(filler.composition, family, needed), *_too_much_carbon(filler)]
    _tell(case, filler, "classification", filler.classification, family.family, found)


def _too_much_carbon(filler: Filler) -> list[str]:
    """The carbon of a filler that is of a class with little of it, where it has more."""
    if not _LOW_CARBON.search(filler.classification or ""):
        return []
    shares = [share.fraction for share in filler.composition if share.element == "C"]
    return [f"C {share} is above {_LEAST_CARBON}" for share in shares if share > _LEAST_CARBON]


def _tell(
    case: Case, metal: Material | Filler, field: str, called: str, family: str, found: list[str]
) -> None:
    if not found:
        return
    case.add(
        RULE.found(
            f"the analysis of {metal.name} is not one of {called}: {', '.join(found)}",
            metal.place("composition"),
            address=metal.name,
            others=[Label(metal.place(field), f"{family}")],
            basis=RULE.basis,
        )
    )
