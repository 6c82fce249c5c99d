"""On a horizontal pipe both the top and the bottom are measured."""

from __future__ import annotations

from hts.base.quantities.clock import ClockPosition
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import ELSEWHERE, goes_round
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import CONTROLS, MONITORS, Joint, Thermocouple

_PLACES = (ClockPosition(0), ClockPosition(180))
#: Half an hour of the clock counts as the place itself: practice, no source.
_NEAR = 15

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
                ("T2   controls bottom         at 6:00 ", "T2   controls bottom         at 8:00 "),
                ("T2S  spare for T2            at 6:10 ", "T2S  spare for T2            at 8:10 "),
                ("monitors soak edge      at 6:00,", "monitors soak edge      at 4:00,"),
            ),
            at="zone",
            says="6:00",
        ),
    ),
    good=(
        Good(
            (
                ("T2   controls bottom         at 6:00 ", "T2   controls bottom         at 8:00 "),
                ("T2S  spare for T2            at 6:10 ", "T2S  spare for T2            at 8:10 "),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.is_horizontal or not joint.zones or not goes_round(joint):
        return
    if not joint.thermocouples or not (joint.cycles or joint.bakes):
        return
    counting = [tc for tc in joint.thermocouples if _counts(tc)]
    if any(tc.position is None for tc in counting):
        return
    for place in _PLACES:
        if not any(tc.position and tc.position.distance_to(place) <= _NEAR for tc in counting):
            case.add(
                RULE.found(
                    f"nothing controls or monitors {joint.name} at {place}",
                    joint.zones[0].place(),
                    address=f"{joint.address}/thermocouples",
                    help=f"add, for example: T9 monitors weld at {place} on weld",
                )
            )


def _counts(tc: Thermocouple) -> bool:
    """Whether it shows the temperature of the metal held, not that of an outer edge."""
    outer = ("heated edge", "gradient edge", *ELSEWHERE)
    return tc.duty == CONTROLS or (tc.duty == MONITORS and tc.entry.monitors not in outer)
