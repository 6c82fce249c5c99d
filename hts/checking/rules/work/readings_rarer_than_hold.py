"""Somebody reads while the hold lasts."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TIME, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.segments import Hold

#: Whoever reads every hour reads often enough, however short the hold.
_HOURLY = Quantity.of(1, "h", TIME)
_AFTER = "controller C1 {"


def _read(every: str) -> tuple[tuple[str, str], ...]:
    return ((_AFTER, f"during heat W12 {{\n  reading every {every}\n}}\n\n{_AFTER}"),)


RULE = Rule(
    "K124",
    "readings-rarer-than-hold",
    "warning",
    summary="Readings by hand more than an hour and farther apart than the longest hold lasts.",
    why="The hold may pass without one: what the recorder shows is compared with nothing.",
    fix="Read more often, hourly or at least once in the hold.",
    source="arithmetic: the time between readings against the time of the hold",
    basis="practice",
    edges=(Edge(_read("{}"), keeps="120 min", breaks="121 min", says="every 121 min … lasts 2 h"),),
    good=(Good(_read("30 min")),),
    agrees=(Agreement("during heat.reading every", "cycle.hold.for", "no rarer than it lasts"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    holds = [
        (segment.time, segment)
        for treatment in (*joint.bakes, *joint.cycles)
        for segment in treatment.entry.segments
        if isinstance(segment, Hold) and isinstance(segment.time, Quantity)
    ]
    if not holds:
        return
    longest, hold = max(holds, key=lambda each: each[0].value)
    for block in joint.during:
        every = block.reading_every if block.sound else None
        if every is not None and every > longest and every > _HOURLY:
            case.add(
                RULE.found(
                    f"{joint.name} is read every {every}, and the longest hold lasts {longest}",
                    block.place("reading_every"),
                    address=f"{joint.address}/during-heat",
                    others=[Label(hold.place(), "the hold")],
                    basis=RULE.basis,
                )
            )
