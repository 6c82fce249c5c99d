"""The setpoint of a hold lies within its range."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Bad, Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y104",
    "target-outside-range",
    "error",
    floor="error",
    summary="A setpoint outside the range of its hold, or at the very end of it.",
    why="The controller would hold the part where it must not be; at the end of the range every "
    "other reading is outside.",
    fix="Choose a target within the range; the middle unless there is a reason.",
    source="arithmetic: the range of the hold",
    basis="derived",
    bad=(
        Bad(
            (("730 degC for 2 h", "730 degC for 2 h target 731 degC"),),
            at="731 degC",
            says="of 731 degC (1348 degF) … of 700 degC (1292 degF) to 730 degC (1346 degF)",
        ),
    ),
    edges=(
        Edge(
            (
                ("730 degC for 2 h", "730 degC for 2 h target {}"),
                ("  heat  to 715 degC ", "  heat  to {} "),
            ),
            keeps="729 degC",
            breaks="730 degC",
            says="of 730 degC (1346 degF) … of 700 degC (1292 degF) to 730 degC (1346 degF)",
        ),
        Edge(
            (
                ("730 degC for 2 h", "730 degC for 2 h target {}"),
                ("  heat  to 715 degC ", "  heat  to 704 degC "),
            ),
            keeps="701 degC",
            breaks="700 degC",
            says="of 700 degC (1292 degF) … of 700 degC (1292 degF) to 730 degC (1346 degF)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for hold, held in holds(case, treatment):
        if hold.target is None:
            continue
        assert held.low is not None and held.high is not None
        outside = not held.contains(hold.target)
        if outside or hold.target in (held.low, held.high):
            case.add(
                RULE.found(
                    f"the target of {hold.target.both()} lies "
                    f"{'outside' if outside else 'at the end of'} the hold of "
                    f"{held.low.both()} to {held.high.both()}",
                    hold.place("target"),
                    address=treatment.address,
                    others=[Label(hold.place("range"), "the range")],
                    # That a swing about the end leaves the range is practice, and warns.
                    basis=RULE.basis if outside else "practice",
                )
            )
