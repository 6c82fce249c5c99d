"""A controlling thermocouple sits under the heaters of its own zone."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import CONTROLS, Joint

RULE = Rule(
    "Z102",
    "control-outside-zone",
    "error",
    floor="error",
    summary="A controlling thermocouple outside the arc of the zone it controls.",
    why="The heaters of the zone are then driven by what another zone does, and overheat the part "
    "while the reading looks right.",
    fix="Move the thermocouple under the heaters of its zone, or name the zone it is in.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                ("T2   controls bottom         at 6:00 ", "T2   controls bottom         at 2:00 "),
                ("T2S  spare for T2            at 6:10 ", "T2S  spare for T2            at 2:10 "),
            ),
            at="2:00",
            says="3:00 to 9:00) … 2:00",
        ),
        Bad(
            (
                ("bottom         along 1800 mm on weld", "bottom         along 1100 mm on weld"),
                ("for T2            along 1820 mm", "for T2            along 1120 mm"),
            ),
            at="1100 mm",
            base="seam",
            says="1200 mm .. 2400 mm) … 1100 mm",
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
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        if tc.duty != CONTROLS or tc.zone is None:
            continue
        part, along = tc.zone.entry.along, tc.entry.along
        if part is not None and along is not None and not part.contains(along):
            case.add(
                RULE.found(
                    f"{tc.tag} controls zone {tc.zone.name} ({part.show()}) but sits at {along} along the "
                    "weld",
                    tc.place("along"),
                    address=tc.address,
                    others=[Label(tc.zone.place("along"), "the part it heats")],
                )
            )
            continue
        arc, position = tc.zone.arc, tc.position
        if arc is None or position is None or arc.contains(position):
            continue
        there = next((z for z in joint.zones if z.arc and z.arc.contains(position)), None)
        case.add(
            RULE.found(
                f"{tc.tag} controls zone {tc.zone.name} ({arc}) but sits at {position}",
                tc.place("at" if tc.entry.at is not None else "arc"),
                address=tc.address,
                others=[Label(tc.zone.place("first"), "the arc of the zone")],
                help=f"place it near {arc.middle}"
                + (f"; {position} lies in zone {there.name}" if there else ""),
            )
        )
