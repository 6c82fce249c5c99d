"""Instruments can read the hottest hold."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import hottest
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "C103",
    "range-too-small",
    "error",
    floor="error",
    summary="A recorder or controller whose range ends at or below the top of the hold range.",
    why="What goes beyond the range is neither seen nor recorded.",
    fix="Use an instrument, or a range, that goes above the hold.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (("channels    12 type K range 0 .. 1200", "channels    12 type K range 0 .. {}"),),
            keeps="731",
            breaks="730",
            says="up to 730 degC (1346 degF) … to 730 degC (1346 degF)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    top = hottest(case, treatment)
    if top is None:
        return
    hold, high = top
    for instrument in (treatment.recorder, treatment.controller):
        channels = instrument.channels if instrument is not None else None
        reads = channels.range if channels is not None else None
        if instrument is None or channels is None or reads is None or reads.high is None:
            continue
        if reads.high <= high:
            case.add(
                RULE.found(
                    f"{instrument.name} reads up to {reads.high.both('down')}, the hold goes to "
                    f"{high.both()}",
                    channels.place("range"),
                    address=instrument.name,
                    others=[Label(hold.place("range"), "the hold")],
                )
            )
