"""Every word for a side is tied to the end the clock is seen from, and on a riser to up and down."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import is_datum_missing
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.model.orientation import BRANCH, FLOW, HEIGHT, LETTERS, Orientation, untied

_UPRIGHT = (
    ("axis       horizontal", "axis       vertical"),
    ("gap at         12:00", "gap at         9:00"),
    ("datum      top", "datum      north"),
)

RULE = Rule(
    "Z133",
    "sides-not-settled",
    "warning",
    summary="Words for the sides of a weld that nothing relates to each other, or on a riser to "
    "up and down.",
    why="Whoever takes the other end for upstream puts every thermocouple of an edge on the wrong "
    "side of the weld, and a drawing can show it only as a guess.",
    fix="State the flow in every way the sides are named: `flow up`, `flow A to B`, `flow A to B, "
    "up`.",
    source="geometry: the clock turns round when the gaze does",
    basis="derived",
    bad=(
        Bad(_UPRIGHT, at="vertical"),
        Bad((("viewed     with flow", "viewed     from side A"),), at="40 mm downstream"),
        Bad(
            (
                *_UPRIGHT,
                ("viewed     with flow", "viewed     from side A"),
                ("40 mm downstream", "40 mm side B"),
                ("40 mm upstream", "40 mm side A"),
                ("287 mm downstream", "287 mm side B"),
                ("287 mm upstream", "287 mm side A"),
                ("1.2 m upstream", "1.2 m side A"),
            ),
            at="vertical",
        ),
    ),
    good=(
        Good((*_UPRIGHT, ("viewed     with flow", "viewed     with flow\n  flow up"))),
        Good((("viewed     with flow", "viewed     from side A\n  flow A to B"),)),
    ),
)

#: What ties two pairs.
_TIES = {
    frozenset((FLOW, HEIGHT)): "write `flow up` or `flow down`",
    frozenset((LETTERS, HEIGHT)): "write `flow A to B, up` or the like",
    frozenset((FLOW, LETTERS)): "write `flow A to B` or `flow B to A`",
    frozenset((FLOW, BRANCH)): "write `flow run to branch` or `flow branch to run`",
}


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    orientation = Orientation(joint.entry)
    found = None if orientation.clashes else untied(joint, orientation)
    if found is None or is_datum_missing(joint):
        return
    case.add(
        RULE.found(
            f"{joint.name} does not say whether {found.side} is {' or '.join(found.other)}",
            found.at,
            address=joint.address,
            help=_TIES.get(frozenset((found.pair, found.other)), ""),
        )
    )
