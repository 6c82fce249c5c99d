"""A thermocouple that controls is wired to the controller."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Rule
from hts.language.model.joint import CONTROLS, Joint

RULE = Rule(
    "Z139",
    "control-without-channel",
    "warning",
    summary="A thermocouple that controls a zone, without the channel of the controller it goes to.",
    why="At the pipe somebody chooses a channel; the zone heats by the thermocouple of another.",
    fix="Write `control channel` and its number.",
    source="common practice, no source",
    basis="practice",
    about=("joint.thermocouples.thermocouple.control channel",),
    bad=(
        Bad(
            (
                (
                    "T1   controls top            at 12:00 on weld              channel 1   "
                    "control channel 1",
                    "T1   controls top            at 12:00 on weld              channel 1",
                ),
            ),
            at="T1",
        ),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.control channel",
            "joint.thermocouples.thermocouple.controls",
            "one for each that controls",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    controllers = [treatment.controller for treatment in case.treatments(joint)]
    inputs = [
        one.channels.count
        for one in controllers
        if one is not None and one.channels and one.channels.count is not None
    ]
    # A controller with too few channels is told as that.
    if not inputs or min(inputs) < len(joint.zones):
        return
    for tc in joint.thermocouples:
        if tc.duty == CONTROLS and tc.control_channel is None:
            zone = tc.zone.name if tc.zone is not None else "a zone"
            case.add(
                RULE.found(
                    f"{tc.tag} controls {zone}, and no channel of the controller is named",
                    tc.place("name"),
                    address=tc.address,
                    basis=RULE.basis,
                )
            )
