"""Preheat is measured on a face that somebody can reach."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_PROBE = "contact probe at 3 in"
#: Outside diameter of a pipe that nobody can enter.
_NARROW = Quantity.of(610, "mm", LENGTH)
_BY_HAND = ("contact probe", "temperature-indicating crayon")

RULE = Rule(
    "P139",
    "probe-in-the-bore",
    "advice",
    summary="A probe or crayon for the face away from the heat of a pipe that is heated from "
    "outside and too narrow for anybody to reach into.",
    why="That face is the bore: what is written cannot be done, and each welder measures where he "
    "likes.",
    fix="Write `on face toward the welder`, or a thermocouple that `monitors inside`.",
    source="ISO 13916:2017 4.1: where the face away from the heat cannot be reached, the face that "
    "the welder works on",
    basis="memory",
    edges=(
        Edge(
            (
                ("  pipe       NPS 6 schedule 80\n", "  pipe       outside diameter {}\n"),
                (_PROBE, f"{_PROBE} on face away from the heat"),
            ),
            keeps="611 mm",
            breaks="610 mm",
            at="face away from the heat",
            says="610 mm (24.02 in)",
            base="preheat",
        ),
    ),
    good=(Good(((_PROBE, f"{_PROBE} on face toward the welder"),), base="preheat"),),
    agrees=(Agreement("preheat.measured by.on", "joint.pipe", "a face somebody can reach"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat, diameter = joint.preheat, joint.outside_diameter
    if preheat is None or not preheat.sound or diameter is None or diameter > _NARROW:
        return
    if not goes_round(joint):
        return
    for way in preheat.measured:
        if way.how in _BY_HAND and way.face == "face away from the heat":
            case.add(
                RULE.found(
                    f"the face of {joint.name} away from the heat is the bore of a pipe of "
                    f"{diameter.both()}",
                    way.place("face"),
                    address=f"{joint.address}/preheat",
                    others=[Label(joint.place("names"), "the joint")],
                    basis=RULE.basis,
                )
            )
            return
