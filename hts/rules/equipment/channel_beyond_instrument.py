"""A channel is one the instrument has."""

from __future__ import annotations

from typing import Any

from hts.findings import Label
from hts.govern.case import Case
from hts.model.joint import Treatment
from hts.rules.rule import Bad, Good, Rule
from hts.vocabulary.types import Reference

RULE = Rule(
    "E101",
    "channel-beyond-instrument",
    "error",
    floor="error",
    summary="A channel number the recorder or controller does not have.",
    why="The thermocouple is connected anywhere, or nowhere.",
    fix="Use a channel the instrument has, or another instrument.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((("40 mm downstream    channel 3", "40 mm downstream    channel 13"),), at="13"),
        Bad((("channel 2   control channel 2", "channel 2   control channel 7"),), at="7"),
    ),
    good=(Good((("40 mm downstream    channel 3", "40 mm downstream    channel 12"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for tc in treatment.joint.thermocouples:
        for field, number, instrument in (
            ("channel", tc.channel, _own(tc.entry.recorder) or treatment.recorder),
            (
                "control_channel",
                tc.control_channel,
                _own(tc.entry.controller) or treatment.controller,
            ),
        ):
            channels = instrument.channels if instrument is not None else None
            if instrument is None or channels is None or number is None:
                continue
            if not isinstance(channels.count, int) or 1 <= number <= channels.count:
                continue
            case.add(
                RULE.found(
                    f"{tc.tag} is on channel {number}, {instrument.name} has {channels.count}",
                    tc.place(field),
                    address=tc.address,
                    others=[Label(channels.place("count"), "its channels")],
                )
            )


def _own(reference: Reference | None) -> Any:
    """The instrument a thermocouple names for itself."""
    return reference.target if reference is not None else None
