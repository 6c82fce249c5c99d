"""An owner's procedure as limits for the engine, and what it is for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import TYPE_CHECKING

from hts.base.quantities import Quantity
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.limit_lines import LimitLine
from hts.language.vocabulary.procedure import Procedure
from hts.limits import HEAT_TREATMENT, OPTION, Limit, Source, UnknownBook, UnknownEdition, book
from hts.syntax.formula import CONDITION, Formula

if TYPE_CHECKING:
    from hts.base.text import Span
    from hts.limits.cells import Domain

_THICKNESSES = ("t", "wall", "thicker_wall", "thinner_wall", "weld_thickness")


@lru_cache(maxsize=256)
def procedure_limits(procedure: Procedure) -> tuple[Limit, ...]:
    """The limits of a procedure, each under the conditions of the whole procedure."""
    applies = _applies(procedure)
    where = _where(procedure)
    made = list(_rows(procedure, applies, where))
    for number, treatment in enumerate(procedure.treatments, 1):
        made.append(
            Limit(
                HEAT_TREATMENT,
                _source(procedure, treatment.place(), treatment.note or ""),
                status=treatment.status,
                when=_and(applies, _text(treatment.when)),
                where=where,
                id=f"{procedure.name}.treatment.{number}",
            )
        )
    made += _options(procedure, applies, where)
    return tuple(made)


def options(procedure: Procedure) -> tuple[Limit, ...]:
    """What it forbids and allows, under the conditions of these lines alone."""
    return tuple(_options(procedure, None, {}))


def _options(
    procedure: Procedure, applies: str | None, where: Mapping[str, tuple[str, ...]]
) -> Iterator[Limit]:
    for status, lines in (("forbidden", procedure.forbids), ("allowed", procedure.allows)):
        for number, option in enumerate(lines, 1):
            if option.option is None:
                continue
            yield Limit(
                OPTION,
                _source(procedure, option.place(), option.note or ""),
                status=status,
                option=option.option,
                when=_and(applies, _text(option.when)),
                where=where,
                id=f"{procedure.name}.{status}.{number}",
            )


def rows(procedure: Procedure) -> tuple[Limit, ...]:
    """The limits of a procedure under their own conditions alone."""
    return tuple(_rows(procedure, None, {}))


def domain(procedure: Procedure) -> Domain:
    """What the procedure is for, as far as rows are compared within it.

    Whatever thickness a row names, it is taken to lie within the walls the procedure is for.
    """
    from hts.limits.cells import Domain

    ends: dict[str, tuple[Quantity | None, Quantity | None]] = {}
    if procedure.walls is not None:
        walls = procedure.walls.at_least, procedure.walls.at_most
        ends = dict.fromkeys(_THICKNESSES, walls)
    if procedure.diameters is not None:
        ends["outside_diameter"] = procedure.diameters.at_least, procedure.diameters.at_most
    condition = _applies(procedure)
    return Domain(
        _where(procedure),
        Formula.parse(condition, CONDITION) if condition is not None else None,
        ends,
    )


def _rows(
    procedure: Procedure, applies: str | None, where: Mapping[str, tuple[str, ...]]
) -> Iterator[Limit]:
    for number, line in enumerate(procedure.limits, 1):
        if line.minimum is line.maximum is line.exactly is None:
            continue
        yield Limit(
            line.quantity,
            _source(procedure, line.place(), line.note or ""),
            minimum=_text(line.minimum),
            maximum=_text(line.maximum),
            exactly=_text(line.exactly),
            above=_text(line.above),
            within=_text(line.within),
            when=_and(applies, _text(line.when)),
            where=where,
            option=line.option,
            replaces=_replaced(procedure, line),
            silent=line.silent,
            id=f"{procedure.name}.{number}",
        )


def practice_row(written: str) -> str | None:
    """The row `local-heating.zones` names, as `book/row`; None where it cannot be replaced."""
    name, _, row = written.rpartition(".")
    return None if unreplaceable(written) else f"{name}/{row}"


def unreplaceable(written: str, quantity: str = "", procedure: Procedure | None = None) -> str:
    """Why a row on a quantity cannot replace a row of a book or a limit of a procedure, "" where
    it can.

    `P-07.hold-time` is the limit on hold time of a procedure, which has to be one this one amends.
    Of the books only one that gathers practice has rows that a procedure can replace: what a
    standard requires is not the owner's to set aside, whether or not the book carries its edition.
    """
    name, _, row = written.rpartition(".")
    if procedure is not None and name in amended(procedure):
        limited = row.replace("-", " ")
        if not quantity or limited == quantity.replace("-", " "):
            return ""
        return f"the line limits the {quantity}"
    try:
        found = book(name)
    except UnknownBook:
        return f"there is no book {name}" if name else "it names no book"
    except UnknownEdition:
        return f"{name} is a standard"
    if found.standard:
        return f"{name} is a standard ({found.standard})"
    limits = {limit.id: limit.quantity for limit in found.limits}
    if row not in limits:
        return f"{name} has no row {row}"
    if quantity and limits[row] != quantity:
        return f"it limits the {limits[row]}"
    return ""


def amended(procedure: Procedure) -> list[str]:
    """The names of the procedures a procedure amends."""
    return [line.procedure.name for line in procedure.amends if line.procedure is not None]


def _replaced(procedure: Procedure, line: LimitLine) -> tuple[str, ...]:
    """The rows of books, as `book/row`, and the limits of procedures, as `P-07/*hold time`."""
    found = []
    for written in line.replaces:
        name = written.rpartition(".")[0]
        if name in amended(procedure):
            if not unreplaceable(written, line.quantity, procedure):
                found.append(f"{name}/*{line.quantity}")
        elif (row := practice_row(written)) is not None:
            found.append(row)
    return tuple(found)


def _source(procedure: Procedure, at: object, note: str) -> Source:
    revision = procedure.revision.name if procedure.revision else ""
    line = at.source.position(at.start)[0]  # type: ignore[attr-defined]
    return Source(
        procedure.name,
        revision,
        f"line {line}",
        "stated",
        "high",
        note,
        (),
        at,  # type: ignore[arg-type]
    )


def _text(formula: FormulaText | None) -> str | None:
    return None if formula is None else formula.text


def _and(*conditions: str | None) -> str | None:
    stated_conditions = [condition for condition in conditions if condition]
    return (
        " and ".join(f"({each})" for each in stated_conditions)
        if len(stated_conditions) > 1
        else "".join(stated_conditions) or None
    )


def conditions(procedure: Procedure) -> tuple[dict[str, tuple[str, ...]], str | None]:
    """What a procedure is for: facts that are words with the words it is for, and a condition."""
    return _where(procedure), _applies(procedure)


def _applies(procedure: Procedure) -> str | None:
    """The conditions of the procedure that are no plain choice of words."""
    return _and(*(condition for _, condition, _, _ in clauses(procedure)))


def _where(procedure: Procedure) -> dict[str, tuple[str, ...]]:
    return {name: each for words, _, _, _ in clauses(procedure) for name, each in words.items()}


#: Words a fact may be, a condition ("" for none), the place of the clause, the facts it is about.
Clause = tuple[dict[str, tuple[str, ...]], str, "Span", tuple[str, ...]]


def clauses(procedure: Procedure) -> list[Clause]:
    """The clauses that say what a procedure is for."""
    found: list[Clause] = []
    for fact, entry in (
        ("p_number", procedure.p_numbers),
        ("weld_kind", procedure.kinds),
        ("heating_method", procedure.methods),
        ("service", procedure.services),
    ):
        if entry is not None and entry.each:
            each = tuple(_hyphened(entry.each) if fact != "p_number" else entry.each)
            found.append(({fact: each}, "", entry.place(), (fact,)))
    for when in procedure.conditions:
        if when.condition is not None:
            names = Formula.parse(when.condition.text, CONDITION).names
            found.append(({}, when.condition.text, when.place(), tuple(names)))
    for name, size in (
        ("thicker_wall", procedure.walls),
        ("outside_diameter", procedure.diameters),
    ):
        # A range turned round is told where it stands, and bounds nothing.
        if size is None or not size.sound:
            continue
        if size.at_least is not None:
            found.append(({}, f"{name} >= {size.at_least.written}", size.place(), (name,)))
        if size.at_most is not None:
            found.append(({}, f"{name} <= {size.at_most.written}", size.place(), (name,)))
    return found


def _hyphened(words: Iterable[str]) -> list[str]:
    return [word.replace(" ", "-") for word in words]
