"""A heater called after a zone is in that zone."""

from __future__ import annotations

import re

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_GAP = "    gap at         12:00\n"
_ROW = "    heater {} in {} kind flexible pad power 4.5 kW count 2\n"

RULE = Rule(
    "E115",
    "heater-in-other-zone",
    "warning",
    summary="A row of heaters called after one zone and put into another.",
    why="Who hangs the heaters goes by the name, who connects the cables by the zone.",
    fix="Correct the zone or the name.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    _GAP,
                    _ROW.format("top-1", "bottom") + _ROW.format("bottom-1", "top") + _GAP,
                ),
            ),
            at="bottom",
            says="heater top-1 is in zone bottom",
        ),
    ),
    good=(
        Good(((_GAP, _ROW.format("top-1", "top") + _ROW.format("bottom-1", "bottom") + _GAP),)),
        Good(((_GAP, _ROW.format("H1", "top") + _ROW.format("H2", "bottom") + _GAP),)),
    ),
    agrees=(
        Agreement("joint.heating.heater.name", "joint.heating.heater.in", "the zone it names"),
    ),
)
#: The first word of a name: `top` of `top-1`.
_FIRST = re.compile(r"[A-Za-z]+")


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None:
        return
    zones = {zone.name.lower() for zone in heating.zones}
    for heater in heating.heaters:
        first = _FIRST.match(heater.name)
        called = first.group().lower() if first else ""
        if heater.zone is None or called not in zones or called == heater.zone.name.lower():
            continue
        case.add(
            RULE.found(
                f"heater {heater.name} is in zone {heater.zone.name}",
                heater.place("zone"),
                address=f"{joint.address}/heating",
            )
        )
        return
