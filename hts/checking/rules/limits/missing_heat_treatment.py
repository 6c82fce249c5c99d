"""A joint that has to be heat treated is."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places, quoted
from hts.checking.rules.helpers.missing import wanted
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "L220",
    "missing-heat-treatment",
    "error",
    summary="A weld that has to be heat treated and has no cycle.",
    why="It would go into service as welded.",
    fix="Add a cycle for the joint, or claim the exemption with `not required under`.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (
                ("preheat W12 {", "preheat W12, W13 {"),
                (
                    "cycle stress-relief for W12 {",
                    "joint W13 like W12 { }\n\ncycle stress-relief for W12 {",
                ),
            ),
            at="W13",
        ),
    ),
    good=(
        Good(
            (
                ("preheat W12 {", "preheat W12, W13 {"),
                (
                    "cycle stress-relief for W12 {",
                    "joint W13 like W12 { }\n\ncycle stress-relief for W12 for W13 {",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if case.spec.file.job is None or joint.cycles:
        return
    # A cycle that could not be read whole may be the one for this joint.
    if any(not cycle.sound for cycle in case.spec.file.cycles):
        return
    governing = case.limits(joint, joint.bakes[0] if joint.bakes else None).of(
        "post-weld heat treatment"
    )
    demand = governing.saying("required") if governing is not None else None
    if governing is None or demand is None:
        return
    names = dict.fromkeys(name for item in governing.unanswered for name in item.names)
    case.add(
        RULE.found(
            f"{cited(demand.limit.source)} requires post-weld heat treatment of {joint.name}, but "
            "no cycle is for it",
            joint.place("names"),
            address=joint.address,
            others=places(demand.limit.source),
            basis=demand.limit.source.basis,
            notes=[
                *(
                    [f"an exemption could not be judged without {wanted(names)[0]}"]
                    if names
                    else []
                ),
                *quoted(demand.limit.source),
            ],
        )
    )
