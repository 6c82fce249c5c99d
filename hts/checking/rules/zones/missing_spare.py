"""A controlling thermocouple has a spare beside it."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import asked, spares
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import CONTROLS, Joint

RULE = Rule(
    "Z107",
    "missing-spare",
    "error",
    summary="A controlling thermocouple without a spare.",
    why="When it fails at temperature, the insulation cannot be opened to attach another, and the "
    "cycle is lost.",
    fix="Add a thermocouple that is `spare for` it, with a lead of its own.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("    T2S  spare for T2            at 6:10  on weld              channel 8\n", ""),),
            at="T2",
        ),
    ),
    good=(Good((("channel 8", "not connected"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    spared = {tc.spare_of.tag for tc in joint.thermocouples if tc.spare_of is not None}
    bare = [tc for tc in joint.thermocouples if tc.tag not in spared and tc.duty == CONTROLS]
    if not bare or asked(case, limits_of(case, joint), lambda what: spares(what, CONTROLS)):
        return
    for tc in bare:
        case.add(
            RULE.found(
                f"{tc.tag} controls without a spare",
                tc.place("name"),
                address=tc.address,
                basis="practice",
                help=f"write, for example: {tc.tag}S spare for {tc.tag} beside it, with its "
                "own channel or `not connected`",
            )
        )
