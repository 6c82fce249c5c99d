"""Every zone has exactly one controlling thermocouple."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z101",
    "zone-without-control",
    "error",
    floor="error",
    summary="A zone that does not have exactly one controlling thermocouple.",
    why="Heaters without a thermocouple of their own follow the temperature of another place and "
    "can melt the part or leave it cold; two in one zone fight each other.",
    fix="Give the zone one thermocouple that `controls` it.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "T2   controls bottom         at 6:00  on weld              channel 2   "
                    "control channel 2",
                    "T2   monitors weld           at 6:00  on weld  channel 2",
                ),
                ("T2S  spare for T2            at 6:10  on weld              channel 8\n", ""),
            ),
            at="bottom",
        ),
        Bad(
            (
                (
                    "    T5   monitors heated edge ",
                    "    T7   controls bottom  at 6:30 on weld  channel 9 control channel 3\n"
                    "    T7S  spare for T7     at 6:40 on weld  channel 10\n"
                    "    T5   monitors heated edge ",
                ),
            ),
            at="bottom",
            says="2 thermocouples",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.thermocouples:
        return
    for zone in joint.zones:
        if len(zone.controls) == 1:
            continue
        if not zone.controls:
            case.add(
                RULE.found(
                    f"no thermocouple controls zone {zone.name}",
                    zone.place("name"),
                    address=zone.address,
                    help=f"write, for example: T1 controls {zone.name} at 12:00 on weld",
                )
            )
            continue
        first, *others = zone.controls
        case.add(
            RULE.found(
                f"{len(zone.controls)} thermocouples control zone {zone.name}",
                others[0].place("controls"),
                address=zone.address,
                others=[Label(first.place("controls"), "the first one")],
                help=f"let {others[0].tag} monitor, or give it a zone of its own",
            )
        )
