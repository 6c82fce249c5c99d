"""A weld that the owner wants baked out is."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import asked
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_LINE = "  requires spare for controlling thermocouples"

RULE = Rule(
    "R109",
    "bake-missing",
    "error",
    summary="A joint without the hydrogen release that a procedure requires.",
    why="Hydrogen that stays in a hard weld cracks it hours after it has cooled.",
    fix="Add a bake for the joint that begins from preheat.",
    source="the procedure that requires it",
    basis="derived",
    bad=(
        Bad(
            ((_LINE, f"  requires bake when thicker_wall > 20 mm\n{_LINE}"),),
            base="procedure",
            at="W12",
        ),
    ),
    good=(
        Good(((_LINE, f"  requires bake when thicker_wall > 40 mm\n{_LINE}"),), base="procedure"),
        Good(((_LINE, f"  requires bake\n{_LINE}"),), base="bake"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    # A job that only preheats or only treats may leave the bake to another one.
    if joint.bakes or joint.preheat is None or not joint.cycles:
        return
    # A bake that could not be read whole may be the one for this joint.
    if any(not bake.sound for bake in case.spec.file.bakes):
        return
    for authority, line in asked(case, limits_of(case, joint), "bakes"):
        case.add(
            RULE.found(
                f"{authority.name} requires a bake of {joint.name} after welding, and there is none",
                joint.place("names"),
                address=joint.address,
                others=[Label(line.place(), "required here")],
                notes=[line.note] if line.note else [],
            )
        )
        return
