"""Instruments are set to the type of the thermocouples."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import of_preheat
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

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


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    if block is None or block.type is None:
        return
    chosen = list(of_preheat(joint))
    for treatment in case.treatments(joint):
        if treatment.recorder is not None:
            chosen.append((treatment.recorder, treatment.place("recorded_by")))
        if treatment.controller is not None:
            chosen.append((treatment.controller, treatment.place("controlled_by")))
    told: set[int] = set()
    for instrument, at in chosen:
        channels = instrument.channels
        if channels is None or channels.type in (None, block.type) or id(instrument) in told:
            continue
        told.add(id(instrument))
        own = instrument.source is joint.entry.source
        others = [Label(block.place("type"), "the type attached")]
        if not own:
            # What the library says of an instrument is right: the choice of it is not.
            others = [Label(channels.place("type"), "its inputs"), *others]
        case.add(
            RULE.found(
                f"{instrument.name} is set to type {channels.type}, the thermocouples of "
                f"{joint.name} are type {block.type}",
                channels.place("type") if own else at,
                address=instrument.name,
                others=others,
            )
        )
