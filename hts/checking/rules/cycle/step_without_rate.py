"""A hot step of a heat treatment has a rate."""

from __future__ import annotations

from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rates import hottest_of
from hts.checking.rules.helpers.steps import heats, steps
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Heat, Hold

_BOOKS = (
    "governed by  asme-b31.3 edition 2018, local-heating",
    "governed by  ibr-1950, local-heating",
)
#: 800 degF, where most codes let the limits begin.
_HOT = Quantity.of(800, "degF", TEMPERATURE)

RULE = Rule(
    "Y128",
    "step-without-rate",
    "warning",
    summary="A step above 427 degC (800 degF) for which neither the job nor any book or procedure "
    "in force gives a rate.",
    why="The controller gives full power, or none: what lies uneven in the metal bends or cracks it.",
    fix="Write a rate: `at most 150 degC/h`.",
    source="common practice, no source; the codes that limit the rate begin at 427 degC or below",
    basis="practice",
    edges=(
        Edge(
            (_BOOKS, ("  heat  to 315 degC\n", "  heat  to {}\n")),
            keeps="426 degC",
            breaks="427 degC",
            says="up to 427 degC (801 degF)",
        ),
    ),
    bad=(
        Bad(
            (_BOOKS, ("  cool  to 315 degC   at most 200 degC/h", "  cool  to 315 degC")),
            at="315 degC",
            says="begins at 730 degC (1346 degF)",
        ),
    ),
    good=(Good((("  heat  to 315 degC\n", ""),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    if treatment.is_bake or not heats(treatment):
        return
    limits = case.limits(treatment.joint, treatment)
    for step in steps(case, treatment):
        segment = step.segment
        if isinstance(segment, Hold) or segment.rate is not None or segment.to is None:
            continue
        top = hottest_of(step)
        heating = isinstance(segment, Heat)
        if top is None or top <= _HOT:
            continue
        governing = limits.of("heating rate" if heating else "cooling rate")
        # Where somebody limits it, that is told as broken.
        if governing is None or governing.setter("maximum") is None:
            case.add(
                RULE.found(
                    f"no rate is given for this step, which runs up to {top.both()}"
                    if heating
                    else f"no rate is given for this step, which begins at {top.both()}",
                    segment.place("to"),
                    address=treatment.address,
                    basis=RULE.basis,
                )
            )
