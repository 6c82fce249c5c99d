"""Each way of measuring preheat is named once."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.preheat import Measured

_PROBE = (
    "  measured by       contact probe at 76 mm on face toward the welder from 0 degC to 400 degC\n"
)

RULE = Rule(
    "P146",
    "measured-twice",
    "advice",
    summary="A preheat that is measured twice by one kind of instrument.",
    why="One of the two was meant to be another: a thermocouple has no face and no range of a probe.",
    fix="Name the other instrument, or leave one of the lines out.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    _PROBE,
                    f"{_PROBE}  measured by       contact probe at 80 mm from 0 degC to 400 degC\n",
                ),
            ),
            at="contact probe",
            says="measured twice by contact probe",
        ),
    ),
    good=(
        # Crayons show one temperature each.
        Good(
            (
                (
                    _PROBE,
                    "  measured by temperature-indicating crayon at 76 mm from 150 degC to 150 degC\n"
                    "  measured by temperature-indicating crayon at 76 mm from 315 degC to 315 degC\n",
                ),
            )
        ),
    ),
)
_CRAYON = "temperature-indicating crayon"


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    seen: dict[str, Measured] = {}
    for way in joint.preheat.measured if joint.preheat is not None else ():
        first = seen.setdefault(way.how, way)
        if first is way or way.how == _CRAYON:
            continue
        case.add(
            RULE.found(
                f"the preheat of {joint.name} is measured twice by {way.how}",
                way.place("how"),
                address=f"{joint.address}/preheat",
                others=[Label(first.place("how"), "the first")],
                basis=RULE.basis,
            )
        )
        return
