"""An arc length is shorter than the way round the pipe."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.clock import circumference
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z123",
    "arc-beyond-pipe",
    "error",
    floor="error",
    summary="An arc length that does not lie within once round the pipe.",
    why="It was taken from another pipe, or measured from another datum.",
    fix="Measure from 12:00 clockwise along the outside.",
    source="arithmetic: circumference of the outside diameter",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "monitors soak edge      at 6:00,  40 mm upstream ",
                    "monitors soak edge  arc {}, 40 mm upstream",
                ),
                # Nearly all the way round is the top again: the other one watches below.
                ("soak edge      at 12:00, 40 mm", "soak edge      at 6:00,  40 mm"),
            ),
            keeps="1017 mm",
            breaks="1018 mm",
            says="is 1018 mm (40.08 in) from 12:00 … is 1017.2 mm",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        outside = joint.outside_diameter
        if tc.entry.arc is None or outside is None or tc.position is not None:
            continue
        around = Quantity.of(circumference(outside), "mm", LENGTH)
        case.add(
            RULE.found(
                f"{tc.tag} is {tc.entry.arc.both()} from 12:00, but the pipe is "
                f"{around.show('mm', 1)} round",
                tc.place("arc"),
                address=tc.address,
            )
        )
