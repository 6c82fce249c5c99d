"""A controlling thermocouple sits under its heaters, and not under the gap between two of them."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities.clock import PI
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import CONTROLS, SPARE, Joint

#: Width of a gap that is not stated, mm.
_USUAL = Fraction(25)
#: Narrower than NPS 2, mm.
_SMALL = 60
_GAP = "    gap at         12:00\n"

RULE = Rule(
    "Z152",
    "control-under-gap",
    "warning",
    summary="A controlling thermocouple, or its spare, under the gap between heaters, other than at the top of a pipe that lies.",
    why="It reads the cold strip, and the controller drives the rest of its zone too hot. At the top "
    "the heat that rises makes up for the gap.",
    fix="Turn the heaters so that the gap lies between two zones, or correct its place.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_GAP, "    gap at         5:45\n"),),
            at="5:45",
            says="T2, which controls, sits 21 mm from the gap between heaters at 5:45",
        ),
    ),
    edges=(
        Edge(
            ((_GAP, "    gap at         {}\n"),),
            keeps="5:42",
            breaks="5:43",
            says="sits 24 mm from the gap between heaters at 5:43",
        ),
    ),
    good=(
        Good(((_GAP, "    gap at         9:00\n"),)),
        Good(((_GAP, "    gap at most    10 mm\n    gap at         5:50\n"),)),
    ),
    agrees=(
        Agreement(
            "joint.heating.gap at",
            "joint.thermocouples.thermocouple.controls",
            "not over what controls",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating, diameter = joint.entry.heating, joint.outside_diameter
    gap = heating.gap_at if heating is not None else None
    if heating is None or gap is None or diameter is None or not goes_round(joint):
        return
    # One at the bottom of a level pipe is told by itself.
    level = joint.entry.axis is None or joint.entry.axis.lies != "vertical"
    if level and (not gap.degrees or (joint.is_horizontal and gap.degrees == 180)):
        return
    # Round a small pipe no place is far off.
    if diameter.value < _SMALL:
        return
    width = heating.gap.value if heating.gap is not None else _USUAL
    for tc in joint.thermocouples:
        duty = {CONTROLS: "controls", SPARE: "is a spare"}.get(tc.duty)
        if duty is None or tc.position is None:
            continue
        apart = PI * diameter.value * gap.distance_to(tc.position) / 360
        if apart < width:
            case.add(
                RULE.found(
                    f"{tc.tag}, which {duty}, sits {round(apart)} mm from the gap between heaters at "
                    f"{gap}",
                    heating.place("gap_at"),
                    address=f"{joint.address}/heating",
                    others=[Label(tc.place("at"), "the thermocouple")],
                    basis=RULE.basis,
                )
            )
            return
