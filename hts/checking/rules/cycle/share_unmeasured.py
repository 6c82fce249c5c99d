"""A share of the hold temperature is shown by a thermocouple at its place."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.model.joint import MONITORS, Treatment

_LINE = "  rate margin  "

RULE = Rule(
    "Y123",
    "share-unmeasured",
    "error",
    summary="A share of the hold temperature is asked for at a place that no thermocouple "
    "monitors, or its least is above its greatest.",
    why="Nobody can tell afterwards how steep the slope of temperature beside the weld was.",
    fix="Add a thermocouple that monitors the place, on each side of the weld.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_LINE, f"  share of hold at least 50 % at gradient edge\n{_LINE}"),),
            at="gradient edge",
        ),
    ),
    edges=(
        Edge(
            (
                (
                    "  rate margin  ",
                    "  share of hold at least 60 % at most {} at heated edge\n  rate margin  ",
                ),
            ),
            keeps="60 %",
            breaks="59 %",
            says="at most 59 % … at least 60 %",
        ),
    ),
    good=(Good(((_LINE, f"  share of hold at least 50 % at heated edge\n{_LINE}"),)),),
    agrees=(
        Agreement("cycle.share of hold.at", "joint.thermocouples.thermocouple.monitors", "alike"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    watched = {tc.entry.monitors for tc in treatment.joint.thermocouples if tc.duty == MONITORS}
    for share in treatment.entry.shares:
        if share.place_ is not None and share.place_ not in watched:
            case.add(
                RULE.found(
                    f"no thermocouple of {treatment.joint.name} monitors the {share.place_}",
                    share.place("place_"),
                    address=treatment.address,
                )
            )
        if share.least is not None and share.most is not None and share.most < share.least:
            case.add(
                RULE.found(
                    f"at most {share.most} is less than at least {share.least}",
                    share.place("most"),
                    address=treatment.address,
                )
            )
