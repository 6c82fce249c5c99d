"""What stands nearby is where heat from the weld still goes."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

#: Some lengths of the heated part further along it is as cold as the air; common practice, no source.
_FAR = Quantity.of(3, "m", LENGTH)
_ROD = '  support    "rod hanger" 1.2 m upstream fixed\n'
_ITEM = '  nearby     "gate valve, seat" {} downstream at most 200 degC protected\n'

RULE = Rule(
    "N129",
    "neighbour-far-away",
    "warning",
    summary="An item with a temperature limit, or a thermocouple for it, more than 3 m from the weld.",
    why="No heat of the weld gets there: the distance has a digit too many or another unit, and the "
    "item itself, close by, is watched by nobody.",
    fix="Measure the distance again, or leave the item out.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_ROD, _ITEM + _ROD),),
            keeps="3 m",
            breaks="3.1 m",
            says="3.1 m (10.2 ft) from the weld",
        ),
    ),
    good=(Good(((_ROD, _ITEM.format("1.4 m") + _ROD),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is not None and heating.method == "furnace":
        return  # all of the part is as hot
    for item in joint.entry.nearby:
        if item.where.distance > _FAR:
            case.add(
                RULE.found(
                    f"{item.what} is {item.where.distance.both()} from the weld, where no heat of it "
                    "comes",
                    item.place("where"),
                    address=joint.address,
                    basis=RULE.basis,
                )
            )
