"""A cooling step leads downwards."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import backwards, steps
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool

RULE = Rule(
    "Y102",
    "cooling-upwards",
    "error",
    floor="error",
    summary="A cooling step to a temperature not below the one before it.",
    why="The steps are in the wrong order, or a number is wrong; no controller could follow it.",
    fix="Put the steps in the order they are run.",
    source="arithmetic: temperatures of the steps",
    basis="derived",
    edges=(
        Edge(
            (("  cool  to 315 degC ", "  cool  to {}   at most 200 degC/h\n  cool  to 315 degC "),),
            keeps="729 degC",
            breaks="730 degC",
            says="to 730 degC (1346 degF) from 730 degC (1346 degF)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for step in steps(case, treatment):
        if not isinstance(step.segment, Cool) or not backwards(step):
            continue
        assert step.end is not None and step.high is not None
        case.add(
            RULE.found(
                f"cools to {step.end.both()} from {step.high.both()}",
                step.segment.place("to"),
                address=treatment.address,
                help=f"write `heat to {step.end}`, or correct the temperature",
            )
        )
