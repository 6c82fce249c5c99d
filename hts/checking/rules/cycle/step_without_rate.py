"""A hot step of a heat treatment has a rate."""

from __future__ import annotations

from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rates import hottest_of
from hts.checking.rules.helpers.steps import FROM_ABOVE, heats, hold_range, steps
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool, Heat, Hold

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
    "in force gives a rate, or a hold that hot after which no step cools.",
    why="The controller gives full power, or none: what lies uneven in the metal bends or cracks it.",
    fix="Write a rate: `at most 150 degC/h`.",
    source="common practice, no source; the codes that limit the rate begin at 427 degC or below",
    basis="practice",
    edges=(
        Edge(
            (
                _BOOKS,
                ("start of control    300 degC", "start of control    420 degC"),
                ("  heat  to 315 degC\n", "  heat  to {}\n"),
            ),
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
        Bad(
            (_BOOKS, ("  heat  to 315 degC\n  heat  to 715 degC   at most 200 degC/h\n", "")),
            at="hold",
            says="from 700 degC (1292 degF)",
        ),
        Bad(
            (("  cool  to 315 degC   at most 200 degC/h\n  cool  in still air\n", ""),),
            at="hold",
            says="up to 730 degC (1346 degF)",
        ),
        Bad(
            (_BOOKS, ("  cool  to 315 degC   at most 200 degC/h\n", "")),
            at="still air",
            says="from 730 degC (1346 degF)",
        ),
    ),
    good=(Good((("  heat  to 315 degC\n", ""),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    if treatment.is_bake or not heats(treatment):
        return
    limits = case.limits(treatment.joint, treatment)
    _tell_no_heating(case, treatment, limits)
    _tell_no_cooling(case, treatment)
    for step in steps(case, treatment):
        segment = step.segment
        if isinstance(segment, Hold) or segment.rate is not None:
            continue
        top = hottest_of(step)
        heating = isinstance(segment, Heat)
        if top is None or top <= _HOT:
            continue
        governing = limits.of("heating rate" if heating else "cooling rate")
        # Where somebody limits it, that is told as broken.
        if governing is not None and governing.setter("maximum") is not None:
            continue
        if segment.to is None:
            _tell_free(case, treatment, segment, top)
        else:
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


def _tell_free(case: Case, treatment: Treatment, segment: Heat | Cool, top: Quantity) -> None:
    """Of a step that cools by itself, where it begins while the cooling should be controlled."""
    cycle = treatment.cycle
    if cycle is None or cycle.purpose in FROM_ABOVE or not isinstance(segment, Cool):
        return
    if segment.medium is None:
        return
    case.add(
        RULE.found(
            f"nothing controls the cooling from {top.both()}: it cools in {segment.medium}",
            segment.place("medium"),
            address=treatment.address,
            help="write a step before it: `cool to 315 degC at most 150 degC/h`",
            basis=RULE.basis,
        )
    )


def _tell_no_cooling(case: Case, treatment: Treatment) -> None:
    """Of a treatment whose program ends hot, with no step that cools."""
    last = treatment.entry.segments[-1] if treatment.entry.segments else None
    if not isinstance(last, Hold):
        return  # that there is no hold, or one that is never reached, is told as that
    held = hold_range(case, treatment, last)
    if held is None or held.high is None or held.high <= _HOT:
        return
    case.add(
        RULE.found(
            f"no step cools {treatment.joint.name} after the hold of up to {held.high.both()}",
            last.place(),
            address=treatment.address,
            help="write how it cools: `cool to 315 degC at most 150 degC/h`, then what it cools in",
            basis=RULE.basis,
        )
    )


def _tell_no_heating(case: Case, treatment: Treatment, limits: JointLimits) -> None:
    """Of a treatment whose program begins with a hold, and nobody says how fast it is reached."""
    first = treatment.entry.segments[0] if treatment.entry.segments else None
    governing = limits.of("heating rate")
    if not isinstance(first, Hold) or (governing is not None and governing.setter("maximum")):
        return
    held = hold_range(case, treatment, first)
    if held is None or held.low is None or held.low <= _HOT:
        return
    case.add(
        RULE.found(
            f"no step heats {treatment.joint.name} to its hold from {held.low.both()}, and nobody "
            "gives a rate",
            first.place(),
            address=treatment.address,
            help="write how it is heated: `heat to 315 degC`, then `heat to 715 degC at most "
            "150 degC/h`",
            basis=RULE.basis,
        )
    )
