"""A channel is one the instrument has."""

from __future__ import annotations

from typing import Any

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.types import Reference

RULE = Rule(
    "E101",
    "channel-beyond-instrument",
    "error",
    floor="error",
    summary="A channel number the recorder or controller does not have.",
    why="The thermocouple ends up on another channel, or on none.",
    fix="Use a channel the instrument has, or another instrument.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (("40 mm downstream    channel 3", "40 mm downstream    channel 13"),),
            at="13",
            says="has 12",
        ),
        Bad(
            (("channel 2   control channel 2", "channel 2   control channel 7"),),
            at="7",
            says="has 6",
        ),
    ),
    edges=(
        Edge(
            (("40 mm downstream    channel 3", "40 mm downstream    channel {}"),),
            keeps="12",
            breaks="13",
            says="has 12",
        ),
        Edge(
            (("channel 2   control channel 2", "channel 2   control channel {}"),),
            keeps="6",
            breaks="7",
            says="has 6",
        ),
    ),
    good=(Good((("40 mm downstream    channel 3", "40 mm downstream    channel 12"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for tc in joint.thermocouples:
        for field, number, instruments in (
            ("channel", tc.channel, _instruments(joint, tc.entry.recorder, "recorder")),
            (
                "control_channel",
                tc.control_channel,
                _instruments(joint, tc.entry.controller, "controller"),
            ),
        ):
            for instrument in instruments:
                channels = instrument.channels
                if channels is None or number is None or not isinstance(channels.count, int):
                    continue
                if 1 <= number <= channels.count:
                    continue
                case.add(
                    RULE.found(
                        f"{tc.tag} is on channel {number}, {instrument.name} has {channels.count}",
                        tc.place(field),
                        address=tc.address,
                        others=[Label(channels.place("count"), "its channels")],
                    )
                )


def _instruments(joint: Joint, own: Reference | None, kind: str) -> list[Any]:
    """The instruments a thermocouple is connected to: the one it names for itself, else those of
    preheat, bakes and cycles, each once."""
    if own is not None:
        return [own.target] if own.target is not None else []
    said = "recorded_by" if kind == "recorder" else "controlled_by"
    preheat = getattr(joint.preheat, said, None)
    found = [preheat.target] if preheat is not None else []
    found += [getattr(treatment, kind) for treatment in (*joint.bakes, *joint.cycles)]
    return list({id(one): one for one in found if one is not None}.values())
