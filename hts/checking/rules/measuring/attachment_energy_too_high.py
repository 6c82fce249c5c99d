"""Thermocouples are attached with no more energy than is allowed."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Edge, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "C119",
    "attachment-energy-too-high",
    "error",
    summary="More energy to attach a thermocouple than the books and procedures allow.",
    why="With more, attaching counts as welding, with a procedure and a preheat of its own.",
    fix="Lower the energy.",
    source="the governing books and procedures (ASME B31.1 127.4.9: 125 J, from memory)",
    basis="derived",
    bad=(
        Bad(
            (("attached            capacitor discharge", "attached            peened"),), at="100 J"
        ),
    ),
    edges=(
        Edge(
            (
                ("energy 100 J", "energy {}"),
                (
                    "  interpass        at most 350",
                    "  attachment energy at most 125 J\n  interpass at most 350",
                ),
            ),
            keeps="125 J",
            breaks="126 J",
            base="procedure",
            says="is 126 J … at most 125 J",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is None or attached.energy is None:
        return
    if attached.how != "capacitor discharge":
        case.add(
            RULE.found(
                f"energy is that of a capacitor discharge, the thermocouples of {joint.name} are "
                f"attached {attached.how}",
                attached.place("energy"),
                address=f"{joint.address}/thermocouples",
                others=[Label(attached.place("how"), "the way of fixing")],
                basis="practice",
            )
        )
        return
    found = against(
        RULE,
        limits_of(case, joint).of("attachment energy"),
        "maximum",
        attached.energy,
        attached.place("energy"),
        address=f"{joint.address}/thermocouples",
        what="the energy of the attachment unit",
    )
    if found is not None:
        case.add(found)
