"""A controlling thermocouple sits on the weld centreline."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import from_weld, goes_round, limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import CONTROLS, Joint

RULE = Rule(
    "Z104",
    "control-beside-weld",
    "warning",
    summary="A controlling thermocouple beside the weld, in a zone that lies across it.",
    why="The weld is what has to reach the temperature; beside it the reading is another one.",
    fix="Place it on the weld, or split the zone by side.",
    source="National Board Inspection Code Part 3 and WRC Bulletin 452 (as quoted elsewhere)",
    basis="published",
    edges=(
        Edge(
            (
                (
                    "T2   controls bottom         at 6:00  on weld         ",
                    "T2   controls bottom         at 6:00, {} upstream",
                ),
                (
                    "T2S  spare for T2            at 6:10  on weld         ",
                    "T2S  spare for T2            at 6:10, {} upstream",
                ),
            ),
            keeps="15 mm",
            breaks="16 mm",
            says="from 16 mm (0.63 in)",
        ),
    ),
    good=(
        Good(
            (
                (
                    "T2   controls bottom         at 6:00  on weld         ",
                    "T2   controls bottom         at 6:00, 10 mm upstream ",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not goes_round(joint):
        return
    for tc in joint.thermocouples:
        distance = from_weld(tc)
        if tc.duty != CONTROLS or tc.zone is None or distance is None or not distance.value:
            continue
        if tc.zone.entry.side not in (None, "both"):
            continue
        limits = limits_of(case, joint)
        heated = limits.band("heated band")
        cap = joint.entry.cap_width
        # Still on the weld metal, or so far out that the heaters do not reach it at all.
        if (cap is not None and distance.value <= cap.value / 2) or (
            heated is not None and distance.value > heated.value / 2
        ):
            continue
        case.add(
            RULE.found(
                f"{tc.tag} controls zone {tc.zone.name} from {distance.both()} beside the weld",
                tc.place("offset"),
                address=tc.address,
                help="write `on weld`",
            )
        )
