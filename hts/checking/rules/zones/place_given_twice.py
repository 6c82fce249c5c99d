"""A thermocouple has one place."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z122",
    "place-given-twice",
    "error",
    floor="error",
    summary="A thermocouple with a clock position and an arc length, or on the weld and beside it.",
    why="Only one of the two can be meant, and whoever attaches it has to guess.",
    fix="Keep one of them.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "T3   monitors soak edge      at 12:00,",
                    "T3   monitors soak edge      at 12:00 on weld",
                ),
            ),
            at="40 mm downstream",
        ),
        Bad(
            (
                (
                    "T3   monitors soak edge      at 12:00,",
                    "T3   monitors soak edge      at 12:00 arc 0 mm,",
                ),
            ),
            at="0 mm",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        entry = tc.entry
        for first, second, both in (
            ("at", "arc", entry.at is not None and entry.arc is not None),
            (
                "on_weld",
                "offset",
                entry.on_weld and entry.offset is not None and bool(entry.offset.distance.value),
            ),
        ):
            if both:
                case.add(
                    RULE.found(
                        f"{tc.tag} has its place given twice",
                        tc.place(second),
                        address=tc.address,
                        others=[Label(tc.place(first), "and here")],
                    )
                )
