"""There are enough control zones for the size of the pipe."""

from __future__ import annotations

from fractions import Fraction

from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import goes_round, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Joint
from hts.limits.demand import size

RULE = Rule(
    "Z128",
    "too-few-zones",
    "error",
    summary="Fewer control zones than the books and procedures ask for.",
    why="One zone cannot warm the top and the bottom of a large pipe alike.",
    fix="Split the zones, each with its own controlling thermocouple.",
    source="the governing books and procedures (AWS D10.10 by size, from memory)",
    basis="memory",
    edges=(
        Edge(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n  zones at least {}",
                ),
            ),
            keeps="2",
            breaks="3",
            at="zone",
            base="procedure",
            says="is 2 … at least 3",
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


def too_few(joint: Joint, limits: JointLimits) -> bool:
    """Whether there are fewer zones than governing limits ask for."""
    governing = limits.of("zones")
    wanted = governing.minimum if governing is not None else None
    return wanted is not None and len(joint.zones) < size(wanted)
