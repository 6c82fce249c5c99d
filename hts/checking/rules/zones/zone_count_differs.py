"""There are as many zones as the text says."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import counted
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z127",
    "zone-count-differs",
    "error",
    summary="A stated number of zones that is not the number of zones described.",
    why="A zone was forgotten, or is described twice.",
    fix="Describe each zone once, or correct the number.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("    band ratio     5\n", "    zones          3\n    band ratio     5\n"),),
            at="3",
            says="3 zones … 2 described",
        ),
    ),
    good=(Good((("    band ratio     5\n", "    zones  by rule\n    band ratio     5\n"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    stated = heating.zone_count if heating is not None else None
    if heating is not None and isinstance(stated, int) and stated != len(joint.zones):
        case.add(
            RULE.found(
                f"{counted(stated, 'zone')} stated, {len(joint.zones)} described",
                heating.place("zone_count"),
                address=f"{joint.address}/heating",
            )
        )
