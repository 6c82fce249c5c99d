"""There are enough control zones for the size of the pipe."""

from __future__ import annotations

from fractions import Fraction

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import goes_round, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z128",
    "too-few-zones",
    "error",
    summary="Fewer control zones than the books and procedures ask for.",
    why="One zone cannot warm the top and the bottom of a large pipe alike.",
    fix="Split the zones, each with its own controlling thermocouple.",
    source="the governing books and procedures (AWS D10.10 by size, from memory)",
    basis="memory",
    bad=(
        Bad(
            (
                ("pipe       NPS 12 schedule 120", "pipe       NPS 16 schedule 100"),
                ("wall       25.4 mm measured", "wall       25 mm measured"),
                ("at 12:00, 287 mm", "at 12:00, 295 mm"),
                ("at 6:00,  287 mm", "at 6:00,  295 mm"),
            ),
            at="zone",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.zones or not goes_round(joint) or not treated(joint):
        return
    governing = limits_of(case, joint).of("zones")
    found = against(
        RULE,
        governing,
        "minimum",
        Fraction(len(joint.zones)),
        joint.zones[0].place(),
        address=f"{joint.address}/heating",
        what=f"the number of zones of {joint.name}",
    )
    if found is not None:
        case.add(found)
