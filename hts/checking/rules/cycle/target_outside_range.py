"""The setpoint of a hold lies within its range."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y104",
    "target-outside-range",
    "error",
    floor="error",
    summary="A setpoint outside the range of its hold.",
    why="The controller would hold the part where it must not be.",
    fix="Choose a target within the range; the middle unless there is a reason.",
    source="arithmetic: the range of the hold",
    basis="derived",
    edges=(
        Edge(
            (("730 degC for 2 h", "730 degC for 2 h target {}"),),
            keeps="730 degC",
            breaks="731 degC",
            says="of 731 degC (1348 degF) … of 700 degC (1292 degF) to 730 degC (1346 degF)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for hold, held in holds(case, treatment):
        if hold.target is not None and not held.contains(hold.target):
            assert held.low is not None and held.high is not None
            case.add(
                RULE.found(
                    f"the target of {hold.target.both()} lies outside the hold of "
                    f"{held.low.both()} to {held.high.both()}",
                    hold.place("target"),
                    address=treatment.address,
                    others=[Label(hold.place("range"), "the range")],
                )
            )
