"""No draught through the bore."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "N101",
    "open-ends",
    "warning",
    summary="Ends of the line that are open during heat treatment, or not mentioned.",
    why="A draught through the bore cools the inside by more than the heaters can add.",
    fix="Write `ends closed and vented`.",
    source="AWS D10.10:2021",
    basis="published",
    about=("joint.heating.ends",),
    bad=(
        Bad((("    ends           closed and vented\n", "    ends           open\n"),), at="open"),
        Bad((("    ends           closed and vented\n", ""),), at="heating"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.method == "furnace":
        return
    # A typical weld of a library is there to be treated, and may leave the ends to the jobs.
    typical = case.spec.file.job is None and heating.ends == "open"
    if not treated(joint) and not typical:
        return
    if heating.ends in (None, "open") and joint.entry.kind != "attachment":
        state = "are open" if heating.ends else "are not mentioned"
        case.add(
            RULE.found(
                f"the ends of the line at {joint.name} {state}",
                heating.place("ends"),
                address=f"{joint.address}/heating",
            )
        )
