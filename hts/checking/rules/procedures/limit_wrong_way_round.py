"""What needs a least value is not limited upward alone."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.quantities import TEMPERATURE, Quantity, QuantityError
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.rows import (
    ASKS,
    asked_for,
    by_quantity,
    editions_of,
    own_procedures,
    place,
    place_in_book,
)
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.vocabulary.procedure import Procedure
from hts.limits import Limit
from hts.limits.quantities import Direction

_LINE = "  holding spread   at most 25 K"
_COOL = "  cooling rate     at most 200 degC/h above 315 degC"
_HOLD = "  hold time        at least 2.5 min/mm * t\n"

_INTERPASS = "  interpass        at most 350 degC"
_HOLDING = "  holding spread   at most 25 K"

RULE = Rule(
    "R120",
    "limit-wrong-way-round",
    "warning",
    summary="A procedure that limits upward what the trade asks a least value of, such as zones, "
    "insulation or the time of a bake, or the other way round.",
    why="`at most` written for `at least` turns a demand into its opposite: a job with no bake at "
    "all meets it.",
    fix="Turn it round; where it is meant, say why with `because`, or state both ends.",
    source="common practice, no source: the directions in which the shipped books limit each "
    "quantity",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    _HOLDING,
                    f"{_HOLDING}\n  preheat at most preheat_by_ce when preheat_by_ce is known",
                ),
            ),
            base="owner",
            at="preheat_by_ce",
            says="preheat at most preheat_by_ce",
        ),
        Bad(((_LINE, f"{_LINE}\n  zones at most 2"),), base="owner", at="2", says="at most 2"),
        Bad(
            ((_LINE, f"{_LINE}\n  insulation at most 0.4 m2K/W"),),
            base="owner",
            at="0.4 m2K/W",
            says="at most 0.4 m2K/W",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  heating rate at least 50 degC/h above 315 degC"),),
            base="owner",
            at="50 degC/h",
            says="at least 50 degC/h",
        ),
        Bad(
            ((_COOL, "  cooling rate at least 250 degC/h above 315 degC"),),
            base="owner",
            at="250 degC/h",
            says="at least 250 degC/h",
        ),
        Bad(
            (
                (
                    _LINE,
                    f"{_LINE}\n  hold temperature at least filler_lower_critical - 40 K when p_number = 5A and filler_lower_critical is known",
                ),
            ),
            base="owner",
            at="filler_lower_critical - 40 K",
            says="hold temperature at least filler_lower_critical - 40 K",
        ),
        Bad(
            (
                ("applies to p-number  1, 4, 5A", "applies to p-number  15E"),
                (
                    _LINE,
                    f"{_LINE}\n  hold temperature at least 740 degC at most 770 degC\n"
                    "  hold temperature at most filler_lower_critical + 15 K when filler_lower_critical is known",
                ),
            ),
            base="owner",
            at="filler_lower_critical + 15 K",
            says="+ 15 K: P-07 lets the hold go beyond the lower critical temperature",
        ),
        Bad(
            ((_LINE, f"{_LINE}\n  hold time at most 5 h with thin-wall hold"),),
            base="owner",
            at="5 h",
            says="hold time at most 5 h",
        ),
        # Of one metal alone, where the others are limited upward.
        Bad(
            (
                (
                    _LINE,
                    f"{_LINE}\n  cooling rate at least 100 degC/h above 300 degC when p_number = 5A",
                ),
            ),
            base="owner",
            at="100 degC/h",
            says="cooling rate at least 100 degC/h",
        ),
        Bad(
            (
                (
                    _INTERPASS,
                    "  interpass at least 300 degC when p_number = 5A\n  interpass at most 350 degC when p_number != 5A",
                ),
            ),
            base="owner",
            at="300 degC",
            says="interpass at least 300 degC",
        ),
        Bad(
            ((_HOLD, "  hold time        at most max(1 h, 2.5 min/mm * t)\n"),),
            base="owner",
            at="max(1 h, 2.5 min/mm * t)",
            says="1 h, 2.5 min/mm",
        ),
    ),
    edges=(
        Edge(
            ((_INTERPASS, "  interpass        at least {}"),),
            keeps="249 degC",
            breaks="250 degC",
            base="owner",
            says="interpass at least 250 degC",
        ),
    ),
    good=(
        Good(
            (
                (
                    _LINE,
                    f"{_LINE}\n  hold temperature at most filler_lower_critical - 40 K when p_number = 5A and filler_lower_critical is known",
                ),
            ),
            base="owner",
        ),
        Good(
            (
                ("  applies to p-number  1, 4, 5A", "  applies to p-number  1, 7"),
                (_LINE, f"{_LINE}\n  cooling rate at least 55 degC/h when p_number = 7"),
            ),
            base="owner",
        ),
        Good(((_LINE, f"{_LINE}\n  zones at least 2"),), base="owner"),
        Good(((_LINE, f"{_LINE}\n  zones at least 2 at most 6"),), base="owner"),
        Good(
            ((_LINE, f'{_LINE}\n  zones at most 2, because "The set on site has two circuits"'),),
            base="owner",
        ),
    ),
)

#: What is always limited one way: any row that limits it the other way alone is told.
_ALWAYS: dict[str, Direction] = {
    "zones": "minimum",
    "insulation": "minimum",
    "bake time": "minimum",
    "heating rate": "maximum",
}
#: What grows with the wall where it is a least value; a ceiling alone is one figure for all.
_BY_THE_WALL = "hold time"
_WALL = ("t", "wall", "thicker_wall")
#: What a book limits one way, whatever else it says of it.
_IN_BOOKS: dict[str, Direction] = {
    **_ALWAYS,
    _BY_THE_WALL: "minimum",
    **dict.fromkeys(
        ("preheat width", "bake width", "soak band", "heated band", "gradient band"), "minimum"
    ),
    **dict.fromkeys(("heating spread", "holding spread"), "maximum"),
}
#: So far below it a hold keeps; what is normalized lies above it.
_CEILING = re.compile(r"lower_critical\s*-")
#: A ceiling that lies beyond it.
_ABOVE_IT = re.compile(r"lower_critical\s*\+|\+\s*(?:filler_)?lower_critical")
#: What an estimate has against cracking is the least of a preheat.
_ESTIMATED = re.compile(r"\bpreheat_by_")
#: Preheat is seldom asked for as hot as this; common practice, no source.
_HOT = Quantity.of(250, "degC", TEMPERATURE)
#: Metals of which a least cooling rate is asked: what is cooled slowly turns brittle.
_COOLED_FAST = ("6", "7", "8", "10H", "10I", "10K")


@RULE.for_spec
def check(case: Case) -> None:
    for procedure in own_procedures(case):
        for row, direction in _turned(procedure):
            beyond = row.quantity == "hold temperature" and direction == "maximum"
            wrong = f"limits it {ASKS[direction]}, never {ASKS[_other(direction)]}"
            if beyond:
                wrong = "lets the hold go beyond the lower critical temperature"
            case.add(
                RULE.found(
                    f"{row.quantity} {asked_for(row, direction)}: {procedure.name} {wrong}",
                    place(procedure, row, direction),
                    address=procedure.name,
                    basis=RULE.basis,
                )
            )
    for name, row, direction, at in _turned_in_books(case):
        case.add(
            RULE.found(
                f"{row.quantity} {asked_for(row, direction)}: {name} limits it {ASKS[direction]}, never "
                f"{ASKS[_other(direction)]}",
                at,
                address=name,
                basis=RULE.basis,
            )
        )


def _turned_in_books(case: Case) -> Iterator[tuple[str, Limit, Direction, Span]]:
    """The rows of rule books of one's own that limit a quantity the other way, where no row limits it the
    usual way: told with the name of the book, the way, and where they stand."""
    for book in case.spec.books:
        told: set[int] = set()
        for edition in editions_of(book):
            for quantity, usual in _IN_BOOKS.items():
                rows = [row for row in edition.limits if row.quantity == quantity]
                if any(getattr(each, usual) is not None for each in rows):
                    continue
                for row in rows:
                    other = _other(usual)
                    by_the_wall = {*_WALL} & {*row.names([other])}
                    at = place_in_book(book, row)
                    if getattr(row, other) is None or at.start in told:
                        continue
                    if quantity != _BY_THE_WALL or by_the_wall:
                        told.add(at.start)
                        yield book.file.id, row, other, at


def _turned(procedure: Procedure) -> Iterator[tuple[Limit, Direction]]:
    for quantity, rows in by_quantity(procedure).items():
        for row in rows:
            usual = _ALWAYS.get(quantity)
            if quantity == _BY_THE_WALL and {*_WALL} & {*row.names(["maximum"])}:
                usual = "minimum"
            if quantity == _BY_THE_WALL and row.option is not None:
                usual = "minimum"
            least = row.minimum.text if row.minimum is not None else ""
            if quantity == "hold temperature" and _CEILING.search(least):
                usual = "maximum"
            if (
                quantity == "hold temperature"
                and row.maximum is not None
                and _ABOVE_IT.search(row.maximum.text)
            ):
                yield row, "maximum"
                continue
            if quantity == "cooling rate" and _slow_is_right(procedure, row):
                usual = "maximum"
            if (
                quantity == "interpass"
                and _meant_as_greatest(least)
                and not _has_greatest(rows, row)
            ):
                usual = "maximum"
            most = row.maximum.text if row.maximum is not None else ""
            if quantity == "preheat" and _ESTIMATED.search(most):
                usual = "minimum"
            if usual is None or row.source.note:
                continue
            if getattr(row, usual) is None and getattr(row, _other(usual)) is not None:
                yield row, _other(usual)


def _meant_as_greatest(least: str) -> bool:
    """Whether a least interpass temperature is as hot as only a greatest is; a lower one may well be
    the preheat, which passes keep as well."""
    try:
        return Quantity.read(least, TEMPERATURE) >= _HOT
    except QuantityError:
        return False


def _slow_is_right(procedure: Procedure, row: Limit) -> bool:
    """Whether a row is for metals that no code has cooled faster than so much."""
    named = procedure.p_numbers.each if procedure.p_numbers is not None else _COOLED_FAST
    if row.when is not None and "p_number" in row.when.names:
        named = [metal for metal in named if metal in re.findall(r"[\w]+", row.when.text)]
    return not any(metal in _COOLED_FAST for metal in named)


def _has_greatest(rows: list[Limit], row: Limit) -> bool:
    """Whether another row limits the same welds upward: for all, or under the same condition."""
    own = row.when.text if row.when is not None else ""
    return any(
        each.maximum is not None and (each.when is None or each.when.text == own) for each in rows
    )


def _other(direction: Direction) -> Direction:
    return "maximum" if direction == "minimum" else "minimum"
