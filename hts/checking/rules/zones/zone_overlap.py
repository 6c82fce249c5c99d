"""No part of the pipe belongs to two zones."""

from __future__ import annotations

from itertools import combinations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.round import rings
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z114",
    "zone-overlap",
    "warning",
    summary="Part of the circumference in two zones.",
    why="Heaters on top of each other overheat the metal, and each other.",
    fix="Let one zone begin where the other ends.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("zone bottom    from 3:00 to 9:00", "zone bottom    from 2:00 to 9:00"),),
            at="2:00",
            says="9:00 to 3:00) … 2:00 to 9:00)",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for ring in rings(joint):
        for (one, first), (other, second) in combinations(ring, 2):
            if not first.overlaps(second):
                continue
            # Told at the zone that begins inside the other.
            if not first.contains(second.start) or first.end == second.start:
                one, first, other, second = other, second, one, first
            case.add(
                RULE.found(
                    f"zones {one.name} ({first}) and {other.name} ({second}) overlap",
                    other.place("first"),
                    address=other.address,
                    others=[Label(one.place("first"), f"zone {one.name}")],
                )
            )
