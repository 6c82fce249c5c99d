"""On a horizontal pipe both the top and the bottom are measured."""

from __future__ import annotations

from hts.base.quantities.clock import ClockPosition
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import ELSEWHERE, goes_round
from hts.checking.rules.rule import Bad, Edge, Rule
from hts.language.model.joint import CONTROLS, MONITORS, Joint, Thermocouple

TOP_AND_BOTTOM = (ClockPosition(0), ClockPosition(180))
#: Half an hour of the clock counts as the place itself: practice, no source.
NEAR = 15

RULE = Rule(
    "Z116",
    "top-or-bottom-unmeasured",
    "error",
    floor="error",
    summary="A horizontal pipe, heated in one zone or in several, that is not measured at 12:00 and at 6:00.",
    why="The bottom lags the top; what neither place shows can be far out of the range.",
    fix="Control or monitor both 12:00 and 6:00.",
    source="AWS D10.10:2021 (whatever the method, both are controlled or monitored)",
    basis="published",
    bad=(
        Bad(
            (
                ("T2   controls bottom         at 6:00 ", "T2   controls bottom         at 7:40 "),
                ("T2S  spare for T2            at 6:10 ", "T2S  spare for T2            at 7:50 "),
                ("monitors soak edge      at 6:00,", "monitors soak edge      at 4:00,"),
            ),
            at="zone",
            says="6:00",
        ),
    ),
    edges=(
        Edge(
            (
                ("T2   controls bottom         at 6:00 ", "T2   controls bottom         at {} "),
                ("T2S  spare for T2            at 6:10 ", "T2S  spare for T2            at 6:35 "),
                ("monitors soak edge      at 6:00,", "monitors soak edge      at 4:00,"),
            ),
            keeps="6:30",
            breaks="6:31",
            at="zone",
            says="6:00",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.zones or not joint.thermocouples or not (joint.cycles or joint.bakes):
        return
    for place in unmeasured(joint):
        case.add(
            RULE.found(
                f"nothing controls or monitors {joint.name} at {place}",
                joint.zones[0].place(),
                address=f"{joint.address}/thermocouples",
                help=f"add, for example: T9 monitors weld at {place} on weld",
            )
        )


def unmeasured(joint: Joint) -> list[ClockPosition]:
    """The top or the bottom of a horizontal pipe, where nothing sits there."""
    counting = [tc for tc in joint.thermocouples if _counts(tc)]
    if not joint.is_horizontal or not goes_round(joint):
        return []
    if any(tc.position is None for tc in counting):
        return []
    return [
        place
        for place in TOP_AND_BOTTOM
        if not any(tc.position and tc.position.distance_to(place) <= NEAR for tc in counting)
    ]


def _counts(tc: Thermocouple) -> bool:
    """Whether it shows the temperature of the metal held, not that of an outer edge."""
    outer = ("heated edge", "gradient edge", *ELSEWHERE)
    return tc.duty == CONTROLS or (tc.duty == MONITORS and tc.entry.monitors not in outer)
