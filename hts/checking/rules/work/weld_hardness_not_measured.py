"""Hardness after the heat is measured on the weld, and at a number of places."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint


def _after(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", f"after heat W12 {{\n  {text}\n}}\n\ncontroller C1 {{"),)


RULE = Rule(
    "K111",
    "weld-hardness-not-measured",
    "advice",
    summary="Hardness after the heat that is measured beside the weld alone, or without saying at how "
    "many places.",
    why="It is the weld and the zone beside it that were hard: readings on the pipe, or one reading "
    "where it is easy, show nothing of the treatment.",
    fix="Write `hardness weld … count …`, and the heat-affected zone where it is asked for.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(_after("hardness base metal at most 241 HBW count 3"), at="base metal"),
        Bad(_after("hardness heat-affected zone at most 241 HBW count 3"), at="heat-affected zone"),
        Bad(_after("hardness weld at most 241 HBW"), at="weld"),
    ),
    good=(
        Good(
            _after(
                "hardness weld at most 241 HBW count 3\n"
                "  hardness base metal at most 241 HBW count 1"
            )
        ),
        Good(_after('hardness weld at most 241 HBW extent "100 %"')),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    rows = [row for block in joint.after if block.sound for row in block.hardness if row.sound]
    if not rows or not treated(joint):
        return
    address = f"{joint.address}/after-heat"
    if all(row.zone != "weld" for row in rows):
        places = " and the ".join(dict.fromkeys(row.zone for row in rows))
        case.add(
            RULE.found(
                f"hardness of {joint.name} is measured on the {places} alone",
                rows[0].place("zone"),
                address=address,
                basis=RULE.basis,
            )
        )
        return
    for row in rows:
        if row.count is None and row.extent is None and row.spots is None:
            case.add(
                RULE.found(
                    f"hardness of the {row.zone} of {joint.name}: nothing says at how many places",
                    row.place("zone"),
                    address=address,
                    basis=RULE.basis,
                )
            )
            return
