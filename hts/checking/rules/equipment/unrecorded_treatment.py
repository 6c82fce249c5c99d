"""A treatment is recorded and controlled by named instruments."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "E105",
    "unrecorded-treatment",
    "warning",
    summary="A bake or cycle that does not name its recorder or its controller.",
    why="Channels, ranges and calibration cannot be checked, nor the record traced.",
    fix="Write `recorded by` and `controlled by`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((("  recorded by         R1\n", ""),), at="stress-relief"),
        Bad((("  controlled by       C1\n", ""),), at="stress-relief"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    if not heats(treatment):
        return
    lacking = [
        words
        for words, value in (("recorder", entry.recorded_by), ("controller", entry.controlled_by))
        if value is None
    ]
    if lacking:
        case.add(
            RULE.found(
                f"{treatment.name} names no {' and no '.join(lacking)}",
                treatment.place("joints" if treatment.is_bake else "name"),
                address=treatment.address,
            )
        )
