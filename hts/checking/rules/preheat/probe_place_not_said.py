"""What measures preheat says where on the metal."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_PROBE = "contact probe at 76 mm on face toward the welder"

RULE = Rule(
    "P130",
    "probe-place-not-said",
    "advice",
    summary="A probe, crayon or pyrometer for preheat without the distance from the groove it is "
    "used at.",
    why="Beside the arc everything is warm enough: the reading shows the last pass, and the metal "
    "that has to take up its heat is cold.",
    fix="Write `at` with the distance from the edge of the groove, and `on` which face.",
    source="ISO 13916:2017 4.1 names a distance by wall and the face toward the welder",
    basis="published",
    about=("preheat.measured by.at",),
    bad=(Bad(((_PROBE, "contact probe"),), at="contact probe"),),
    good=(Good(((_PROBE, "contact probe at 76 mm"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound:
        return
    for way in preheat.measured:
        if way.how != "thermocouple" and way.at is None:
            case.add(
                RULE.found(
                    f"nothing says at what distance from the groove the {way.how} is used on "
                    f"{joint.name}",
                    way.place("how"),
                    address=f"{joint.address}/preheat",
                )
            )
            return
