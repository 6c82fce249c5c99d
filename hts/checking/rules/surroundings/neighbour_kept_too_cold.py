"""What lies within the bands is not asked to stay colder than the bands make it."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern import JointLimits
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import goes_round, half, limits_of
from hts.checking.rules.helpers.steps import holds, treated
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

#: Of the hold in degC, at the edges of the heated and of the gradient band at the least.
_HEATED, _GRADIENT = Fraction(1, 2), Fraction(1, 4)
#: What the bands make it at the least is passed by a tenth in every heat. Practice.
_MORE = Fraction(11, 10)
_ROD = '  support    "rod hanger" 1.2 m upstream fixed\n'
_T6 = "    T6   monitors heated edge    at 6:00,  287 mm upstream     channel 6\n"
_SEAT = f'{_ROD}  nearby     "valve seat" {{}} downstream at most {{}}{{}} monitored by T9\n'
_WATCHED = f"{_T6}    T9   monitors nearby item    at 12:00, {{}} downstream    channel 9\n"


def _seat(place: str, limit: str, more: str = "") -> tuple[tuple[str, str], ...]:
    return ((_ROD, _SEAT.format(place, limit, more)), (_T6, _WATCHED.format(place)))


RULE = Rule(
    "N124",
    "neighbour-kept-too-cold",
    "warning",
    summary="An item within the heated or the insulated width that is to stay colder than the pipe is "
    "made there, however it is watched, or protected within the heated width.",
    why="Watching does not cool it, and no shield keeps cold what lies under heaters: the heat is stopped "
    "half-way, or the item is ruined.",
    fix="Remove it, narrow the bands as far as the rules allow, or correct its place or its limit.",
    source="common practice for the tenth that a place gets hotter than it has to; AWS D10.10 (from memory): the bands are as wide as leaves at least half of the hold at the "
    "edge of the heated band, and half of that at the edge of the gradient band; straight lines between",
    basis="memory",
    edges=(
        # Under heaters a shield keeps nothing cold.
        Edge(
            _seat("250 mm", "{}", " protected"),
            keeps="444 degC",
            breaks="443 degC",
            says="valve seat is to stay below 443 degC (829 degF), 250 mm (9.84 in) … at least about 403 degC (757.4 degF)",
        ),
        Edge(
            _seat("400 mm", "{}"),
            keeps="201 degC",
            breaks="200 degC",
            says="valve seat is to stay below 200 degC (392 degF), 400 mm (15.75 in) … at least about 183 degC (361.4 degF)",
        ),
    ),
    good=(
        Good(_seat("1.5 m", "60 degC")),
        Good(_seat("400 mm", "60 degC", " protected")),
        Good(
            (
                (
                    _ROD,
                    f'{_ROD}  nearby     "valve seat" 250 mm downstream at most 60 degC removed\n',
                ),
            )
        ),
    ),
    agrees=(Agreement("joint.nearby.at most", "joint.heating.heated band", "as hot as its place"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not joint.entry.nearby or not goes_round(joint):
        return
    lows = [
        held.low.to("degC")
        for treatment in treated(joint)
        if treatment.entry.sound
        for _, held in holds(case, treatment)
        if held.low is not None
    ]
    if not lows:
        return
    limits = limits_of(case, joint)
    for item in joint.entry.nearby:
        if item.removed or item.at_most is None:
            continue
        # Alone within the insulation it is told as that.
        if not item.protected and item.monitored is None:
            continue
        share = _share(limits, item.where.distance, bool(item.protected))
        if share is None or item.at_most.to("degC") >= _MORE * share * max(lows):
            continue
        there = Quantity.of(round(share * max(lows)), "degC", TEMPERATURE)
        unit = item.at_most.unit.symbol
        case.add(
            RULE.found(
                f"{item.what} is to stay below {item.at_most.both()}, {item.where.distance.both()} from "
                f"the weld, where the bands make it at least about {there.in_unit(unit).both()} and often a tenth more",
                item.place("at_most"),
                address=joint.address,
                others=[Label(item.place("where"), "its place")],
                basis=RULE.basis,
            )
        )


def _share(limits: JointLimits, distance: Quantity, protected: bool) -> Fraction | None:
    """Of the hold, what the bands are laid out to reach at a distance; None beyond them."""
    soak, heated, gradient = (
        limits.band(f"{name} band") for name in ("soak", "heated", "gradient")
    )
    if soak is None or heated is None:
        return None
    if distance <= half(soak):
        return Fraction(1)
    if distance <= half(heated):
        return _between(distance, half(soak), half(heated), Fraction(1), _HEATED)
    if protected or gradient is None or distance > half(gradient):
        return None
    return _between(distance, half(heated), half(gradient), _HEATED, _GRADIENT)


def _between(
    at: Quantity, begin: Quantity, end: Quantity, first: Fraction, last: Fraction
) -> Fraction:
    if end <= begin:
        return last
    return first + (last - first) * (at.value - begin.value) / (end.value - begin.value)
