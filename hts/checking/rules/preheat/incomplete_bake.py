"""A bake says what a bake-out has to say."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.cycle import Bake

RULE = Rule(
    "P107",
    "incomplete-bake",
    "warning",
    summary="A bake that does not state its width, when it begins, or how long testing waits.",
    why="A joint baked too late or too narrowly can crack days later, after it was tested.",
    fix="State the width, when the bake begins, and the delay of testing.",
    source="common practice, no source; AWS D10.10:2021 on delayed cracking within 48 h",
    basis="practice",
    bad=(Bad((("  test after        48 h\n", ""),), base="bake", at="W12"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    bake = treatment.entry
    if not isinstance(bake, Bake):
        return
    lacking = [
        words
        for words, value in (
            ("`width`", bake.width),
            ("`begins`", bake.begins),
            ("`test after`", bake.test_delay),
        )
        if value is None
    ]
    if lacking:
        case.add(
            RULE.found(
                f"the bake of {treatment.joint.name} does not say {', '.join(lacking)}",
                bake.place("joints"),
                address=treatment.address,
            )
        )
