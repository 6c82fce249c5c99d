"""A controlling thermocouple sits within the heated band."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import from_weld, half, limits_of
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import CONTROLS, Joint

RULE = Rule(
    "Z103",
    "control-outside-heaters",
    "error",
    floor="error",
    summary="A controlling thermocouple farther from the weld than the heaters reach.",
    why="It reads unheated metal, so the controller adds power until the heated metal is ruined.",
    fix="Place it on the weld, under the middle of its heaters.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "T2   controls bottom         at 6:00  on weld         ",
                    "T2   controls bottom         at 6:00, 320 mm upstream",
                ),
                (
                    "T2S  spare for T2            at 6:10  on weld         ",
                    "T2S  spare for T2            at 6:10, 320 mm upstream",
                ),
            ),
            at="320 mm upstream",
            says="from 320 mm (12.6 in) … only 287.3 mm (11.31 in)",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        distance = from_weld(tc)
        if tc.duty != CONTROLS or distance is None or not distance.value:
            continue
        width = limits_of(case, joint).band("heated band")
        if width is not None and distance.value > width.value / 2:
            reach = half(width).in_unit(distance.unit.symbol)
            case.add(
                RULE.found(
                    f"{tc.tag} controls from {distance.both()} beside the weld, but the heaters "
                    f"reach only {reach.both('down')}",
                    tc.place("offset"),
                    address=tc.address,
                    help="write `on weld`",
                )
            )
