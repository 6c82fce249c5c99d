"""No two thermocouples share one place."""

from __future__ import annotations

from itertools import combinations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import apart
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

#: mm; two junctions cannot be attached nearer to each other. Common practice, no source.
_CLOSEST = 2

RULE = Rule(
    "Z137",
    "two-at-one-place",
    "warning",
    summary="Two thermocouples at the same place of one surface.",
    why="One of them was meant to be elsewhere, and that place is not measured.",
    fix="Correct the clock position, the distance or the side of one of them; a spare sits beside "
    "the one it stands in for, not on it.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("T2S  spare for T2            at 6:10 ", "T2S  spare for T2            at 6:00 "),),
            at="T2S",
        ),
    ),
    good=(
        Good(
            (
                (
                    "T2S  spare for T2            at 6:10 ",
                    "T2S  spare for T2            at 6:03 ",
                ),
            )
        ),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.at",
            "joint.thermocouples.thermocouple.offset",
            "no two thermocouples share both",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    placed: dict[tuple[str, object, object], list[int]] = {}
    tcs = joint.thermocouples
    for number, tc in enumerate(tcs):
        position = tc.position
        if position is not None:
            # Only those near each other round the pipe can share a place.
            surface = "inside" if tc.entry.monitors == "inside" else tc.surface
            key = (surface, round(position.degrees) // 4, 0)
            placed.setdefault(key, []).append(number)
    for (surface, sector, _), members in placed.items():
        beside = placed.get((surface, (sector + 1) % 90, 0), [])  # type: ignore[operator]
        pairs = [*combinations(members, 2), *((a, b) for a in members for b in beside)]
        for one, other in pairs:
            first, second = tcs[min(one, other)], tcs[max(one, other)]
            distance = apart(first, second)
            if distance is not None and distance < _CLOSEST:
                case.add(
                    RULE.found(
                        f"{second.tag} sits where {first.tag} sits",
                        second.place("name"),
                        address=second.address,
                        others=[Label(first.place("name"), "at the same place")],
                        basis=RULE.basis,
                    )
                )
