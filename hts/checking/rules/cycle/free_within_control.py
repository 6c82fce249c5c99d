"""Between start and end of control each step has a rate."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import FROM_ABOVE, backwards, heats, steps
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool, Heat

#: 300 degC and 600 degF are meant alike.
_ROUNDING = Quantity.of(25, "K", DIFFERENCE)
#: 800 degF: a step that hot without a rate is told as that.
_HOT = Quantity.of(800, "degF", TEMPERATURE)
_BOOKS = (
    "governed by  asme-b31.3 edition 2018, local-heating",
    "governed by  ibr-1950, local-heating",
)

RULE = Rule(
    "Y137",
    "free-within-control",
    "warning",
    summary="A step without a rate that runs where the text says control has begun, or has not ended.",
    why="The controller gives full power there, or none, and everybody takes the step for controlled.",
    fix="Let the rates begin and end where control does.",
    source="arithmetic: start and end of control against the steps without a rate",
    basis="derived",
    edges=(
        Edge(
            (_BOOKS, ("  heat  to 315 degC\n", "  heat  to {}\n")),
            keeps="325 degC",
            breaks="326 degC",
            says="up to 326 degC (619 degF) … at 300 degC (572 degF)",
        ),
        Edge(
            (_BOOKS, ("cool  to 315 degC ", "cool  to {} ")),
            keeps="325 degC",
            breaks="326 degC",
            at="still air",
            says="from 326 degC (619 degF) … at 300 degC (572 degF)",
        ),
    ),
    agrees=(
        Agreement("cycle.start of control", "cycle.heat.at most", "a rate from there on"),
        Agreement("cycle.end of control", "cycle.cool.at most", "a rate down to there"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None or not heats(treatment) or cycle.purpose in FROM_ABOVE:
        return
    entry, limits = treatment.entry, case.limits(treatment.joint, treatment)
    for step in steps(case, treatment):
        segment = step.segment
        if not isinstance(segment, Heat | Cool) or segment.rate is not None or backwards(step):
            continue
        heating = isinstance(segment, Heat)
        governing = limits.of("heating rate" if heating else "cooling rate")
        # Where somebody limits the rate, that there is none is told with the limit.
        if governing is not None and governing.setter("maximum") is not None:
            continue
        field = "start_control" if heating else "end_control"
        control: Quantity | None = getattr(entry, field)
        free = segment.to if heating else step.low
        if control is None or free is None or free <= control + _ROUNDING:
            continue
        if free > _HOT:
            continue  # told as a step without a rate
        verb = "heated freely up to" if heating else "cooled freely from"
        case.add(
            RULE.found(
                f"{treatment.joint.name} is {verb} {free.both()}, and control "
                f"{'begins' if heating else 'ends'} at {control.both()}",
                segment.place("to" if segment.to is not None else "medium"),
                address=treatment.address,
                others=[Label(treatment.place(field), "control")],
            )
        )
