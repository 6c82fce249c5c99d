"""Control and record last long enough."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L209",
    "control-ends-too-early",
    "error",
    summary="Control of cooling that ends above the temperature the books and procedures name.",
    why="The rate below it is neither limited nor recorded where it should be.",
    fix="End control at a lower temperature.",
    source="the governing books and procedures (AWS D10.10:2021: 427 degC at most)",
    basis="published",
    edges=(
        Edge(
            (
                ("end of control      300 degC", "end of control      {}"),
                (
                    "  interpass        at most 350",
                    "  end of control at most 305 degC\n  interpass        at most 350",
                ),
            ),
            keeps="305 degC",
            breaks="306 degC",
            base="procedure",
            says="is 306 degC (583 degF) … at most 305 degC (581 degF)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    end = treatment.entry.end_control
    if treatment.is_bake or end is None:
        return
    found = against(
        RULE,
        case.limits(treatment.joint, treatment).of("end of control"),
        "maximum",
        end,
        treatment.place("end_control"),
        address=treatment.address,
        what="the end of control",
    )
    if found is not None:
        case.add(found)
