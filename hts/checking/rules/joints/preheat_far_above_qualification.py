"""The preheat a weld is made with is near that of the test piece."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

#: A test piece of carbon steel is welded at ambient temperature, the thick wall with 95 degC.
_RISE = Quantity.of(90, "K", DIFFERENCE)

RULE = Rule(
    "J215",
    "preheat-far-above-qualification",
    "advice",
    summary="A preheat more than 90 K above that of the qualification.",
    why="So much preheat cools the weld far more slowly than the test piece: other strength and "
    "toughness than were tested, or a slip in one of the two figures.",
    fix="Correct the figure that is wrong, or use a qualification nearer to the weld.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (("hold 8 h condition", "hold 8 h preheat {} condition"),),
            keeps="60 degC",
            breaks="59 degC",
            says="is 150 degC (302 degF) … 59 degC (138 degF)",
        ),
    ),
    good=(Good((("hold 8 h condition", "hold 8 h preheat 150 degC condition"),)),),
    agrees=(Agreement("joint.qualified.preheat", "preheat.at least", "near it, either way"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None:
        return
    least = limits_of(case, joint).preheat()
    for qualified in joint.entry.qualified:
        if qualified.preheat is None or least is None or least - qualified.preheat <= _RISE:
            continue
        case.add(
            RULE.found(
                f"the preheat of {joint.name} is {least.both()}, {qualified.record} was "
                f"qualified at {qualified.preheat.both()}",
                qualified.place("preheat"),
                address=joint.address,
                others=[Label(preheat.place("at_least"), "the preheat")],
                basis=RULE.basis,
            )
        )
