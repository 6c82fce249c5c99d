"""A controlling thermocouple sits well within its zone, not where the next one begins."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import CONTROLS, Joint, Thermocouple, Zone

#: Part of the zone at each end of it, in which the heaters beside it count nearly as much.
_END = Fraction(1, 5)

RULE = Rule(
    "Z159",
    "control-at-end-of-zone",
    "warning",
    summary="A controlling thermocouple in the first or the last fifth of its zone, where another zone "
    "begins.",
    why="There the heaters of the next zone count nearly as much: the two controllers work against each "
    "other, and the far end of the zone is driven by nobody.",
    fix="Place it in the middle of its heaters.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                ("top       from 9:00 to 3:00 power 9 kW", "top       from 9:00 to {} power 9 kW"),
                ("bottom    from 3:00 to 9:00 power 9 kW", "bottom    from {} to 9:00 power 5 kW"),
            ),
            keeps="5:15",
            breaks="5:16",
            at="6:00",
            says="T2 sits at 6:00, near the end of zone bottom at 5:16; its middle is at 7:08",
        ),
    ),
    good=(
        Good(
            (
                ("T2   controls bottom         at 6:00 ", "T2   controls bottom         at 7:00 "),
                ("T2S  spare for T2            at 6:10 ", "T2S  spare for T2            at 7:10 "),
            )
        ),
    ),
    agrees=(
        Agreement(
            "joint.thermocouples.thermocouple.at",
            "joint.heating.zone.from",
            "not in the first or last fifth of its zone",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if len(joint.zones) == 1:
        return
    for tc in joint.thermocouples:
        zone = tc.zone
        if tc.duty == CONTROLS and zone is not None:
            _look(case, tc, zone)


def _look(case: Case, tc: Thermocouple, zone: Zone) -> None:
    arc, position = zone.arc, tc.position
    if arc is None or position is None or not arc.contains(position):
        return
    begun = (position.degrees - arc.start.degrees) % 360
    if min(begun, arc.span - begun) >= arc.span * _END:
        return
    end = arc.start if begun * 2 < arc.span else arc.end
    case.add(
        RULE.found(
            f"{tc.tag} sits at {position}, near the end of zone {zone.name} at {end}; its middle is at "
            f"{arc.middle}",
            tc.place("at" if tc.entry.at is not None else "arc"),
            address=tc.address,
            others=[Label(zone.place("first"), "the arc of the zone")],
            basis=RULE.basis,
        )
    )
