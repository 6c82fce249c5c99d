"""Instruments are set to the type of the thermocouples."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "C101",
    "input-of-other-type",
    "error",
    floor="error",
    summary="A recorder or controller set to another thermocouple type than the one attached.",
    why="It shows a wrong temperature that looks plausible.",
    fix="Set the instrument to the type of the thermocouples, or use others.",
    source="IEC 60584-1 (each type has its own reference function)",
    basis="published",
    bad=(
        Bad((("channels    12 type K range", "channels    12 type N range"),), at="N"),
        Bad((("channels           6 type K range", "channels           6 type J range"),), at="J"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    block = treatment.joint.entry.thermocouples
    if block is None or block.type is None:
        return
    for instrument in (treatment.recorder, treatment.controller):
        channels = instrument.channels if instrument is not None else None
        if instrument is None or channels is None or channels.type in (None, block.type):
            continue
        case.add(
            RULE.found(
                f"{instrument.name} is set to type {channels.type}, the thermocouples of "
                f"{treatment.joint.name} are type {block.type}",
                channels.place("type"),
                address=instrument.name,
                others=[Label(block.place("type"), "the type attached")],
            )
        )
