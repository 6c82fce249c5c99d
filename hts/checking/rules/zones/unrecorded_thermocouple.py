"""A thermocouple that controls or monitors is recorded."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import SPARE, Joint

RULE = Rule(
    "Z111",
    "unrecorded-thermocouple",
    "warning",
    summary="A controlling or monitoring thermocouple without a recorder channel.",
    why="What it shows leaves no trace on the chart, and tags cannot be matched to channels.",
    fix="Write its recorder channel.",
    source="common practice, no source",
    basis="practice",
    about=("joint.thermocouples.thermocouple.channel",),
    bad=(Bad((("40 mm downstream    channel 3", "40 mm downstream"),), at="T3"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not (joint.cycles or joint.bakes):
        return
    for tc in joint.thermocouples:
        if tc.duty not in ("", SPARE) and tc.entry.channel is None:
            case.add(
                RULE.found(
                    f"{tc.tag} {tc.duty} but has no recorder channel",
                    tc.place("name"),
                    address=tc.address,
                )
            )
