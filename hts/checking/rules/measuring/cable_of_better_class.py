"""Wire is of no worse class than the cable that carries on from it."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_CLASS = ("thermocouples type K class 1", "thermocouples type K class 2")
#: A class and those worse than it, of one standard.
_WORSE = {"1": ("2",), "special": ("standard",)}

RULE = Rule(
    "C138",
    "cable-of-better-class",
    "warning",
    summary="Thermocouple wire of a worse class than its extension cable.",
    why="Near the hold the wire strays the most and the cable hardly at all: whoever pays for good "
    "cable has good wire, and one of the two classes is perhaps a slip.",
    fix="Check the certificate of the wire, and correct the class.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((_CLASS,), at="2", says="of class 2, its cable of class 1"),),
    good=(Good((_CLASS, ("KX class 1", "KX class 2"))),),
    agrees=(
        Agreement(
            "joint.thermocouples.class",
            "joint.thermocouples.extension.class",
            "the wire is of no worse class",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    cable = block.extension if block is not None else None
    if block is None or cable is None or block.grade not in _WORSE.get(cable.grade or "", ()):
        return
    case.add(
        RULE.found(
            f"the wire is of class {block.grade}, its cable of class {cable.grade}",
            block.place("grade"),
            address=f"{joint.address}/thermocouples",
            others=[Label(cable.place("grade"), "the cable")],
            basis=RULE.basis,
        )
    )
