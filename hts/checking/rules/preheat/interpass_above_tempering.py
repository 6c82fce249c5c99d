"""Welding itself does not temper the base metal further."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_GRADE = '  grade        "A106-B"'

RULE = Rule(
    "P111",
    "interpass-above-tempering",
    "warning",
    summary="An interpass maximum above the tempering temperature of a part.",
    why="Beside the weld the part is tempered further for as long as welding lasts, and softens.",
    fix="Lower the interpass maximum.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_GRADE, f"{_GRADE}\n  tempered at 550 degF"),),
            at="600 degF",
            base="preheat",
            says="up to 600 degF (316 degC) … 550 degF (287 degC)",
        ),
    ),
    good=(Good(((_GRADE, f"{_GRADE}\n  tempered at 1150 degF"),), base="preheat"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if joint.preheat is None or joint.preheat.interpass is None:
        return
    most, interpass = limits_of(case, joint).interpass(), joint.preheat.interpass
    if most is None:
        return
    for side in joint.sides:
        figure = side.figure("tempering_temperature")
        if figure is None or not isinstance(figure.value, Quantity):
            continue
        if most <= figure.value:
            continue
        case.add(
            RULE.found(
                f"interpass up to {most.both()}; the {side.name} side was tempered at "
                f"{figure.value.both('down')}",
                interpass.place("at_most"),
                address=f"{joint.address}/preheat",
                others=[] if figure.at is None else [Label(figure.at, "tempered at")],
                basis=RULE.basis,
            )
        )
        return
