"""Where a book names the places round the pipe that control or monitor, something is there."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

from hts.base.quantities.clock import ClockPosition
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places, quoted
from hts.checking.rules.helpers.places import ELSEWHERE, goes_round, limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Good, Rule
from hts.checking.rules.zones.too_few_zones import too_few
from hts.checking.rules.zones.top_or_bottom_unmeasured import unmeasured
from hts.checking.rules.zones.zone_boundary_at_six import begins_at_bottom
from hts.language.model.joint import CONTROLS, MONITORS, Joint, Thermocouple
from hts.limits import Demand

_TURN = 360
_BOTTOM = ClockPosition(180)
#: An hour of the clock counts as the place itself: practice, no source.
_NEAR = 30
#: What a number of thermocouples counts, and how a place without one is told.
_COUNTED = {
    "control thermocouples": (("controls",), "nothing controls"),
    "monitoring thermocouples": (("monitors",), "nothing monitors"),
    "thermocouples": (("controls", "monitors"), "nothing controls or monitors"),
}
_SPARE = "T2S  spare for T2            at 6:10 "
_UPRIGHT = (
    ("axis       horizontal\n  datum      top", "axis       vertical\n  datum      north"),
    ("viewed     with flow", "viewed     from above"),
    ("made in    field", "flow       up\n  made in    field"),
    ("T1   controls top            at 12:00", "T1   controls top            at 1:00 "),
    ("T1S  spare for T1            at 12:10", "T1S  spare for T1            at 1:10 "),
    (_SPARE, _SPARE.replace("6:10", "7:10")),
)

RULE = Rule(
    "Z142",
    "place-uncontrolled",
    "error",
    summary="A place round the pipe that a book names for a thermocouple, and none is there.",
    why="A number of thermocouples says nothing of where they sit: the bottom of a horizontal pipe "
    "lags the top, however many zones it has.",
    fix="Place a thermocouple within an hour of the clock of the place.",
    source="the governing books (AWS D10.10 by size, from memory); an hour is common practice",
    basis="derived",
    edges=(
        Edge(
            (
                ("T2   controls bottom         at 6:00 ", "T2   controls bottom         at {} "),
                (_SPARE, _SPARE.replace("6:10", "7:05")),
            ),
            keeps="7:00",
            breaks="7:01",
            at="zone",
            says="controls W12 at 6:00 … 12:00, 6:00",
        ),
        # Half a turn apart on a pipe that stands.
        Edge(
            (
                *_UPRIGHT,
                ("T2   controls bottom         at 6:00 ", "T2   controls bottom         at {} "),
            ),
            keeps="7:00",
            breaks="7:01",
            at="zone",
            says="controls W12 at 6:00 … 12:00, 6:00",
        ),
    ),
    good=(
        # On a pipe that stands, no place is the bottom: two that lie opposite each other will do.
        Good(
            (
                *_UPRIGHT,
                ("T2   controls bottom         at 6:00 ", "T2   controls bottom         at 7:00 "),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.zones or not joint.thermocouples or not goes_round(joint) or not treated(joint):
        return
    limits = limits_of(case, joint)
    if _is_otherwise_told(joint) or too_few(joint, limits):
        return
    for quantity, (duties, nothing) in _COUNTED.items():
        governing = limits.of(quantity)
        for demand in governing.demands if governing is not None else ():
            if not demand.limit.positions:
                continue
            counting = [tc for tc in joint.thermocouples if _counts(tc, duties)]
            if any(tc.position is None for tc in counting):
                continue
            there = [tc.position for tc in counting if tc.position is not None]
            wanted = [_place(text) for text in demand.limit.positions]
            bare = [p for p in wanted if not _served(p, there, wanted, joint.is_horizontal)]
            # That nothing at all shows the top or the bottom is told by its own rule.
            bare = [place for place in bare if place not in unmeasured(joint)]
            if bare:
                _tell(case, joint, demand, nothing, bare)
                return


@lru_cache(maxsize=64)
def _place(text: str) -> ClockPosition:
    """Books write the same few places over and over."""
    return ClockPosition.read(text)


def _is_otherwise_told(joint: Joint) -> bool:
    """Whether zones lie wrong, or are not controlled from within, or it is not clear by what: each
    has a rule of its own."""
    if begins_at_bottom(joint) is not None or any(not tc.duty for tc in joint.thermocouples):
        return True
    return any(
        not zone.controls
        or any(
            tc.position is not None and not zone.arc.contains(tc.position) for tc in zone.controls
        )
        for zone in joint.zones
        if zone.arc is not None
    )


def _counts(tc: Thermocouple, duties: tuple[str, ...]) -> bool:
    if tc.duty == CONTROLS:
        return "controls" in duties
    return tc.duty == MONITORS and "monitors" in duties and tc.entry.monitors not in ELSEWHERE


def _served(
    place: ClockPosition,
    there: list[ClockPosition],
    wanted: list[ClockPosition],
    horizontal: bool,
) -> bool:
    """Whether one is at the place, or, where it is not the bottom of a horizontal pipe, one to
    each side of it, no further apart than the places of the book are."""
    if any(place.distance_to(one) <= _NEAR for one in there):
        return True
    if horizontal and place == _BOTTOM:
        return False
    return bool(there) and _gap(place, there) <= Fraction(_TURN, len(wanted))


def _gap(place: ClockPosition, there: Iterable[ClockPosition]) -> Fraction:
    """Degrees between the next one to each side of the place."""
    behind = [(place.degrees - one.degrees) % _TURN for one in there]
    return min(behind) + min(_TURN - degrees for degrees in behind)


def _tell(
    case: Case, joint: Joint, demand: Demand, nothing: str, bare: list[ClockPosition]
) -> None:
    source = demand.limit.source
    listed = ", ".join(demand.limit.positions)
    case.add(
        RULE.found(
            f"{nothing} {joint.name} at {', '.join(map(str, bare))}, but {cited(source)} has "
            f"{demand.limit.quantity} at {listed}",
            joint.zones[0].place(),
            address=f"{joint.address}/thermocouples",
            others=places(source),
            notes=quoted(source),
            basis=source.basis,
        )
    )
