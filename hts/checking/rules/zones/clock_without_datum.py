"""On a vertical pipe somebody has to say where 12:00 is."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import is_datum_missing
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z125",
    "clock-without-datum",
    "error",
    floor="error",
    summary="Clock positions on a vertical pipe whose datum is the top, or not stated.",
    why="A vertical pipe has no top to its circumference, so no clock position can be found on it.",
    fix="Write `datum north`, `datum long seam`, `datum weld stamp` or the like.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                ("axis       horizontal", "axis       vertical"),
                ("gap at         12:00", "gap at         9:00"),
            ),
            at="top",
            says="12:00",
        ),
        Bad((("datum      top", "datum      branch"),), at="branch"),
    ),
    good=(
        Good(
            (
                ("axis       horizontal", "axis       vertical"),
                ("gap at         12:00", "gap at         9:00"),
                ("datum      top", "datum north\n  flow up"),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if entry.datum == "branch" and entry.kind in ("girth butt", "long seam"):
        case.add(
            RULE.found(
                f"the clock of {joint.name} starts at the branch, and a {entry.kind} has none",
                entry.place("datum"),
                address=joint.address,
            )
        )
        return
    if is_datum_missing(joint) and entry.axis is not None:
        at = entry.place("datum") if entry.says("datum") else entry.axis.place("lies")
        case.add(
            RULE.found(
                f"{joint.name} is vertical: its top cannot be 12:00", at, address=joint.address
            )
        )
