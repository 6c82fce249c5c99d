"""What is put up to hold the line for the heat is near the weld."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Good, Rule
from hts.checking.rules.surroundings.supports_far_apart import usual_span
from hts.language.model.joint import Joint

_SHOE = '  support    "pipe shoe" 2 m downstream guided\n'
_ROD = '  support    "rod hanger" 1.2 m upstream fixed\n'

RULE = Rule(
    "N133",
    "support-far-away",
    "warning",
    summary="A temporary support farther from the weld than a line of its size spans.",
    why="It bears nothing of what hangs at the weld: the distance has a digit too many, and where the "
    "support really is nobody knows.",
    fix="Measure the distance again, or leave the support out.",
    source="ASME B31.1 table 121.5, suggested spans, gas service",
    basis="memory",
    edges=(
        Edge(
            ((_ROD, f'{_ROD}{_SHOE}  support    "chain hoist" {{}} downstream temporary\n'),),
            keeps="9.1 m",
            breaks="9.2 m",
            at="9.2 m",
            says="chain hoist is 9.2 m (30.2 ft) from the weld … 9.1 m (29.85 ft)",
        ),
    ),
    good=(Good(((_ROD, _ROD.replace("1.2 m", "3 m")),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    diameter = joint.outside_diameter
    if diameter is None or not treated(joint):
        return
    span = usual_span(diameter.value)
    for support in joint.entry.supports:
        if support.state != "temporary" or support.where.distance <= span:
            continue
        unit = support.where.distance.unit.symbol
        case.add(
            RULE.found(
                f"{support.what} is {support.where.distance.both()} from the weld; an empty line of its "
                f"size is held every {span.in_unit(unit).both('down')}",
                support.place("where"),
                address=joint.address,
                basis=RULE.basis,
            )
        )
