"""What is closed and heated can breathe."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_ENDS = "    ends           closed and vented\n"

RULE = Rule(
    "N121",
    "closed-without-vent",
    "warning",
    summary="Ends of the line that are closed during heat treatment, without a vent.",
    why="Shut in, air reaches three times its pressure on the way to the hold, and a cup of water "
    "many times that: ends are blown off, and hot pipe swells.",
    fix="Write `ends closed and vented`, and leave a vent open.",
    source="derived: gas at constant volume; common practice",
    basis="derived",
    bad=(Bad(((_ENDS, "    ends           closed\n"),), at="closed"),),
    good=(Good(((_ENDS, "    ends           plugged\n"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.ends != "closed" or not (treated(joint) or joint.bakes):
        return
    case.add(
        RULE.found(
            f"the ends of the line at {joint.name} are closed and not vented",
            heating.place("ends"),
            address=f"{joint.address}/heating",
        )
    )
