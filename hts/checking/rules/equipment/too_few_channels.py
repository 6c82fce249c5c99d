"""The instruments have a channel for each thermocouple and each zone."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import counted
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import SPARE, Treatment

RULE = Rule(
    "E102",
    "too-few-channels",
    "error",
    summary="A recorder with fewer channels than thermocouples, or a controller with fewer than "
    "zones.",
    why="Something stays unrecorded or uncontrolled, and nobody notices before the heat is on.",
    fix="Use a larger instrument, or a second one.",
    source="arithmetic: channels against thermocouples and zones",
    basis="derived",
    bad=(
        Bad(
            (
                ("channels           6 type K", "channels           1 type K"),
                ("channel 1   control channel 1", "channel 1"),
                ("channel 2   control channel 2", "channel 2"),
            ),
            at="1",
            says="has 1 channel for 2 zones",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    joint = treatment.joint
    any_numbered = any(tc.channel is not None for tc in joint.thermocouples)
    controlled = any(tc.control_channel is not None for tc in joint.thermocouples)
    needs_reading = sum(
        tc.duty not in ("", SPARE) and tc.entry.recorder is None for tc in joint.thermocouples
    )
    for instrument, needed, what, numbered in (
        (treatment.recorder, needs_reading, "thermocouple", any_numbered),
        (treatment.controller, len(joint.zones), "zone", controlled),
    ):
        channels = instrument.channels if instrument is not None else None
        # Where channels are named, each number is judged by itself; one that cannot be read is told.
        if instrument is None or channels is None or numbered or channels.count is None:
            continue
        if needed <= channels.count:
            continue
        case.add(
            RULE.found(
                f"{instrument.name} has {counted(channels.count, 'channel')} for "
                f"{counted(needed, what)} of "
                f"{joint.name}",
                channels.place("count"),
                address=instrument.name,
                others=[Label(joint.place("names"), "the joint")],
            )
        )
