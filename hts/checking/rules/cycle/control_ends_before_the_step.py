"""Control and record end where the last step that is controlled does."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool

_COOL = "  cool  in insulation\n"
_END = "  end of control    150 degC"
#: 80 and 100 degC are meant alike.
_ROUNDING = Quantity.of(25, "K", DIFFERENCE)

RULE = Rule(
    "Y140",
    "control-ends-before-the-step",
    "warning",
    summary="A bake whose last step cools with a rate to a temperature below that at which control "
    "and record end, or that stops far above it.",
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
        Edge(
            (
                (_END, "  end of control    60 degC"),
                (_COOL, "  cool  to {} at most 100 degC/h\n"),
            ),
            keeps="85 degC",
            breaks="86 degC",
            base="bake",
            says="ends at 60 degC, and the last step at 86 degC",
        ),
    ),
    good=(
        Good(
            (
                (_END, "  end of control    60 degC"),
                (_COOL, f"  cool  to 60 degC at most 100 degC/h\n{_COOL}"),
            ),
            base="bake",
        ),
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
    if last is None or last.to is None or not last.says("rate"):
        return
    if end <= last.to:
        _stops_above(case, treatment, last, end)
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


def _stops_above(case: Case, treatment: Treatment, last: Cool, end: Quantity) -> None:
    """Tells of a bake that is controlled further down than any step of it goes."""
    entry = treatment.entry
    if last is not entry.segments[-1] or last.to is None or last.to <= end + _ROUNDING:
        return
    case.add(
        RULE.found(
            f"control of {treatment.name} ends at {end}, and the last step at {last.to}: nothing says how it "
            "cools in between",
            last.place("to"),
            address=treatment.address,
            others=[Label(entry.place("end_control"), "control")],
            basis=RULE.basis,
        )
    )
