"""A weld that hangs in a line says where it is made."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_MADE = "  made in    field\n"

RULE = Rule(
    "N119",
    "place-of-making-not-said",
    "advice",
    summary="A heat-treated weld with the flanges or the free length of its line stated, that "
    "does not say whether it is made in the field or in the shop.",
    why="In the field the line has to be free to grow, its springs are locked and its flanges "
    "unbolted; whoever plans the crew, the permits and the power needs to know.",
    fix="Write `made in field` or `made in shop`.",
    source="common practice, no source",
    basis="practice",
    about=("joint.made in",),
    bad=(Bad(((_MADE, "  flanges    none\n"),), at="W12"),),
    good=(Good(((_MADE, "  flanges    none\n  made in    shop\n"),)), Good(((_MADE, ""),))),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if entry.says("made") or not treated(joint):
        return
    told = [name for name in ("flanges", "unsupported_span") if entry.says(name)]
    if told:
        case.add(
            RULE.found(
                f"nothing says whether {joint.name} is made in the field or in the shop",
                entry.place("names"),
                address=joint.address,
                basis=RULE.basis,
            )
        )
