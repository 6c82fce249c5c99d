"""The step before a hold ends within the range of the hold."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import backwards, hold_range, steps
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool, Heat, Hold

RULE = Rule(
    "Y103",
    "hold-away-from-heat",
    "error",
    floor="error",
    summary="A hold whose range the step before does not end in.",
    why="The program takes the part to another temperature than the one it is to be held at.",
    fix="End the step before within the range of the hold.",
    source="arithmetic: temperatures of the steps",
    basis="derived",
    edges=(
        Edge(
            (("  heat  to 715 degC ", "  heat  to {} "),),
            keeps="730 degC",
            breaks="731 degC",
            says="731 degC (1348 degF) … of 700 degC (1292 degF) to 730 degC (1346 degF)",
        ),
        Edge(
            (("  heat  to 715 degC ", "  heat  to {} "),),
            keeps="700 degC",
            breaks="699 degC",
            says="699 degC (1290 degF) … of 700 degC (1292 degF) to 730 degC (1346 degF)",
        ),
        # Two lines of a bake exchanged.
        Edge(
            (
                ("  heat  to 325 degC at most 150 degC/h\n", ""),
                ("start of control  150 degC", "start of control  {}"),
            ),
            base="bake",
            keeps="300 degC",
            breaks="299 degC",
            at="hold",
            says="no step of bake leads from 299 degC (570 degF) to the hold of 300 degC (572 degF)",
        ),
    ),
    good=(Good((("  heat  to 715 degC ", "  heat  to 730 degC "),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    before = None
    # A step that leads the wrong way is told by itself.
    downwards = False
    for step in steps(case, treatment):
        segment = step.segment
        if isinstance(segment, Hold) and isinstance(before, Heat | Cool) and not downwards:
            held = hold_range(case, treatment, segment)
            reached = before.to
            if held is not None and reached is not None and not held.contains(reached):
                assert held.low is not None and held.high is not None
                where = "below" if reached < held.low else "above"
                case.add(
                    RULE.found(
                        f"the step before ends at {reached.both()}, {where} the hold of "
                        f"{held.low.both()} to {held.high.both()}",
                        before.place("to"),
                        address=treatment.address,
                        others=[Label(segment.place("range"), "hold")],
                    )
                )
        # Of a cycle it is told that no step heats to its hold.
        if before is None and isinstance(segment, Hold) and treatment.cycle is None:
            _without_step(case, treatment, segment)
        before = segment
        downwards = backwards(step)


def _without_step(case: Case, treatment: Treatment, hold: Hold) -> None:
    """A hold that comes first, above where control begins."""
    held = hold_range(case, treatment, hold)
    begins = treatment.entry.start_control
    if held is None or held.low is None or begins is None or begins >= held.low:
        return
    case.add(
        RULE.found(
            f"no step of {treatment.name} leads from {begins.both()} to the hold of {held.low.both()}",
            hold.place(),
            address=treatment.address,
            others=[Label(treatment.entry.place("start_control"), "where control begins")],
        )
    )
