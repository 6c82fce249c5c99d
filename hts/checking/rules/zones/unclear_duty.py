"""A thermocouple says one thing it does."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z105",
    "unclear-duty",
    "error",
    floor="error",
    summary="A thermocouple that does not say exactly one of controls, monitors and spare for.",
    why="The technician cannot tell what to connect it to, nor what its loss would mean.",
    fix="Write one of `controls ZONE`, `monitors PLACE` or `spare for TAG`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6",
                    "T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
                    "    T7   at 3:00 on weld channel 9",
                ),
            ),
            at="T7",
        ),
        Bad(
            (
                (
                    "T1S  spare for T1            at 12:10",
                    "T1S  spare for T1   monitors weld    at 12:10",
                ),
            ),
            at="T1S",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        if tc.duty:
            continue
        duties = [
            words
            for words, value in (
                ("controls", tc.entry.controls),
                ("monitors", tc.entry.monitors),
                ("is a spare", tc.entry.spare_for),
            )
            if value is not None
        ]
        case.add(
            RULE.found(
                f"{tc.tag} {' and '.join(duties)}"
                if duties
                else f"{tc.tag} neither controls, monitors nor stands in for another",
                tc.place("name"),
                address=tc.address,
            )
        )
