"""The hot pipe can grow."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.helpers.supports import hangs_in_a_line
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "N103",
    "restrained-expansion",
    "warning",
    summary="A line heat treated locally that cannot expand, or in the field is not said to be free to.",
    why="Hot steel has little strength: a line that cannot expand bends, or pulls the weld apart.",
    fix="Free the line and write `expansion free`, or show by a calculation that it is strong "
    "enough.",
    source="AWS D10.10:2021 on supports and expansion",
    basis="published",
    bad=(
        Bad((("  expansion  free\n", "  expansion  restrained\n"),), at="restrained"),
        Bad((("  expansion  free\n", ""),), at="W12"),
        Bad(
            (
                ("  expansion  free\n", "  expansion  restrained\n"),
                ("made in    field", "made in    shop"),
            ),
            at="restrained",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if not treated(joint) or not hangs_in_a_line(joint):
        return
    if entry.expansion is None and entry.made != "field":
        return
    if entry.expansion in (None, "restrained"):
        state = "is restrained" if entry.expansion else "is not mentioned"
        at = entry.place("expansion" if entry.expansion else "names")
        case.add(
            RULE.found(
                f"the expansion of the line at {joint.name} {state}", at, address=joint.address
            )
        )
