"""Control and record last as long as the last step that is controlled."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool

_COOL = "  cool  in insulation\n"

RULE = Rule(
    "Y140",
    "control-ends-before-the-step",
    "warning",
    summary="A bake whose last step cools with a rate to a temperature below that at which control "
    "and record end.",
    why="From the end of control on nobody keeps the rate, and nothing shows that the weld cooled as it "
    "has to before its treatment.",
    fix="End control at the temperature the last step cools to, or let the step end there.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_COOL, "  cool  to {} at most 100 degC/h\n" + _COOL),),
            keeps="150 degC",
            breaks="149 degC",
            at="150 degC",
            base="bake",
            says="cools to 149 degC … ends at 150 degC",
        ),
    ),
    good=(
        # It cools by itself.
        Good(((_COOL, f"  cool  to 60 degC\n{_COOL}"),), base="bake"),
    ),
    agrees=(Agreement("bake.end of control", "bake.cool.to", "not before the last step ends"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    end = entry.end_control
    if not entry.sound or not treatment.is_bake or end is None:
        return
    steps = [each for each in entry.segments if isinstance(each, Cool)]
    last = next((each for each in reversed(steps) if each.to is not None), None)
    if last is None or last.to is None or not last.says("rate") or end <= last.to:
        return
    case.add(
        RULE.found(
            f"{treatment.name} cools to {last.to} at a rate, and its control ends at {end}",
            entry.place("end_control"),
            address=treatment.address,
            others=[Label(last.place("to"), "the last step")],
            basis=RULE.basis,
        )
    )
