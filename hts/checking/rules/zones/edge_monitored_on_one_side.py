"""Each edge of a band is watched on both sides of the weld."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.asked import monitors, unmet
from hts.checking.rules.helpers.edges import edge_monitors, watched
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.apart import along
from hts.language.model.joint import Joint, Thermocouple

#: Of so many, one belongs on each side.
_BOTH = 2

RULE = Rule(
    "Z119",
    "edge-monitored-on-one-side",
    "warning",
    summary="The edge of a band watched on one side of the weld only.",
    why="Draught, slope, a thicker wall or a support can make the other side colder.",
    fix="Monitor the edge on the other side, too.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad((("at 6:00,  40 mm upstream  ", "at 6:00,  40 mm downstream"),), at="downstream"),
        Bad((("at 6:00,  287 mm upstream  ", "at 6:00,  287 mm downstream"),), at="downstream"),
        Bad(
            (("along 1800 mm, 40 mm side B ", "along 1800 mm, 40 mm side A "),),
            at="40 mm side A",
            base="seam",
            says="soak edge is monitored only side A",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for edge in ("soak edge", "heated edge"):
        found = edge_monitors(joint, edge)
        if edge == "soak edge" and _is_heated_pad(joint):
            _tell_pad(case, joint, found)
            continue
        places = [along(tc) for tc in found]
        if not found or not (watched(case, joint, edge) or _is_heated_seam(joint)):
            continue
        if any(place is None for place in places):
            continue
        if len({place[1] > 0 for place in places if place}) == 1:
            if unmet(case, joint, partial(monitors, place=edge)):
                continue
            tc = found[0]
            side = tc.entry.offset.side if tc.entry.offset else "on the weld"
            case.add(
                RULE.found(
                    f"the {edge} is monitored only {side}",
                    tc.place("offset"),
                    address=f"{joint.address}/thermocouples",
                )
            )


def _is_heated_pad(joint: Joint) -> bool:
    """Whether it is a pad with a band on the run and on itself."""
    heating = joint.entry.heating
    local = heating is not None and heating.method != "furnace"
    return joint.entry.pad is not None and local and bool(treated(joint))


def _tell_pad(case: Case, joint: Joint, found: Sequence[Thermocouple]) -> None:
    sides = {tc.entry.offset.side for tc in found if tc.entry.offset is not None}
    if len(found) < _BOTH or len(sides) != 1:
        return
    case.add(
        RULE.found(
            f"the soak edge is monitored only {sides.pop()}",
            found[0].place("offset"),
            address=f"{joint.address}/thermocouples",
        )
    )


def _is_heated_seam(joint: Joint) -> bool:
    """Whether it is a long seam with a band of its own on both sides."""
    heating = joint.entry.heating
    local = heating is not None and heating.method != "furnace"
    return joint.entry.kind == "long seam" and local and bool(treated(joint))
