"""A thermocouple that only monitors is not wired to the controller."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import MONITORS, Joint

RULE = Rule(
    "Z106",
    "monitor-on-control-channel",
    "error",
    floor="error",
    summary="A monitoring thermocouple with a control channel.",
    why="Its reading would drive heaters it does not lie under.",
    fix="Remove the control channel, or let the thermocouple control a zone.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("40 mm downstream    channel 3", "40 mm downstream    channel 3 control channel 3"),),
            at="3",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        if tc.duty == MONITORS and tc.entry.control_channel is not None:
            case.add(
                RULE.found(
                    f"{tc.tag} monitors the {tc.entry.monitors} but has control channel "
                    f"{tc.control_channel}",
                    tc.place("control_channel"),
                    address=tc.address,
                )
            )
