"""A stated lower critical temperature fits the analysis of a 9Cr steel."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

#: How far above the estimate a stated figure passes, K: the formula is a fit. No source.
_SCATTER = 15

_ANALYSIS = (
    "  composition  C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %, Mo 0.98 %",
    "  composition  C 0.10 %, Mn 0.60 %, Si 0.20 %, Cr 8.5 %, Mo 0.90 %, Ni 0.40 %, V 0.20 %, "
    "Nb 0.08 %, N 0.05 %\n  tensile strength 585 MPa",
)

_COLD = ("  rate margin  ", "  first cool below 90 degC\n  begin within 48 h\n  rate margin  ")


def _stated(celsius: int) -> tuple[tuple[str, str], ...]:
    grade = f"  p-number 15E\n  group 1\n  lower critical {celsius} degC"
    return (
        ('  grade        "A335 P22"', grade),
        _ANALYSIS,
        ("joint W12 {", "filler rod { nickel and manganese 1.0 % }\n\njoint W12 {"),
        ('"WPS-12" layers multiple', '"WPS-12" layers multiple filler rod'),
        ("  at least          150 degC", "  at least          205 degC"),
        ("700 .. 730 degC", "730 .. 760 degC"),
        ("  heat  to 715 degC", "  heat  to 745 degC"),
        _COLD,
    )


RULE = Rule(
    "M203",
    "lower-critical-above-estimate",
    "warning",
    summary="A lower critical temperature of 9Cr steel stated more than 15 K above what its "
    "analysis gives.",
    why="Nickel and manganese lower it; a figure from a handbook hides that.",
    fix="State a measured figure, or the one the analysis gives.",
    source="Santella 2012, A1 of Grade 91 from its analysis; the 15 K are common practice",
    basis="derived",
    edges=(
        Edge(
            (
                ('  grade        "A335 P22"', "  p-number 15E\n  group 1\n  lower critical {}"),
                (
                    "  composition  C 0.11 %, Mn 0.45 %, Si 0.25 %, Cr 2.20 %, Mo 0.98 %",
                    "  composition  C 0.10 %, Mn 0.60 %, Si 0.20 %, Cr 8.5 %, Mo 0.90 %, Ni 0.40 %, V 0.20 %, Nb 0.08 %, N 0.05 %\n  tensile strength 585 MPa",
                ),
                ("joint W12 {", "filler rod { nickel and manganese 1.0 % }\n\njoint W12 {"),
                ('"WPS-12" layers multiple', '"WPS-12" layers multiple filler rod'),
                ("  at least          150 degC", "  at least          205 degC"),
                ("700 .. 730 degC", "730 .. 760 degC"),
                ("  heat  to 715 degC", "  heat  to 745 degC"),
                _COLD,
            ),
            keeps="792 degC",
            breaks="793 degC",
            says="793 degC (1459 degF) … about 777 degC (1430.6 degF)",
        ),
    ),
    good=(Good(_stated(790)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not treated(joint):
        return
    for side in joint.sides:
        material, p_number = side.material, side.figure("p_number")
        if material is None or material.lower_critical is None or not material.composition:
            continue
        if p_number is None or p_number.value != "15E":
            continue
        from hts.science.metallurgy.transformation import SANTELLA_91

        estimate = SANTELLA_91({s.element: float(s.fraction.value) for s in material.composition})
        critical = Quantity.of(round(estimate.value), "degC", TEMPERATURE)
        above = float(material.lower_critical.value) - estimate.value
        if not estimate.missing and above > _SCATTER:
            case.add(
                RULE.found(
                    f"the lower critical temperature of {material.name} is stated as "
                    f"{material.lower_critical.both()}, its analysis gives about {critical.both()}",
                    material.place("lower_critical"),
                    address=material.name,
                    others=[Label(material.place("composition"), "the analysis")],
                    notes=["estimate after Santella 2012 for Grade 91, a fit with scatter"],
                )
            )
