"""Only the ends of the wires are bare."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

#: 1/4 to 1/2 in is stripped, from memory.
_LONGEST = Quantity.of("1/2", "in", LENGTH)

RULE = Rule(
    "C117",
    "long-bare-legs",
    "warning",
    summary="Wires stripped over more than 1/2 in (12.7 mm).",
    why="Bare wires that touch above the metal measure there, and not on the metal.",
    fix="Strip about 6 mm (1/4 in).",
    source="common practice, no source (about 1/4 in, at most 1/2 in)",
    basis="practice",
    edges=(
        Edge(
            ((" each leg apart", " stripped {} each leg apart"),),
            keeps="12.7 mm",
            breaks="12.8 mm",
            says="12.8 mm (0.504 in) … about 6 mm (1/4 in) … at most 12.7 mm (1/2 in)",
        ),
    ),
    good=(Good(((" each leg apart", " stripped 1/4 in each leg apart"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is None or attached.stripped is None or attached.stripped <= _LONGEST:
        return
    case.add(
        RULE.found(
            f"the wires are bare over {attached.stripped.both()}; common practice is about 6 mm "
            f"(1/4 in), "
            "and at most 12.7 mm (1/2 in)",
            attached.place("stripped"),
            address=f"{joint.address}/thermocouples",
            basis=RULE.basis,
        )
    )
