"""The two wires of a thermocouple are attached close together."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

#: 6 mm, in inches 1/4 in.
_FARTHEST = Quantity.of("1/4", "in", LENGTH)
_OWN = (
    "  interpass        at most 350",
    "  leg separation at most 3/8 in\n  interpass        at most 350",
)

RULE = Rule(
    "C108",
    "legs-too-far-apart",
    "warning",
    summary="Wires attached more than 6 mm apart.",
    why="The metal between them is part of the circuit: a difference of temperature there is an "
    "error.",
    fix="Attach the wires at most 6 mm apart.",
    source="AWS D10.10 (from memory), unless a governing procedure or book says otherwise",
    basis="memory",
    about=("joint.thermocouples.attached.legs apart",),
    edges=(
        Edge(
            (("legs apart 6 mm", "legs apart {}"),),
            keeps="6.3 mm",
            breaks="6.4 mm",
            says="6.4 mm (0.252 in) … 6 mm (1/4 in)",
        ),
        Edge(
            (("legs apart 6 mm", "legs apart {}"), _OWN),
            keeps="9.5 mm",
            breaks="9.6 mm",
            base="procedure",
            says="is 9.6 mm (0.378 in) … at most 9.525 mm (0.375 in)",
        ),
    ),
    good=(Good((("legs apart 6 mm", "legs apart 9 mm"), _OWN), base="procedure"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is None or attached.separation is None:
        return
    address, place = f"{joint.address}/thermocouples", attached.place("separation")
    governing = limits_of(case, joint).of("leg separation")
    if governing is not None and governing.setter("maximum") is not None:
        found = against(
            RULE,
            governing,
            "maximum",
            attached.separation,
            place,
            address=address,
            what="the distance between the wires",
        )
        if found is not None:
            case.add(found)
    elif attached.separation > _FARTHEST:
        case.add(
            RULE.found(
                f"the wires are {attached.separation.both()} apart; AWS D10.10 (from memory) "
                "allows 6 mm (1/4 in)",
                place,
                address=address,
                notes=[
                    "6 to 10 mm (1/4 to 3/8 in) is common practice, too: a procedure that takes it "
                    "says `leg separation at most 3/8 in`"
                ],
                basis=RULE.basis,
            )
        )
