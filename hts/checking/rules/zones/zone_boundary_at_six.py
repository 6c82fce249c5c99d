"""On a horizontal pipe no zone ends at the bottom."""

from __future__ import annotations

from hts.base.quantities.clock import ClockPosition
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.round import rings
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint, Zone

_BOTTOM = ClockPosition(180)

RULE = Rule(
    "Z115",
    "zone-boundary-at-six",
    "warning",
    summary="Zones of a horizontal pipe that meet, or a gap between heaters, at 6:00.",
    why="The bottom is the coldest place; there the gap between heaters does the most harm.",
    fix="Let one zone lie across 6:00, and keep gaps to the upper half.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            (
                ("zone top       from 9:00 to 3:00", "zone left      from 6:00 to 12:00"),
                ("zone bottom    from 3:00 to 9:00", "zone right     from 12:00 to 6:00"),
                ("T1   controls top            at 12:00", "T1   controls left           at 10:00"),
                ("T1S  spare for T1            at 12:10", "T1S  spare for T1            at 10:10"),
                ("T2   controls bottom         at 6:00 ", "T2   controls right          at 3:00 "),
                ("T2S  spare for T2            at 6:10 ", "T2S  spare for T2            at 3:10 "),
            ),
            at="6:00",
            says="6:00",
        ),
        Bad((("gap at         12:00", "gap at         6:00"),), at="6:00", says="6:00"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or not joint.is_horizontal:
        return
    zone = begins_at_bottom(joint)
    if zone is not None:
        case.add(
            RULE.found(
                f"zone {zone.name} begins at 6:00, the bottom of the pipe",
                zone.place("first"),
                address=zone.address,
            )
        )
        return
    if heating.gap_at == _BOTTOM:
        case.add(
            RULE.found(
                "the gap between heaters lies at 6:00, the bottom of the pipe",
                heating.place("gap_at"),
                address=f"{joint.address}/heating",
            )
        )


def begins_at_bottom(joint: Joint) -> Zone | None:
    """A zone that meets the next one at 6:00."""
    for ring in rings(joint):
        for zone, arc in ring:
            if arc.start == _BOTTOM and arc.span != 360:
                return zone
    return None
