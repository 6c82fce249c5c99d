"""The whole way from the hot junction to the instrument is described."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.fellows import listed
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

_ATTACHED = (
    "    attached            capacitor discharge legs apart 6 mm energy 100 J each leg apart\n"
)
_EXTENSION = "    extension           KX class 1 length 20 m\n"

RULE = Rule(
    "C133",
    "circuit-not-described",
    "advice",
    summary="Thermocouples of a treatment without how they are attached or their extension cable.",
    why="Each adds an error of its own; left out, nobody can say how far the record is from the "
    "metal.",
    fix="State `attached` and `extension`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(((_ATTACHED, ""),), at="thermocouples"),
        Bad(((_EXTENSION, ""),), at="thermocouples"),
    ),
)
_FIELDS = ("attached", "extension")


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if block is None or not block.sound or not treated(joint):
        return
    fields = type(block).fields
    words = [" ".join(fields[name].words) for name in _FIELDS if not block.says(name)]
    if words:
        case.add(
            RULE.found(
                f"the thermocouples of {joint.name} do not state {listed(words)}",
                block.place(),
                address=f"{joint.address}/thermocouples",
                basis=RULE.basis,
            )
        )
