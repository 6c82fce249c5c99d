"""Nothing is in the bore that the heat turns into pressure."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "N102",
    "filled-bore",
    "error",
    floor="error",
    summary="A bore that is filled while the joint is heated.",
    why="Liquid cools the weld and turns into steam under pressure.",
    fix="Drain it, and write `bore drained and dry`.",
    source="AWS D10.10:2021",
    basis="published",
    bad=(Bad((("bore           drained and dry", "bore           filled"),), at="filled"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if (
        heating is not None
        and heating.bore == "filled"
        and (treated(joint) or joint.bakes or case.spec.file.job is None)
    ):
        case.add(
            RULE.found(
                f"the bore of {joint.name} is filled",
                heating.place("bore"),
                address=f"{joint.address}/heating",
            )
        )
