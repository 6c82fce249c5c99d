"""A spare says how it is led out."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import SPARE, Joint

RULE = Rule(
    "Z109",
    "spare-without-channel",
    "warning",
    summary="A spare with neither a channel nor a lead of its own, nor `not connected`.",
    why="A spare on the lead of the thermocouple that failed is no spare.",
    fix="Give it a channel, or write `not connected` and the length of its lead.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("at 6:10  on weld              channel 8", "at 6:10  on weld"),), at="T2S"),),
    good=(
        Good((("at 6:10  on weld              channel 8", "at 6:10  on weld  not connected"),)),
        Good((("at 6:10  on weld              channel 8", "at 6:10  on weld  lead 3 m"),)),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        entry = tc.entry
        if tc.duty == SPARE and not (
            entry.not_connected
            or entry.channel is not None
            or entry.lead is not None
            or entry.control_channel is not None
        ):
            case.add(
                RULE.found(
                    f"{tc.tag} does not say which lead or channel of its own it has",
                    tc.place("name"),
                    address=tc.address,
                )
            )
