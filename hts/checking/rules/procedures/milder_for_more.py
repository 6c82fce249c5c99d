"""A procedure asks for no less where thicker or more highly alloyed metal is joined."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import WorkedOut, own_procedures, worked_out
from hts.checking.rules.procedures.implausible_limit import strange
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.limits.looser import is_general_ceiling

if TYPE_CHECKING:
    from hts.limits.worked import Bound, Column, Weld

_LINE = "  holding spread   at most 25 K"
_RATE = "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm"
_STEP = (
    "  heating rate at most 200 degC/h above 315 degC when t <= 25 mm\n"
    "  heating rate at most 200 degC/h * {} mm / t above 315 degC when t > 25 mm"
)

RULE = Rule(
    "R117",
    "milder-for-more",
    "warning",
    summary="A procedure, or a rule book of one's own, that asks for less where more metal is joined, thicker or more highly "
    "alloyed, or whose figure jumps where one row takes over from the other.",
    why="Thick walls and hardenable steels need the warmer preheat, the longer hold and the slower "
    "rate; a figure that goes the other way is most often a slip, or a condition turned round.",
    fix="Check the figures and the conditions of both rows; where it is meant, say so with "
    "`because`.",
    source="the order of the rows of ASME B31.3-2018 tables 330.1.1 and 331.1.1 by thickness and "
    "P-number; a formula that takes over from another row begins where that ends",
    basis="practice",
    bad=(
        Bad(
            (
                ("applies to p-number  1, 4, 5A", "applies to p-number  1, 4, 5A, 15E"),
                (
                    _LINE,
                    f"{_LINE}\n  preheat at least 95 degC when p_number = 1\n  preheat at least 150 degC when p_number = 4\n"
                    "  preheat at least 180 degC when p_number = 5A",
                ),
            ),
            base="owner",
            at="180 degC",
            says="preheat is 180 degC (356 degF) for P-5A and not limited for P-15E",
        ),
    ),
    edges=(
        # A rate that rises with the wall: `t` above the stroke for below it.
        Edge(
            (
                (
                    "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm",
                    "  heating rate at most 200 degC/h * (200 mm + max(0 mm, t - {})) / 200 mm above 315 degC",
                ),
            ),
            keeps="69 mm",
            breaks="68 mm",
            base="owner",
            at="68 mm",
            says="is 200 degC/h (360 degF/h) for 40 mm … 207 degC/h (372.6 degF/h) for 75 mm",
        ),
        Edge(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n  preheat at least 150 degC when p_number = 4\n  preheat at least {} when p_number = 5A",
                ),
            ),
            keeps="146 degC",
            breaks="145 degC",
            base="owner",
            says="is 150 degC (302 degF) … 145 degC (293 degF)",
        ),
        Edge(
            (
                (
                    "  holding spread   at most 25 K",
                    "  holding spread   at most 25 K\n  preheat at least 95 degC when weld_thickness < {}",
                ),
            ),
            keeps="76 mm",
            breaks="75 mm",
            at="95 degC",
            base="owner",
            says="is 95 degC (203 degF) below 75 mm … for 75 mm",
        ),
        Edge(
            (
                (
                    "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm",
                    "  heating rate at most {} above 315 degC when t <= 25 mm\n  heating rate at most 200 degC/h * 12 mm / t above 315 degC when t > 25 mm",
                ),
            ),
            keeps="98 degC/h",
            breaks="99 degC/h",
            at="200 degC/h * 12 mm / t",
            base="owner",
            says="from 99 degC/h (178.2 degF/h) to 96 degC/h (172.8 degF/h) at 25 mm",
        ),
    ),
    good=(
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  preheat at least 150 degC when p_number = 4\n"
                    "  preheat at least 200 degC when p_number = 5A",
                ),
            ),
            base="owner",
        ),
        Good(((_RATE, _STEP.format(25)),), base="owner"),
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  preheat at least 95 degC when thicker_wall < 25 mm,"
                    ' because "The heavy sections are welded in the furnace"',
                ),
            ),
            base="owner",
        ),
    ),
)

#: What has to rise (1) or fall (-1) with the wall, and with the alloy; whether no limit counts as
#: the mildest there.
_BY_WALL = {
    "preheat": 1,
    "hold time": 1,
    "bake time": 1,
    "heating rate": -1,
    "cooling rate": -1,
    "soak band": 1,
    "heated band": 1,
    "delay before heat treatment": -1,
}
_BY_ALLOY = {
    "preheat": 1,
    "hold time": 1,
    "bake time": 1,
    "hold temperature": 1,
    "delay before heat treatment": -1,
    "excursion": -1,
    "holding spread": -1,
    "interpass": -1,
}
_NONE_IS_MILDEST = ("preheat", "bake time", "delay before heat treatment")
_RATES = ("heating rate", "cooling rate")
#: Values this close are one: rounded conversions.
_CLOSE = 0.03


#: A condition of more steps than this picks out single sizes.
_STEPS = 3


class _Turn(NamedTuple):
    """Two welds, the second of more metal, and the row that is to blame for the milder figure."""

    message: str
    row: Bound
    other: Bound | None


@RULE.for_spec
def check(case: Case) -> None:
    told: set[tuple[int, str]] = set()
    # A book says nothing of the metals it is for.
    scoped = {each.name for each in own_procedures(case) if each.p_numbers is not None}
    for found in worked_out(case):
        for column in found.columns:
            turn = next(turns(column, found.name in scoped), None)
            # What is out of all range is told as that.
            if turn is None or _explained(turn) or any(strange(column)):
                continue
            # Editions of a book share rows.
            which = found.place(turn.row.row, column.direction).start, turn.message
            if which not in told:
                told.add(which)
                _tell(case, found, column, turn)


def turns(column: Column, scoped: bool = False) -> Iterator[_Turn]:
    for line in column.lines():
        yield from _milder(column, line, _BY_WALL.get(column.quantity, 0), _wall)
        yield from _jumps(column, line)
    by_alloy = _BY_ALLOY.get(column.quantity, 0)
    alike: dict[tuple[Fraction, Fraction], list[tuple[Weld, Bound | None]]] = {}
    for weld, bound in column.bounds:
        alike.setdefault((weld.wall, weld.outside), []).append((weld, bound))
    for size in {(weld.wall, weld.outside) for weld, _ in column.bounds}:
        metals = alike[size]
        if len(metals) > 1:
            yield from _milder(column, metals, by_alloy, _metal)
            if scoped and by_alloy and column.quantity in _NONE_IS_MILDEST:
                yield from _hardest_left_out(column, metals)


def _wall(weld: Weld) -> str:
    return f"{round(float(weld.wall), 1):g} mm of wall"


def _metal(weld: Weld) -> str:
    return f"P-{weld.p_number}"


def _from_to(first: Weld, second: Weld, named: Callable[[Weld], str]) -> tuple[str, str]:
    """How two welds are told apart: `for 6 mm of wall`, or the two sides of a step at one wall."""
    one, other = named(first), named(second)
    if one != other:
        return f"for {one}", f"for {other}"
    step = round(second.wall, 3)
    return (
        (f"below {one}", f"for {other}")
        if second.wall == step
        else (f"for {one}", f"above {other}")
    )


def _milder(
    column: Column,
    welds: Sequence[tuple[Weld, Bound | None]],
    way: int,
    named: Callable[[Weld], str],
) -> Iterator[_Turn]:
    """Where a least value falls, or a greatest one goes the wrong way."""
    if not way or (
        way > 0 and column.direction == "maximum" and column.quantity != "hold temperature"
    ):
        return
    if way < 0 and column.direction == "minimum":
        return
    last: Bound | None = None
    for number, (weld, bound) in enumerate(welds):
        if bound is not None and is_general_ceiling(bound.row):
            continue
        if bound is None:
            ends = named is _wall and last is not None and column.quantity in _NONE_IS_MILDEST
            # A rate that has a row for each thickness has one for the thickest, too.
            ends |= (
                named is _wall
                and last is not None
                and column.quantity in _RATES
                and len(column.rows) > 2
            )
            if (
                ends
                and last is not None
                and _is_simple(last)
                and not _goes_on(last, welds[number:])
            ):
                yield _Turn(
                    f"{column.quantity} is {_shown(last)} {_from_to(last.weld, weld, named)[0]} and "
                    f"not limited {_from_to(last.weld, weld, named)[1]}",
                    last,
                    None,
                )
            continue
        if last is not None and way * (float(bound.number) - float(last.number)) < -_CLOSE * abs(
            float(last.number)
        ):
            # A rate tightened for part of the cases of a row is meant: other sizes keep that row's.
            other = bound.row is not last.row
            rate = way < 0 and column.quantity.endswith("rate")
            if rate and other and bound.holds_for(last.weld):
                continue
            first, second = _from_to(last.weld, weld, named)
            yield _Turn(
                f"{column.quantity} is {_shown(last)} {first} and {_shown(bound)} {second}",
                bound,
                last,
            )
        last = bound


#: Where so many metals have a row, all were meant to.
_METALS = 3


def _hardest_left_out(
    column: Column, welds: Sequence[tuple[Weld, Bound | None]]
) -> Iterator[_Turn]:
    """Where most metals have a row, and the one that hardens most has none."""
    bounds = [bound for _, bound in welds if bound is not None]
    weld, last = welds[-1]
    if last is None and len(bounds) >= _METALS and _is_simple(bounds[-1]):
        metal = _metal(bounds[-1].weld)
        yield _Turn(
            f"{column.quantity} is {_shown(bounds[-1])} for {metal} and not limited for {_metal(weld)}",
            bounds[-1],
            None,
        )


def _goes_on(last: Bound, welds: Sequence[tuple[Weld, Bound | None]]) -> bool:
    """Whether a row on the same fact follows after a gap, which gap-between-rows tells."""
    after = next((bound.row for _, bound in welds if bound is not None), None)
    if after is None or after.when is None or last.row.when is None or after is last.row:
        return False
    return set(after.when.names) == set(last.row.when.names)


def _is_simple(bound: Bound) -> bool:
    """Whether the condition of its row has so few steps that what lies between them was meant."""
    when = bound.row.when
    return when is not None and len(when.literals) <= _STEPS


def _jumps(column: Column, welds: Sequence[tuple[Weld, Bound | None]]) -> Iterator[_Turn]:
    """Where a row that is a formula of the thickness takes over and does not begin where the other
    ends."""
    from hts.limits.worked import THICKNESSES

    for (first, below), (second, above) in pairwise(welds):
        if below is None or above is None or below.row is above.row:
            continue
        if second.wall - first.wall > second.wall / 10000:
            continue
        formulas = [set(getattr(b.row, column.direction).names) for b in (below, above)]
        conditions = [
            set(b.row.when.names) if b.row.when is not None else set() for b in (below, above)
        ]
        if not any(names & set(THICKNESSES) for names in formulas) or not all(
            names & set(THICKNESSES) for names in conditions
        ):
            continue
        if abs(float(above.number) - float(below.number)) > _CLOSE * abs(float(below.number)):
            yield _Turn(
                f"{column.quantity} jumps from {_shown(below)} to {_shown(above)} at "
                f"{_wall(second)}",
                above,
                below,
            )


def _shown(bound: Bound) -> str:
    return bound.value.both() if isinstance(bound.value, Quantity) else str(bound.value)


def _explained(turn: _Turn) -> bool:
    """Whether a row of a procedure says `because`. The note of a row of a book tells something else."""
    rows = [bound.row for bound in (turn.row, turn.other) if bound is not None]
    return any(row.source.note and row.source.at is not None for row in rows)


def _tell(case: Case, found: WorkedOut, column: Column, turn: _Turn) -> None:
    others = []
    if turn.other is not None and turn.other.row is not turn.row.row:
        others.append(Label(found.place(turn.other.row, ""), "the other row"))
    case.add(
        RULE.found(
            turn.message,
            found.place(turn.row.row, column.direction),
            address=found.name,
            others=others,
            basis=RULE.basis,
        )
    )
