"""Between preheat and interpass temperature there is room to weld."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

#: K. What a pass or two adds.
_ROOM = Quantity.of(25, "K", DIFFERENCE)
_INTERPASS = "interpass         at most 315 degC"

RULE = Rule(
    "P116",
    "narrow-interpass-window",
    "warning",
    summary="An interpass maximum less than 25 K (45 degF) above the preheat.",
    why="Every pass leaves the joint too hot for the next, so that either the rule is broken or "
    "the work stops; often one of the two is in the wrong unit.",
    fix="Raise the interpass maximum, or look at its unit.",
    source="common practice, no source (25 K)",
    basis="practice",
    edges=(
        Edge(
            ((_INTERPASS, "interpass         at most {}"),),
            keeps="175 degC",
            breaks="174 degC",
            says="150 degC (302 degF) and 174 degC (345 degF)",
        ),
        Edge(
            ((_INTERPASS, "interpass         at most {}"),),
            keeps="347 degF",
            breaks="346 degF",
            says="150 degC (302 degF) and 346 degF (174 degC)",
        ),
    ),
    good=(Good(((_INTERPASS, "interpass         at most 180 degC"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or preheat.interpass is None:
        return
    limits = limits_of(case, joint)
    least, most = limits.preheat(), limits.interpass()
    # One that is not above the preheat at all is told by another rule.
    if least is None or most is None or not least < most:
        return
    if most < least + _ROOM:
        case.add(
            RULE.found(
                f"the joint may be between {least.both()} and {most.both()} for the next pass",
                preheat.interpass.place("at_most"),
                address=f"{joint.address}/preheat",
                others=[Label(preheat.place("at_least"), "the preheat")],
                basis=RULE.basis,
            )
        )
