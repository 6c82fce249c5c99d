"""A weld that was tempered, stress relieved or baked is not quenched."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import FROM_ABOVE, heats
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Cool

_COOL = "  cool  in still air"
_QUENCHES = ("water", "water spray", "oil")

RULE = Rule(
    "Y132",
    "quenched-after-treatment",
    "warning",
    summary="A weld that cools in water, a water spray or oil after stress relief, tempering or a "
    "bake.",
    why="Quenched on one side, hot metal bends and is stressed anew: the treatment is undone, and "
    "what was hardened cracks.",
    fix="Write what it cools in: `insulation` or `still air`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_COOL, "  cool  in water"),), at="water"),
        Bad(((_COOL, "  cool  in water spray"),), at="water spray"),
        Bad((("  cool  in insulation", "  cool  in oil"),), at="oil", base="bake"),
    ),
    good=(Good(((_COOL, "  cool  in insulation"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if not heats(treatment) or (cycle is not None and cycle.purpose in FROM_ABOVE):
        return
    for segment in treatment.entry.segments:
        if isinstance(segment, Cool) and segment.medium in _QUENCHES:
            case.add(
                RULE.found(
                    f"{treatment.joint.name} cools in {segment.medium} after the "
                    f"{'bake' if treatment.is_bake else 'treatment'}",
                    segment.place("medium"),
                    address=treatment.address,
                    basis=RULE.basis,
                )
            )
