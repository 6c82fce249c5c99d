"""Between preheat and interpass temperature there is room to weld."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "P103",
    "interpass-below-preheat",
    "error",
    floor="error",
    summary="A highest interpass temperature that is not above the preheat.",
    why="That leaves no temperature at which welding is allowed.",
    fix="Correct one of the two temperatures.",
    source="arithmetic: the two temperatures",
    basis="derived",
    bad=(
        Bad(
            (("at most 315 degC\n", "at most 140 degC\n"),),
            at="140 degC",
            says="at most 140 degC (284 degF) … at least 150 degC (302 degF)",
        ),
        Bad(
            (("at most 315 degC\n", "at most 150 degC\n"),),
            at="150 degC",
            says="at most 150 degC (302 degF) … at least 150 degC (302 degF)",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or preheat.interpass is None:
        return
    limits = limits_of(case, joint)
    least, most = limits.preheat(), limits.interpass()
    if least is not None and most is not None and most <= least:
        case.add(
            RULE.found(
                f"the interpass temperature is at most {most.both()}, the preheat at least "
                f"{least.both('up')}",
                preheat.interpass.place("at_most"),
                address=f"{joint.address}/preheat",
                others=[Label(preheat.place("at_least"), "the preheat")],
            )
        )
