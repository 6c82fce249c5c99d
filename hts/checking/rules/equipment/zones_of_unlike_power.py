"""Zones that heat equal parts of one ring have about equal power."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint, Zone

#: The bottom of a level pipe and its draughty side take more, but not half as much again; common
#: practice, no source.
_MOST = Fraction(3, 2)
_TOP = "zone top       from 9:00 to 3:00 power 9 kW heaters 2"
_BOTTOM = "zone bottom    from 3:00 to 9:00 power 9 kW heaters 2"

RULE = Rule(
    "E116",
    "zones-of-unlike-power",
    "warning",
    summary="Two zones of one ring of which one has over half as much power again for each degree of "
    "the circumference.",
    why="They lose about the same: the weaker one lags and holds the others up, or never gets there.",
    fix="Compare power and heaters of the zones; correct the one that slipped.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_TOP, _TOP.replace("9 kW", "{}")),),
            keeps="6 kW",
            breaks="5.9 kW",
            says="zone top has 5.9 kW … zone bottom 9 kW",
        ),
    ),
    good=(
        # Twice the power for twice the arc.
        Good(
            (
                (_TOP, "zone top       from 8:00 to 4:00 power 12 kW heaters 2"),
                (_BOTTOM, "zone bottom    from 4:00 to 8:00 power 6 kW heaters 2"),
            )
        ),
    ),
    agrees=(
        Agreement("joint.heating.zone.power", "joint.heating.zone.from", "alike for each degree"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not goes_round(joint) or joint.entry.kind != "girth butt":
        return
    rings: dict[str | None, list[tuple[Fraction, Zone]]] = {}
    for zone in joint.zones:
        power, arc = zone.entry.power, zone.arc
        if power is not None and arc is not None and arc.span and power.value > 0:
            each = Fraction(power.value) / Fraction(arc.span)
            rings.setdefault(zone.entry.side, []).append((each, zone))
    for zones in rings.values():
        weakest = min(zones, key=lambda each: each[0])
        strongest = max(zones, key=lambda each: each[0])
        if strongest[0] > weakest[0] * _MOST:
            _tell(case, joint, weakest[1], strongest[1])


def _tell(case: Case, joint: Joint, weak: Zone, strong: Zone) -> None:
    case.add(
        RULE.found(
            f"zone {weak.name} has {weak.entry.power}, zone {strong.name} {strong.entry.power} "
            "for its part of the same ring",
            weak.place("power"),
            address=weak.address,
            others=[Label(strong.place("power"), "far more for each degree")],
            basis=RULE.basis,
        )
    )
