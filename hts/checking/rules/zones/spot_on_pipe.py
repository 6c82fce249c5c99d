"""A weld round a pipe is heated all round."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import ROUND
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_BAND = "    soak band      by rule\n"

RULE = Rule(
    "Z132",
    "spot-on-pipe",
    "warning",
    summary="A weld that goes round a pipe, heat treated in one spot.",
    why="A hot spot in a cold ring is squeezed until it yields, and leaves more stress than it "
    "relieves.",
    fix="Heat a full band: `technique full band`.",
    source="ASME B31.3-2012 331.2.6 (as quoted elsewhere): a circumferential band is held in range",
    basis="published",
    bad=(Bad(((_BAND, f"    technique local spot\n{_BAND}"),), at="local spot"),),
    good=(Good(((_BAND, f"    technique full band\n{_BAND}"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.technique != "local spot" or joint.entry.kind not in ROUND:
        return
    if treated(joint):
        case.add(
            RULE.found(
                f"{joint.name} goes round the pipe and is heated in one spot",
                heating.place("technique"),
                address=f"{joint.address}/heating",
            )
        )
