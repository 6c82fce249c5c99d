"""A treatment is recorded, controlled and powered by named equipment."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "E105",
    "unrecorded-treatment",
    "warning",
    summary="A bake or cycle that does not name its recorder, its controller or, outside a furnace, "
    "its power source.",
    why="Channels, ranges, calibration and power cannot be checked, nor the record traced.",
    fix="Write `recorded by`, `controlled by` and `powered by`.",
    source="common practice, no source",
    basis="practice",
    about=(
        "cycle.recorded by",
        "bake.recorded by",
    ),
    bad=(
        Bad((("  recorded by         R1\n", ""),), at="stress-relief"),
        Bad((("  controlled by       C1\n", ""),), at="stress-relief"),
        Bad((("  powered by          PS1\n", ""),), at="stress-relief"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    if not heats(treatment):
        return
    needed = [("recorder", entry.recorded_by), ("controller", entry.controlled_by)]
    heating = treatment.joint.entry.heating
    if heating is not None and heating.method in ("resistance", "induction"):
        needed.append(("power source", entry.powered_by))
    lacking = [words for words, value in needed if value is None]
    if lacking:
        case.add(
            RULE.found(
                f"{treatment.name} names no {' and no '.join(lacking)}",
                treatment.place("joints" if treatment.is_bake else "name"),
                address=treatment.address,
            )
        )
