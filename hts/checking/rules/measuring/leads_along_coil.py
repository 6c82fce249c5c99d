"""Leads cross the turns of an induction coil at right angles."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import by_induction
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_COVER = '    junction cover      "refractory putty"\n'
_INDUCTION = (
    ("heating by resistance", "heating by induction"),
    ("kind      transformer", "kind      induction supply"),
    ("class 1 length 20 m", "class 1 length 20 m shielded"),
)

RULE = Rule(
    "C123",
    "leads-along-coil",
    "warning",
    summary="Leads that run along the turns of an induction coil.",
    why="A lead beside a turn is the second winding of a transformer: it carries a voltage of its "
    "own, and gets hot.",
    fix="Lead the wires off square to the turns: `leads square to the coil`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((*_INDUCTION, (_COVER, f"{_COVER}    leads along the coil\n")), at="along the coil"),),
    good=(Good((*_INDUCTION, (_COVER, f"{_COVER}    leads square to the coil\n"))),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if block is not None and block.leads == "along the coil" and by_induction(joint):
        case.add(
            RULE.found(
                f"the leads of {joint.name} run along the turns of the coil",
                block.place("leads"),
                address=f"{joint.address}/thermocouples",
                basis=RULE.basis,
            )
        )
