"""The setpoint of a hold is where the step before it ends."""

from __future__ import annotations

from itertools import pairwise

from hts.base.findings import Label
from hts.base.quantities import Interval, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Heat, Hold

#: K; a figure of the one unit turned into the other is rounded.
_ROUNDED = 3

RULE = Rule(
    "Y141",
    "target-unlike-step",
    "warning",
    summary="A hold whose stated setpoint is not where the heating step before it ends.",
    why="One of the two is a slip: the program jumps at the beginning of the hold, or runs close to an "
    "end of its range.",
    fix="Heat to the target of the hold.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                (
                    "  hold  700 .. 730 degC for 2 h",
                    "  hold  700 .. 730 degC for 2 h target {}",
                ),
            ),
            keeps="718 degC",
            breaks="719 degC",
            says="to 715 degC (1319 degF) … held at 719 degC (1326 degF)",
        ),
    ),
    agrees=(Agreement("cycle.hold.target", "cycle.heat.to", "the step ends at the setpoint"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    if not treatment.entry.sound or not heats(treatment):
        return
    for step, hold in pairwise(treatment.entry.segments):
        if not isinstance(step, Heat) or not isinstance(hold, Hold):
            continue
        to, target = step.to, hold.target
        if to is None or target is None or abs(to.value - target.value) <= _ROUNDED:
            continue
        held = case.limits(treatment.joint, treatment).hold_range(hold)
        # A setpoint, or a step, beyond the range is told as that.
        if held is None or not all(_is_within(each, held) for each in (to, target)):
            continue
        case.add(
            RULE.found(
                f"{treatment.name} heats to {to.both()} and is held at {target.both()}",
                hold.place("target"),
                address=treatment.address,
                others=[Label(step.place("to"), "the step before")],
                basis=RULE.basis,
            )
        )


def _is_within(figure: Quantity, held: Interval) -> bool:
    low, high = held.low, held.high
    return (low is None or low < figure) and (high is None or figure < high)
