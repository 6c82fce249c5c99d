"""A zone called by a side of the pipe lies on that side."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.heating import Zone

_TOP = "zone top       from 9:00 to 3:00"
_BOTTOM = "zone bottom    from 3:00 to 9:00"

RULE = Rule(
    "Z156",
    "zone-unlike-its-name",
    "warning",
    summary="A zone called top, left or north that lies on the other side of the pipe.",
    why="Heaters are hung and cables led by the words: the controller then heats one side by the "
    "temperature of the other.",
    fix="Exchange the arcs, or the names.",
    source="geometry: clock positions from the top, clockwise as viewed",
    basis="derived",
    bad=(
        Bad(
            (
                (_TOP, _TOP.replace("top   ", "bottom")),
                (_BOTTOM, _BOTTOM.replace("bottom", "top   ")),
                ("controls top            at 12:00", "controls bottom         at 12:00"),
                ("controls bottom         at 6:00 ", "controls top            at 6:00 "),
            ),
            at="9:00",
            says="zone bottom of W12 lies on the side of 12:00",
        ),
    ),
    good=(
        Good(
            (
                (_TOP, _TOP.replace("top   ", "Z1    ")),
                (_BOTTOM, _BOTTOM.replace("bottom", "Z2    ")),
                ("controls top            at 12:00", "controls Z1             at 12:00"),
                ("controls bottom         at 6:00 ", "controls Z2             at 6:00 "),
            ),
        ),
    ),
    agrees=(Agreement("joint.heating.zone.name", "joint.heating.zone.from", "on that side"),),
)

#: Degrees clockwise from 12:00 of words, by the datum that they need ("" for any).
_PLACES = {
    "": {"right": 90, "left": 270},
    "top": {"top": 0, "bottom": 180},
    "north": {"north": 0, "south": 180},
}
#: East is at 3:00 for who looks down.
_COMPASS = {"from above": {"east": 90, "west": 270}, "from below": {"west": 90, "east": 270}}


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if entry.heating is None:
        return
    stands = entry.axis is not None and entry.axis.lies == "vertical"
    datum = entry.datum or ("" if stands else "top")
    places = {**_PLACES[""], **_PLACES.get(datum, {})}
    if entry.datum == "north":
        places |= _COMPASS.get(entry.viewed or "", {})
    for zone in entry.heating.zones:
        degrees = places.get(zone.name.lower())
        if degrees is None or _covers(zone, degrees) or not _covers(zone, (degrees + 180) % 360):
            continue
        other = (degrees + 180) % 360 // 30 or 12
        case.add(
            RULE.found(
                f"zone {zone.name} of {joint.name} lies on the side of {other}:00",
                zone.place("first"),
                address=f"{joint.address}/heating",
            )
        )
        return


def _covers(zone: Zone, degrees: int) -> bool:
    if zone.first is None or zone.last is None:
        return True
    start = zone.first.degrees
    return (degrees - start) % 360 <= (zone.last.degrees - start) % 360
