"""A procedure is nowhere looser than the books it was written to."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import LENGTH, TIME, Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain, procedure_limits, rows
from hts.checking.govern.sources import Authority, written_to
from hts.checking.rules.helpers.against import cited, quoted, shown
from hts.checking.rules.helpers.rows import is_compared, own_procedures
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.vocabulary.procedure import Procedure
from hts.limits import Looser
from hts.limits.worked import Weld

_REVISION = "  revision         2 on 2026-03-01 status for construction\n"
_WRITTEN_TO = (_REVISION, f"{_REVISION}  governed by      asme-b31.3 edition 2018\n")
_RATE = "  heating rate     at most 200 degC/h above 315 degC when t <= 60 mm"
_SPREAD = "  holding spread   at most 25 K"

RULE = Rule(
    "R121",
    "looser-than-its-book",
    "warning",
    summary="A procedure that is looser than a book it is `governed by`, for some metal, wall or "
    "size it is for.",
    why="The first job with such a weld breaks the code with an approved paper in hand; jobs "
    "before it did not show it.",
    fix="Tighten the row, or leave the metal or size out of what the procedure applies to.",
    source="the books the procedure names, worked out over typical metals, walls and pipe sizes",
    basis="derived",
    edges=(
        Edge(
            (_WRITTEN_TO, (_RATE, "  heating rate     at most {} above 315 degC when t <= 60 mm")),
            keeps="282 degC/h",
            breaks="283 degC/h",
            at="heating rate",
            base="owner",
            says="P-1 with 60 mm (2.362 in) of wall is 283 degC/h (509.4 degF/h) above 315 degC "
            "(599 degF) … at most 508 degF/h (282.2 degC/h)",
        ),
        Edge(
            (
                _WRITTEN_TO,
                (_SPREAD, _SPREAD + "\n  preheat at least {} when p_number = 5A"),
            ),
            # 300 degF, as the code prints it in US units, is 148.9 degC.
            keeps="149 degC",
            breaks="148 degC",
            at="preheat",
            base="owner",
            says="P-5A with 6 mm (0.2362 in) of wall is 148 degC (298.4 degF) … at least 150 degC (302 degF)",
        ),
    ),
    good=(
        # One ceiling for all metals stands above the figures of each.
        Good(
            (_WRITTEN_TO, (_SPREAD, f"{_SPREAD}\n  hold temperature at most 800 degC")),
            base="owner",
        ),
        Good(
            (
                _WRITTEN_TO,
                (_SPREAD, f"{_SPREAD}\n  preheat at least 200 degC when p_number = 5A"),
            ),
            base="owner",
        ),
    ),
)


#: 50 mm in two inches.
_INCH = Fraction(500, 508)


class _Found(NamedTuple):
    """A row that is looser, where it first is, and all the welds it is looser for."""

    item: Looser
    first: Weld
    welds: list[Weld]


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in filter(is_compared, own_procedures(case)):
        for book in written_to(procedure, case.spec, case.report):
            for found in _looser(procedure, book):
                _tell(case, procedure, found)


def _looser(procedure: Procedure, book: Authority) -> list[_Found]:
    # Imported here, for few files hold a procedure.
    from hts.limits.beside_book import looser_anywhere

    # What a whole procedure hangs on, such as an analysis, a typical weld may not have.
    ours = rows(procedure) if procedure.conditions else procedure_limits(procedure)
    found: dict[tuple[str, str, object], _Found] = {}
    inches = _inches(procedure)
    for weld, item in looser_anywhere(ours, book.limits, domain(procedure), inches):
        if _is_rounding(item):
            continue
        row = item.procedure.limit.id if item.procedure is not None else ""
        known = found.setdefault((item.quantity, item.direction, row), _Found(item, weld, []))
        known.welds.append(weld)
    return list(found.values())


def _is_rounding(item: Looser) -> bool:
    """Whether a time is that of the book but for what an inch has more than 25 mm: 1 h/in of 50 mm is as good as
    the 2 h printed for it."""
    mine = item.procedure.bounds.get(item.direction) if item.procedure is not None else None  # type: ignore[call-overload]
    bound = item.book.bounds.get(item.direction)  # type: ignore[call-overload]
    if (
        not isinstance(mine, Quantity)
        or not isinstance(bound, Quantity)
        or mine.dimension is not TIME
    ):
        return False
    return item.direction == "minimum" and mine.value >= bound.value * _INCH


def _inches(procedure: Procedure) -> bool:
    walls = procedure.walls
    end = (walls.at_most or walls.at_least) if walls is not None else None
    return end is not None and end.unit.system == "US"


def _tell(case: Case, procedure: Procedure, found: _Found) -> None:
    item, source = found.item, found.item.book.limit.source
    weld = f"{_metal(found.first)}{_length(found.first.wall, procedure)} of wall"
    if item.direction == "status":
        ours = item.procedure.limit.status if item.procedure is not None else ""
        theirs = item.book.limit.status
        message = f"{item.quantity} of {weld} is {ours} here, but {cited(source)} says {theirs}"
    else:
        asks = "asks for at least" if item.direction == "minimum" else "allows at most"
        mine = item.procedure.bounds[item.direction] if item.procedure is not None else None  # type: ignore[index]
        bound = (
            item.book.bound_for(item.direction, mine)  # type: ignore[arg-type]
            if mine is not None
            else item.book.bounds[item.direction]  # type: ignore[index]
        )
        above = f" above {item.above.both()}" if item.above is not None else ""
        # Both in one unit: `0.24 h` beside `15 min` would have to be worked out by whoever reads it.
        if (
            isinstance(mine, Quantity)
            and isinstance(bound, Quantity)
            and mine.unit.system == bound.unit.system
        ):
            mine = mine.in_unit(bound.unit.symbol)
        value = shown(mine) if mine is not None else "not limited"
        message = (
            f"the {item.quantity} of {weld} is {value}{above}, but {cited(source)} {asks} "
            f"{shown(bound)}"
        )
    case.add(
        RULE.found(
            message,
            _place(procedure, item),
            address=procedure.name,
            notes=[*_where(found, procedure), *quoted(source)],
        )
    )


def _where(found: _Found, procedure: Procedure) -> list[str]:
    """All it is looser for: metals and walls."""
    metals = list(dict.fromkeys(weld.p_number for weld in found.welds if weld.p_number))
    walls = sorted({weld.wall for weld in found.welds})
    named = f"P-number {', '.join(metals)}" if metals else "any metal"
    ends = [_length(wall, procedure) for wall in (walls[0], walls[-1])]
    span = ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"
    return [f"so it is for {named}, with walls of {span}"]


def _metal(weld: Weld) -> str:
    return f"P-{weld.p_number} with " if weld.p_number else ""


def _length(wall: Fraction, procedure: Procedure) -> str:
    """A wall as it is measured: both sides of a step in a condition are that step."""
    if _inches(procedure):
        return Quantity.of(round(wall / Fraction("25.4"), 2), "in", LENGTH).both()
    return Quantity.of(round(wall, 1), "mm", LENGTH).both()


def _place(procedure: Procedure, item: Looser) -> Span:
    at = item.procedure.limit.source.at if item.procedure is not None else None
    if at is not None:
        return at
    line = next((each for each in procedure.limits if each.quantity == item.quantity), None)
    return line.place() if line is not None else procedure.place("name")
