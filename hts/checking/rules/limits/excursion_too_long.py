"""Time outside the limits is tolerated no longer than what governs it allows."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L211",
    "excursion-too-long",
    "error",
    summary="More time outside the limits than the books and procedures tolerate.",
    why="What was tolerated beforehand is not judged afterwards.",
    fix="Shorten the time.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad(
            (("  rate margin  ", "  excursion at most 20 min in total\n  rate margin  "),),
            base="procedure",
            at="20 min",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    if treatment.is_bake:
        return
    governing = case.limits(treatment.joint, treatment).of("excursion")
    for stated in treatment.entry.excursion:
        if stated.at_most is None:
            continue
        found = against(
            RULE,
            governing,
            "maximum",
            stated.at_most,
            stated.place("at_most"),
            address=treatment.address,
            what="the time outside the limits",
        )
        if found is not None:
            case.add(found)
