"""The clock of a level pipe starts at its top where places mean top and bottom."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_DATUM = "datum      top"
_LEVEL = ("top", "bottom")

RULE = Rule(
    "Z153",
    "level-pipe-without-top",
    "warning",
    summary="A horizontal pipe whose 12:00 is north, or another mark than the top while its zones are "
    "called top and bottom.",
    why="The bottom is the coldest place, and it is then watched and heated somewhere else.",
    fix="Write `datum top`, or name the zones after the mark.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_DATUM, "datum      north"),), at="north", says="12:00 of W12 is north"),
        Bad(((_DATUM, "datum      weld stamp"),), at="weld stamp", says="zone top of W12"),
    ),
    good=(
        Good(
            (
                (_DATUM, "datum      weld stamp"),
                ("zone top       from", "zone near      from"),
                ("zone bottom    from", "zone far       from"),
                ("controls top  ", "controls near "),
                ("controls bottom", "controls far   "),
            )
        ),
    ),
    agrees=(Agreement("joint.datum", "joint.axis", "12:00 is the top of a level pipe"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if entry.datum in (None, "top", "branch") or not joint.is_horizontal or not goes_round(joint):
        return
    named = [zone for zone in joint.zones if zone.name in _LEVEL]
    if entry.datum == "north":
        message = f"{joint.name} is horizontal, and 12:00 of {joint.name} is north, not the top"
    elif named:
        message = f"zone {named[0].name} of {joint.name} counts from the {entry.datum}, not the top"
    else:
        return
    case.add(
        RULE.found(
            message,
            entry.place("datum"),
            address=joint.address,
            others=[Label(zone.place("name"), "its zone") for zone in named],
            basis=RULE.basis,
        )
    )
