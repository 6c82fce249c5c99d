"""The range of what measures preheat has both its ends."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_RANGE = " from 0 degC to 400 degC"

RULE = Rule(
    "P125",
    "probe-range-open",
    "warning",
    summary="An instrument for preheat of whose range one end alone is given.",
    why="Whether it can read the preheat, or the interpass temperature, cannot be told.",
    fix="Write both ends: `from 0 degC to 400 degC`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_RANGE, " from 0 degC"),), at="contact probe"),
        Bad(((_RANGE, " to 400 degC"),), at="contact probe"),
    ),
    good=(Good(((_RANGE, ""),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for way in joint.preheat.measured if joint.preheat is not None else ():
        if (way.lowest is None) is (way.highest is None):
            continue
        end, given = ("upper", "from") if way.highest is None else ("lower", "to")
        case.add(
            RULE.found(
                f"the range of the {way.how} at {joint.name} has no {end} end",
                way.place("how"),
                address=f"{joint.address}/preheat",
                label=f"only `{given}` is written",
                basis=RULE.basis,
            )
        )
