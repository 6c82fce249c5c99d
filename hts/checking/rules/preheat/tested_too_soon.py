"""What hydrogen may crack is tested when it has had the time to."""

from __future__ import annotations

from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.cycle import Bake

_LEAST = Quantity.of(24, "h", TIME)

RULE = Rule(
    "P148",
    "tested-too-soon",
    "warning",
    summary="A bake after which testing may begin in less than 24 h.",
    why="Cracks of hydrogen open up to two days after welding: what was tested before shows none of them.",
    fix="Test after 48 h, or after the heat treatment.",
    source="common practice, no source: 24 to 48 h; EN 1090-2 table 23 (from memory) has 16 to 48 h by thickness",
    basis="practice",
    edges=(
        Edge(
            (("test after        48 h", "test after        {}"),),
            keeps="24 h",
            breaks="23 h",
            base="bake",
            says="may be tested 23 h after its bake; usual is at least 24 h",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    bake = treatment.entry
    if isinstance(bake, Bake) and bake.test_delay is not None and bake.test_delay < _LEAST:
        case.add(
            RULE.found(
                f"{treatment.joint.name} may be tested {bake.test_delay} after its bake; usual is at least {_LEAST}",
                bake.place("test_delay"),
                address=treatment.address,
                basis=RULE.basis,
            )
        )
