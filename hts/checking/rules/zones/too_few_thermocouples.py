"""There are enough thermocouples for the size of the pipe."""

from __future__ import annotations

from fractions import Fraction

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import ELSEWHERE, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Rule
from hts.checking.rules.zones.too_few_zones import too_few
from hts.language.model.joint import CONTROLS, MONITORS, Joint

RULE = Rule(
    "Z129",
    "too-few-thermocouples",
    "error",
    summary="Fewer thermocouples than the books and procedures ask for.",
    why="Between the thermocouples nobody knows how hot the metal is.",
    fix="Add thermocouples where the message says they are missing.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n  monitoring thermocouples  at least {}",
                ),
            ),
            keeps="4",
            breaks="5",
            at="thermocouples",
            base="procedure",
            says="is 4 … at least 5",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if not joint.thermocouples or block is None or not treated(joint):
        return
    # One whose duty is unclear may be the one that is missed.
    if any(not tc.duty for tc in joint.thermocouples):
        return
    limits = limits_of(case, joint)
    controls = sum(tc.duty == CONTROLS for tc in joint.thermocouples)
    monitors = sum(
        tc.duty == MONITORS and tc.entry.monitors not in ELSEWHERE for tc in joint.thermocouples
    )
    counts = [
        ("monitoring thermocouples", monitors),
        ("thermocouples", controls + monitors),
    ]
    # With a zone too few, or one without control, the missing thermocouple is no second cause.
    if all(zone.controls for zone in joint.zones) and not too_few(joint, limits):
        counts.insert(0, ("control thermocouples", controls))
    for quantity, count in counts:
        found = against(
            RULE,
            limits.of(quantity),
            "minimum",
            Fraction(count),
            block.place(),
            address=f"{joint.address}/thermocouples",
            what=f"the number of {quantity} of {joint.name}",
        )
        if found is not None:
            case.add(found)
            return
