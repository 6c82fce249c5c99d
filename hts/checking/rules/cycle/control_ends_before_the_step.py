"""Control and record last as long as the last step that is controlled."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import broken
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool

_COOL = "  cool  to 315 degC   at most 200 degC/h\n"

RULE = Rule(
    "Y140",
    "control-ends-before-the-step",
    "warning",
    summary="A last step of cooling with a rate, to a temperature below that at which control and "
    "record end.",
    why="From the end of control on nobody keeps the rate, and nothing shows how the part cooled.",
    fix="End control at the temperature the last step cools to, or let the step end there.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_COOL, "  cool  to {} at most 200 degC/h\n"),),
            keeps="300 degC",
            breaks="299 degC",
            at="300 degC",
            says="cools to 299 degC … ends at 300 degC",
        ),
    ),
    good=(
        # Below the end of control it cools by itself.
        Good(((_COOL, f"{_COOL}  cool to 60 degC\n"),)),
    ),
    agrees=(Agreement("cycle.end of control", "cycle.cool.to", "not before the last step ends"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    end = entry.end_control
    if not entry.sound or not heats(treatment) or end is None:
        return
    steps = [each for each in entry.segments if isinstance(each, Cool)]
    last = next((each for each in reversed(steps) if each.to is not None), None)
    if last is None or last.to is None or not last.says("rate") or end <= last.to:
        return
    governing = case.limits(treatment.joint, treatment).of("end of control")
    if governing is not None and broken(governing, "maximum", end):
        return  # that it ends too early is told with the limit
    case.add(
        RULE.found(
            f"{treatment.name} cools to {last.to} at a rate, and its control ends at {end}",
            entry.place("end_control"),
            address=treatment.address,
            others=[Label(last.place("to"), "the last step")],
            basis=RULE.basis,
        )
    )
