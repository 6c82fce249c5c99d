"""Heaters of one store are much alike."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import POWER, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Zone

_TOP = "zone top       from 9:00 to 3:00 power 9 kW heaters 2"

RULE = Rule(
    "E123",
    "heater-unlike-others",
    "warning",
    summary="A zone whose heaters have less than half, or more than twice, the power of those of the other zones of a job.",
    why="Pads of one store are of one power: the zone has another number of heaters, or another power, than "
    "it says, and its circuit is loaded otherwise than planned.",
    fix="Count the heaters of the zone and add up their power; where they are another kind, describe them: "
    "`heater … power … kW count …`.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_TOP, _TOP.replace("heaters 2", "heaters {}")),),
            keeps="4",
            breaks="5",
            at="9 kW",
            says="heaters of 1.8 kW, those of zone bottom 4.5 kW",
        ),
    ),
    good=(
        # Smaller ones, and described as that.
        Good(
            (
                (_TOP, _TOP.replace("9 kW heaters 2", "9 kW heaters 6")),
                (
                    "    gap at         12:00\n",
                    "    gap at         12:00\n    heater H1 in top power 1.5 kW count 6\n",
                ),
            )
        ),
    ),
    agrees=(
        Agreement("joint.heating.zone.power", "joint.heating.zone.heaters", "as in other zones"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    powers: list[tuple[Fraction, Zone]] = []
    described: set[int] = set()
    for joint in case.joints():
        heating = joint.entry.heating
        if heating is None or heating.method != "resistance":
            continue
        rows = {row.zone.name for row in heating.heaters if row.zone is not None}
        for zone in joint.zones:
            said = zone.entry
            if said.power is not None and said.heaters:
                powers.append((Fraction(said.power.value) / said.heaters, zone))
                if zone.name in rows:
                    described.add(id(zone))
    counts = Counter(power for power, _ in powers)
    usual = max(counts, key=lambda power: (counts[power], power), default=Fraction(0))
    for power, zone in powers:
        if id(zone) in described or (usual <= power * 2 and power <= usual * 2):
            continue
        other = next(zone for power, zone in powers if power == usual)
        each, others = (Quantity.of(value, "W", POWER).in_unit("kW") for value in (power, usual))
        case.add(
            RULE.found(
                f"zone {zone.name} has heaters of {each}, those of zone {other.name} {others}",
                zone.place("power"),
                address=zone.address,
                others=[Label(other.place("power"), "for example")],
                basis=RULE.basis,
            )
        )
