"""The zones go right round the pipe."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities.clock import Arc
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.round import sides
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z113",
    "zone-gap",
    "warning",
    summary="Part of the circumference in no zone.",
    why="The metal there stays cold, and the soak band is not reached all round.",
    fix="Let one zone begin where the other ends.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (("zone bottom    from 3:00 to 9:00", "zone bottom    from {} to 9:00"),),
            keeps="3:00",
            breaks="3:01",
            says="from 3:00 to 3:01",
        ),
    ),
    bad=(
        Bad(
            (
                ("from 9:00 to 3:00 power", "from 9:00 to 3:00 side both power"),
                ("from 3:00 to 9:00 power", "from 3:00 to 9:00 side upstream power"),
            ),
            at="9:00",
            says="from 3:00 to 9:00",
        ),
    ),
    good=(
        Good(
            (
                ("from 9:00 to 3:00 power", "from 9:00 to 3:00 side both power"),
                (
                    "    zone bottom    from 3:00 to 9:00 power 9 kW heaters 2\n",
                    "    zone bottom    from 3:00 to 9:00 side upstream power 9 kW heaters 2\n"
                    "    zone other     from 3:00 to 9:00 side downstream power 9 kW heaters 2\n",
                ),
                (
                    "    T2   controls bottom         at 6:00  on weld              channel 2   "
                    "control channel 2\n",
                    "    T2   controls bottom         at 6:00  on weld              channel 2   "
                    "control channel 2\n"
                    "    T9   controls other          at 5:00  on weld              channel 9   "
                    "control channel 3\n"
                    "    T9S  spare for T9            at 5:10  on weld              channel 10\n",
                ),
            ),
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for ring in sides(joint):
        for index, (zone, arc) in enumerate(ring):
            before, earlier = ring[index - 1]
            others = [other for _, other in ring if other is not arc]
            if earlier is arc and arc.span == 360:
                continue
            if earlier.end == arc.start and earlier is not arc:
                continue
            if any(other.overlaps(arc) and other.contains(arc.start) for other in others):
                continue
            gap = Arc(earlier.end, arc.start)
            case.add(
                RULE.found(
                    f"no zone heats from {gap}",
                    zone.place("first"),
                    address=zone.address,
                    others=[Label(before.place("last"), f"zone {before.name} ends here")],
                )
            )
