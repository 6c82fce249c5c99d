"""The wire is of the kind that is attached to pipes."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

_NOBLE = ("R", "S", "B")
_THICKEST, _THINNEST = 18, 24
_ATTACHED = " gauge 20 {"

RULE = Rule(
    "C121",
    "unusual-wire",
    "warning",
    summary="Wire for direct attachment that is stranded, of noble metal, or far from 20 AWG.",
    why="Thin and stranded wire breaks off at the spot, thick wire draws heat from it, and hot "
    "steel spoils noble metals.",
    fix="Use solid wire of type K or N, 20 AWG.",
    source="common practice, no source (type K, 20 AWG, solid; 18 to 24 AWG passes here)",
    basis="practice",
    bad=(
        Bad(((_ATTACHED, " gauge 20 wire stranded {"),), at="stranded", says="20 AWG"),
        Bad(
            (
                ("thermocouples type K class 1 gauge 20", "thermocouples type S class 2"),
                ("channels    12 type K", "channels    12 type S"),
                ("channels           6 type K", "channels           6 type S"),
                ("extension           KX class 1", "extension           SCA class 2"),
            ),
            at="S",
            says="20 AWG",
        ),
    ),
    edges=(
        Edge(
            ((_ATTACHED, " gauge {} {"),),
            keeps="24",
            breaks="25",
            says="of 25 AWG … 20 AWG",
        ),
    ),
    good=(
        Good(((_ATTACHED, " gauge 20 wire solid {"),)),
        Good(((_ATTACHED, " gauge 24 {"),)),
        Good(((_ATTACHED, " gauge 18 {"),)),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if block is None or attached is None or attached.how != "capacitor discharge":
        return
    for odd, field, wire_words in (
        (block.wire == "stranded", "wire", "stranded wire"),
        (block.type in _NOBLE, "type", f"wire of type {block.type}"),
        (
            block.gauge is not None and not _THICKEST <= block.gauge <= _THINNEST,
            "gauge",
            f"wire of {block.gauge} AWG",
        ),
    ):
        if odd:
            case.add(
                RULE.found(
                    f"{wire_words} is attached at {joint.name}; common practice is solid wire of "
                    f"type K, 20 AWG",
                    block.place(field),
                    address=f"{joint.address}/thermocouples",
                    basis=RULE.basis,
                )
            )
            return
