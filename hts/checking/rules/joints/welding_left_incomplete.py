"""The welding line of a treated joint names what treatment and preheat hang on."""

from __future__ import annotations

from collections.abc import Iterator

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import open_point_on
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_LINE = '"WPS-12" layers multiple process "GTAW and SMAW"'

RULE = Rule(
    "J209",
    "welding-left-incomplete",
    "advice",
    summary="A treated joint whose welding line names no welding procedure, or no filler where its "
    "metal bounds the hold.",
    why="The top of the hold of a 9Cr weld hangs on the nickel and manganese of its filler; all else "
    "stands in the welding procedure.",
    fix="Write the number of the welding procedure, and its `filler`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_LINE, 'layers multiple process "SMAW"'),), at="welding"),),
    good=(Good(((_LINE, '"WPS-12"'),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    welding = joint.entry.welding
    if welding is None or not welding.sound or not treated(joint):
        return
    words = list(_lacking(joint))
    if words and not open_point_on(case, "wps", "welding procedure"):
        case.add(
            RULE.found(
                f"the welding of {joint.name} does not state {', '.join(words)}",
                welding.place("procedure" if welding.procedure is not None else ""),
                address=joint.address,
                basis=RULE.basis,
            )
        )


def _lacking(joint: Joint) -> Iterator[str]:
    welding = joint.entry.welding
    assert welding is not None
    if welding.procedure is None:
        yield "the number of its procedure"
    if welding.filler is None and _creep_resisting(joint):
        yield "its filler"


def _creep_resisting(joint: Joint) -> bool:
    figures = [side.figure("p_number") for side in joint.sides]
    return any(figure is not None and str(figure.value) == "15E" for figure in figures)
