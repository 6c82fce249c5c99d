"""A heating step leads upwards."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import backwards, steps
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Heat

RULE = Rule(
    "Y101",
    "heating-downwards",
    "error",
    floor="error",
    summary="A heating step to a temperature not above the one before it.",
    why="The steps are in the wrong order, or a number is wrong; no controller could follow it.",
    fix="Put the steps in the order they are run.",
    source="arithmetic: temperatures of the steps",
    basis="derived",
    edges=(
        Edge(
            (("  heat  to 315 degC\n", "  heat  to 315 degC\n  heat  to {}\n"),),
            keeps="316 degC",
            breaks="315 degC",
            says="to 315 degC (599 degF) from 315 degC (599 degF)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for step in steps(case, treatment):
        if not isinstance(step.segment, Heat) or not backwards(step):
            continue
        assert step.end is not None and step.low is not None
        case.add(
            RULE.found(
                f"heats to {step.end.both()} from {step.low.both()}",
                step.segment.place("to"),
                address=treatment.address,
                help=f"write `cool to {step.end}`, or correct the temperature",
            )
        )
