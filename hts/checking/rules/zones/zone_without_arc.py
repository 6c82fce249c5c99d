"""A zone says which part of the {'weld' if is_along else 'pipe'} it heats."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.model.seam import weld_along

RULE = Rule(
    "Z112",
    "zone-without-arc",
    "error",
    floor="error",
    summary="A zone that says neither its arc nor `all round`.",
    why="Nobody can lay the heaters, or see whether the controlling thermocouple is under them.",
    fix="Write `from 9:00 to 3:00`, clockwise, or `all round`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("zone top       from 9:00 to 3:00 power", "zone top       power"),), at="top"),),
    good=(
        Good(
            (
                ("zone top       from 9:00 to 3:00", "zone top       all round side upstream"),
                ("zone bottom    from 3:00 to 9:00", "zone bottom    all round side downstream"),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    is_along = weld_along(joint) is not None
    if not goes_round(joint) and not is_along:
        return
    for zone in joint.zones:
        told = zone.entry.along if is_along else zone.arc
        if zone.entry.all_round or told is not None:
            continue
        half = "first" if zone.entry.first is not None else "last"
        case.add(
            RULE.found(
                f"zone {zone.name} does not say which part of the "
                f"{'weld' if is_along else 'pipe'} it heats",
                zone.place(half if zone.entry.says(half) else "name"),
                address=zone.address,
            )
        )
