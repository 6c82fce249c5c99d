"""Plugs against draught stand beside the heated band, not in it."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

_ENDS = "    ends           closed and vented"

RULE = Rule(
    "N126",
    "draught-stopped-in-band",
    "warning",
    summary="Plugs against draught that stand in the bore nearer to the weld than the edge of the heated "
    "band.",
    why="They burn or melt, and the bore on their far side is cold where the band is to be hot.",
    fix="Set them beyond the heated band, and check digits and unit.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                ("heated band    by rule", "heated band    580 mm total"),
                (_ENDS, f"    draught        stopped by plugs at {{}}\n{_ENDS}"),
            ),
            keeps="290 mm",
            breaks="289 mm",
            says="at 289 mm (11.38 in) … 290 mm (11.42 in)",
        ),
    ),
    good=(Good(((_ENDS, f"    draught        stopped by plugs at 2 m\n{_ENDS}"),)),),
    agrees=(Agreement("joint.heating.draught.at", "joint.heating.heated band", "beyond its edge"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    draught = heating.draught if heating is not None else None
    if draught is None or draught.at is None:
        return
    heated = limits_of(case, joint).band("heated band")
    if heated is None or draught.at.value >= heated.value / 2:
        return
    edge = Quantity.of(heated.value / 2, "mm", LENGTH)
    case.add(
        RULE.found(
            f"the plugs of {joint.name} stand at {draught.at.both()} from the weld, the heated band "
            f"ends at {edge.both()}",
            draught.place("at"),
            address=f"{joint.address}/heating",
            basis=RULE.basis,
        )
    )
