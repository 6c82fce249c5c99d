"""Each zone has the power to make up for what it loses at the hold temperature."""

from __future__ import annotations

from math import ceil

from hts.base.quantities import POWER, Quantity
from hts.base.quantities.clock import PI
from hts.checking.govern.case import Case
from hts.checking.govern.ring import ring_of
from hts.checking.rules.helpers.places import goes_round, limits_of
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Treatment

#: No wall and blanket in use lose so much, W/mm2 (3 W/cm2): the estimate is left out.
_AMPLE = 0.03

_TOP = "zone top       from 9:00 to 3:00 power "
_BOTTOM = "zone bottom    from 3:00 to 9:00 power "

RULE = Rule(
    "E106",
    "zone-cannot-hold",
    "advice",
    summary="A zone with less power than it is estimated to lose at the hold temperature.",
    why="Even at full power it never gets there, and the insulation has to come off again.",
    fix="Add heaters, or insulation.",
    source="derived: heat balance of the zone, without heat for warming up and without reserve",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "zone top       from 9:00 to 3:00 power 9 kW heaters 2",
                    "zone top       from 9:00 to 3:00 power {} kW",
                ),
                (
                    "zone bottom    from 3:00 to 9:00 power 9 kW heaters 2",
                    "zone bottom    from 3:00 to 9:00 power 3.4 kW",
                ),
            ),
            keeps="2.33",
            breaks="2.32",
            says="has 2.32 kW … about 2.33 kW at 730 degC (1346 degF)",
        ),
    ),
    good=(Good(((f"{_TOP}9 kW", f"{_TOP}6 kW"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    joint = treatment.joint
    outside = joint.outside_diameter
    zones = [zone for zone in joint.zones if zone.entry.power is not None and zone.arc is not None]
    # Zones of one side share the width of the band in a way the text does not say.
    if not zones or not goes_round(joint) or any(zone.entry.side for zone in zones):
        return
    limits = limits_of(case, joint)
    top, width = hottest(case, treatment), limits.band("heated band")
    if top is None or width is None or outside is None:
        return
    ring_area = float(PI * outside.value * width.value)
    if all(
        float(zone.entry.power.value) >= _AMPLE * ring_area * float(zone.arc.span) / 360
        for zone in zones
        if zone.entry.power is not None and zone.arc is not None
    ):
        return
    ring = ring_of(joint, limits)
    if ring is None:
        return
    from hts.base.arguments import NotCovered
    from hts.science.heat.power import ASSUMPTIONS, zone_power

    for zone in zones:
        power, arc = zone.entry.power, zone.arc
        assert power is not None and arc is not None
        try:
            lost = zone_power(ring, float(top[1].value), 0.0, arc_degrees=float(arc.span))
        except NotCovered:
            return
        if float(power.value) < lost.total:
            need = Quantity.rounded(ceil(lost.total / 10) / 100, 2, "kW", POWER)
            case.add(
                RULE.found(
                    f"zone {zone.name} has {power.written}, and loses about {need} at "
                    f"{top[1].both()}",
                    zone.place("power"),
                    address=zone.address,
                    notes=[f"assumed: {'; '.join(ASSUMPTIONS)}"],
                )
            )
