"""Contact probes are for preheat."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "C122",
    "contact-probe-in-treatment",
    "warning",
    summary="A post-weld heat treatment measured by thermocouples that only touch the metal.",
    why="A probe that loses contact reads too low, and the controller overheats the part.",
    fix="Attach the wires by capacitor discharge.",
    source="common practice, no source (contact probes are for preheat, up to 600 degF)",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "capacitor discharge legs apart 6 mm energy 100 J each leg apart",
                    "contact bias 5 K",
                ),
            ),
            at="contact",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is not None and attached.how == "contact" and treated(joint):
        case.add(
            RULE.found(
                f"the thermocouples of {joint.name} only touch the metal during heat treatment",
                attached.place("how"),
                address=f"{joint.address}/thermocouples",
                basis=RULE.basis,
            )
        )
