"""View, flow and the way the pipe lies agree."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.model.orientation import Orientation

RULE = Rule(
    "Z134",
    "sides-contradict",
    "error",
    floor="error",
    summary="A view or a flow that cannot be, given how the pipe lies or what else is stated.",
    why="One of the two is wrong, and with it left and right of every clock position or the sides "
    "of the weld are changed over.",
    fix="Look at the line: state how it lies, which way it flows, and from where the clock is "
    "viewed.",
    source="geometry",
    basis="derived",
    bad=(
        Bad((("viewed     with flow", "viewed     from above"),), at="from above"),
        Bad((("viewed     with flow", "viewed     with flow\n  flow up"),), at="up"),
        Bad(
            (
                ("axis       horizontal", "axis       vertical"),
                ("gap at         12:00", "gap at         9:00"),
                ("datum      top", "datum      weld stamp"),
                ("viewed     with flow", "viewed     from north\n  flow up"),
            ),
            at="from north",
        ),
        Bad((("viewed     with flow", "viewed     from north\n  flow east"),), at="east"),
    ),
    good=(Good((("viewed     with flow", "viewed     from north\n  flow south"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for clash in Orientation(joint.entry).clashes[:1]:
        case.add(
            RULE.found(
                f"{joint.name}: {clash.words}",
                joint.place(clash.field),
                address=joint.address,
            )
        )
