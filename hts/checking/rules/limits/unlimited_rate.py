"""No step runs freely where its rate is limited."""

from __future__ import annotations

from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places, working
from hts.checking.rules.helpers.rates import hottest_of
from hts.checking.rules.helpers.steps import heats, steps
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Heat, Hold

#: 600 degF is printed as 315 degC; the step may end at either.
_ROUNDED = Quantity.of(1, "K", DIFFERENCE)

RULE = Rule(
    "L207",
    "unlimited-rate",
    "error",
    summary="A step without a rate that runs through temperatures where the rate is limited.",
    why="The controller then gives full power, or none at all.",
    fix="Write a rate, or end the free step where the limit begins.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (("  heat  to 715 degC   at most 200 degC/h", "  heat  to 715 degC"),),
            at="715 degC",
            says="up to 715 degC (1319 degF) … at most 600 degF/h (333.3 degC/h) above 315 degC (599 degF)",
        ),
        Bad(
            (("  cool  to 315 degC   at most 200 degC/h\n", ""),),
            at="cool",
            says="down from 730 degC (1346 degF) … at most 600 degF/h (333.3 degC/h) above 315 degC (599 degF)",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "  heat  to 715 degC   at most 200 degC/h",
                    "  heat  to 715 degC   at most 200 degC/h above {}",
                ),
            ),
            keeps="316 degC",
            breaks="317 degC",
            says="up to 317 degC (603 degF) … at most 600 degF/h (333.3 degC/h) above 315 degC (599 degF)",
        ),
        Edge(
            (
                (
                    "  cool  to 315 degC   at most 200 degC/h",
                    "  cool  to 315 degC   at most 200 degC/h above {}",
                ),
            ),
            keeps="316 degC",
            breaks="317 degC",
            says="down from 317 degC (603 degF) … at most 600 degF/h (333.3 degC/h) above 315 degC (599 degF)",
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
        if isinstance(segment, Hold):
            continue
        # Free up to here: the whole step, or what lies below `above`.
        free = hottest_of(step) if segment.rate is None else segment.above
        if free is None:
            continue
        heating = isinstance(segment, Heat)
        governing = limits.of("heating rate" if heating else "cooling rate")
        demand = governing.rate_at(free - _ROUNDED) if governing is not None else None
        # A limit from the start on binds a free step only where another rate is not at work yet.
        if demand is None or (demand.above is not None and demand.above >= free - _ROUNDED):
            continue
        field = "above" if segment.rate is not None else "to"
        bound = demand.bounds["maximum"]
        assert isinstance(bound, Quantity)
        way = "up to" if heating else "down from"
        start = f" above {demand.above.both()}" if demand.above is not None else ""
        case.add(
            RULE.found(
                f"this step has no rate {way} {free.both()}, but {cited(demand.limit.source)} "
                f"allows at most {bound.both('down')}{start}",
                segment.place(field),
                address=treatment.address,
                others=places(demand.limit.source),
                notes=working(demand, "maximum"),
                help="write `at most by rule`",
                basis=demand.limit.source.basis,
            )
        )
