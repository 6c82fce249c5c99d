"""A thick wall is not welded in one layer."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Rule
from hts.language.model.joint import Joint

#: A layer of arc welding is 2 to 6 mm, from both sides twice that. Common practice, no source.
_MOST = Quantity.of(12, "mm", LENGTH)

RULE = Rule(
    "J210",
    "single-layer-too-thick",
    "warning",
    summary="A wall too thick to be welded in the single layer that is stated.",
    why="Codes treat welds of one layer otherwise than those of several: preheat and exemptions are "
    "read in the wrong row.",
    fix="Write `layers multiple`, or check the wall.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (('"WPS-12" layers multiple', '"WPS-12" layers single'),),
            at="single",
            says="25.4 mm (1 in) … 12 mm (0.4724 in)",
        ),
    ),
    agrees=(Agreement("joint.welding.layers", "joint.wall.thickness", "one layer fills it"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    welding = joint.entry.welding
    if welding is None or welding.layers != "single" or joint.entry.kind not in _FILLED:
        return
    walls = [side.wall for side in joint.sides if side.wall is not None]
    if not walls:
        return
    thick = min(walls, key=lambda figure: figure.value)
    wall = thick.value
    assert isinstance(wall, Quantity)
    if wall > _MOST:
        case.add(
            RULE.found(
                f"{joint.name} is welded in a single layer, and its wall is {wall.both()}; "
                f"{_MOST.both()} is the most that one layer fills",
                welding.place("layers"),
                address=joint.address,
                others=[] if thick.at is None else [Label(thick.at, "the wall")],
                basis=RULE.basis,
            )
        )


#: Welds whose depth is the wall.
_FILLED = ("girth butt", "long seam")
