"""A treatment has a hold."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

RULE = Rule(
    "Y105",
    "treatment-without-hold",
    "error",
    floor="error",
    summary="A bake or cycle without a hold.",
    why="Without time at temperature there is no treatment.",
    fix="Add `hold A .. B for T`, or `hold by rule for by rule`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("  hold  700 .. 730 degC for 2 h\n", ""),), at="stress-relief"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    if heats(treatment) and not any(isinstance(s, Hold) for s in treatment.entry.segments):
        case.add(
            RULE.found(
                f"{treatment.name} has no hold",
                treatment.place("joints" if treatment.is_bake else "name"),
                address=treatment.address,
            )
        )
