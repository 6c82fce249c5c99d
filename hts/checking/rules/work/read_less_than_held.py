"""Somebody reads the temperatures while the weld is held."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.segments import Hold

#: So often somebody reads whatever the hold.
_HOURLY = Quantity.of(1, "h", TIME)
_READING = "during heat W12 {{ reading every {} }}\n\ncontroller C1 {{"

RULE = Rule(
    "K136",
    "read-less-than-held",
    "warning",
    summary="Readings by hand more than an hour apart, with more time between them than the hold lasts.",
    why="The whole hold may pass between two of them: they show nothing of it.",
    fix="Read at least once in the hold, as every hour.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (("controller C1 {", _READING.format("{}")),),
            keeps="2 h",
            breaks="2.1 h",
            says="W12 is read every 2.1 h, and held for 2 h",
        ),
    ),
    good=(Good((("controller C1 {", _READING.format("30 min")),)),),
    agrees=(Agreement("during heat.reading every", "cycle.hold.for", "no longer"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    holds = [
        (each, segment)
        for each in treated(joint)
        if each.entry.sound
        for segment in each.entry.segments
        if isinstance(segment, Hold)
    ]
    for block in joint.during if holds else ():
        every = block.reading_every
        if every is None:
            continue
        for treatment, hold in holds:
            held = case.limits(joint, treatment).hold_time(hold) or hold.longest
            if held is None or every <= held or every <= _HOURLY:
                continue
            case.add(
                RULE.found(
                    f"{joint.name} is read every {every}, and held for {held}",
                    block.place("reading_every"),
                    address=f"{joint.address}/during-heat",
                    others=[Label(hold.place(), "the hold")],
                    basis=RULE.basis,
                )
            )
            break
