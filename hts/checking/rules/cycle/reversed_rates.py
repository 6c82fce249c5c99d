"""The fastest rate of a step is not below the slowest."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

RULE = Rule(
    "Y113",
    "reversed-rates",
    "error",
    floor="error",
    summary="A step whose fastest rate is below its slowest.",
    why="No rate can meet both.",
    fix="Correct one of the two rates.",
    source="arithmetic: the two rates",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "315 degC   at most 200 degC/h\n  cool  in",
                    "315 degC   at most 200 degC/h at least {}\n  cool  in",
                ),
            ),
            keeps="200 degC/h",
            breaks="201 degC/h",
            says="at least 201 degC/h (362 degF/h) and at most 200 degC/h (360 degF/h)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for step in treatment.entry.segments:
        if isinstance(step, Hold) or step.slowest is None or not isinstance(step.rate, Quantity):
            continue
        if step.rate < step.slowest:
            case.add(
                RULE.found(
                    f"the rate is at least {step.slowest.both()} and at most {step.rate.both()}",
                    step.place("slowest"),
                    address=treatment.address,
                    others=[Label(step.place("rate"), "at most")],
                )
            )
