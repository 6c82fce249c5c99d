"""The books and procedures a job stands under, as limits for the engine."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import Literal, NamedTuple

from hts.findings import ERROR, Finding, Kind, Label, Report
from hts.limits import HEAT_TREATMENT, OPTION, Limit, Source, UnknownBook, UnknownEdition, book
from hts.model import Spec
from hts.vocabulary.formulas import FormulaText
from hts.vocabulary.procedure import Procedure
from hts.vocabulary.types import Edition

System = Literal["SI", "US"]

UNKNOWN_BOOK = Kind(
    "L101",
    "unknown-book",
    ERROR,
    "A rule book this program does not have.",
    "A job that stands under a book nobody checks stands under nothing.",
    "Name one of the shipped books, or put the rules into a procedure.",
    ERROR,
)
UNKNOWN_EDITION = Kind(
    "L102",
    "unknown-edition",
    ERROR,
    "An edition the book does not have.",
    "Editions differ: a table of 2014 can contradict the one of 2012.",
    "Name one of the editions the message lists.",
    ERROR,
)
MISSING_EDITION = Kind(
    "L103",
    "missing-edition",
    ERROR,
    "A rule book without its edition.",
    "Editions differ: a table of 2014 can contradict the one of 2012.",
    "Write `edition` and the year after the book.",
    ERROR,
)

KINDS = (UNKNOWN_BOOK, UNKNOWN_EDITION, MISSING_EDITION)


class Authority(NamedTuple):
    """One book in its edition, or one procedure, with its limits."""

    name: str
    title: str
    edition: str
    is_book: bool
    limits: tuple[Limit, ...]
    cautions: tuple[str, ...]
    procedure: Procedure | None = None


def system_of(spec: Spec) -> System:
    """The system of units the job works in, whose printed figures it is held to."""
    show = spec.file.job.show if spec.file.job else None
    return "US" if show in ("US", "US and SI") else "SI"


def authorities(spec: Spec, report: Report) -> list[Authority]:
    """All that governs a specification, books first; unknown books and editions are findings."""
    found: list[Authority] = []
    system = system_of(spec)
    job = spec.file.job
    for named in job.governed_by if job is not None else ():
        made = _book(named, system, spec, report)
        if made is not None:
            found.append(made)
    for procedure in spec.procedures:
        found.append(of_procedure(procedure))
    return found


def _book(named: Edition, system: System, spec: Spec, report: Report) -> Authority | None:
    try:
        made = book(named.book, named.edition, system)
    except UnknownBook as error:
        help = f"did you mean {error.suggestion}? " if error.suggestion else ""
        _say(
            report,
            spec,
            UNKNOWN_BOOK,
            named,
            str(error),
            f"{help}there are: {', '.join(error.books)}",
        )
        return None
    except UnknownEdition as error:
        kind = MISSING_EDITION if error.edition is None else UNKNOWN_EDITION
        help = (
            f"write {named.book} edition {error.editions[-1]}"
            if error.editions
            else ("leave the edition out")
        )
        if error.editions and error.edition is not None:
            help = f"it has {', '.join(error.editions)}"
        _say(report, spec, kind, named, str(error), help)
        return None
    return Authority(made.id, made.title, made.edition, True, made.limits, made.cautions)


def _say(report: Report, spec: Spec, kind: Kind, named: Edition, message: str, help: str) -> None:
    job = spec.file.job
    assert job is not None
    report.add(
        Finding(
            kind,
            message,
            Label(spec.source.span(named.start, named.end)),
            address=f"{job.name}/governed-by/{named.book}",
            help=help,
        )
    )


def of_procedure(procedure: Procedure) -> Authority:
    """The limits of a procedure, each under the conditions of the whole procedure."""
    return Authority(
        procedure.name,
        procedure.title or procedure.name,
        procedure.revision.name if procedure.revision else "",
        False,
        _limits(procedure),
        tuple(procedure.cautions),
        procedure,
    )


@lru_cache(maxsize=256)
def _limits(procedure: Procedure) -> tuple[Limit, ...]:
    applies = _applies(procedure)
    where = _where(procedure)
    made = []
    for number, line in enumerate(procedure.limits, 1):
        if line.minimum is line.maximum is line.exactly is None:
            continue
        made.append(
            Limit(
                line.quantity,
                _source(procedure, line.place(), line.note or ""),
                minimum=_text(line.minimum),
                maximum=_text(line.maximum),
                exactly=_text(line.exactly),
                above=_text(line.above),
                within=_text(line.within),
                when=_and(applies, _text(line.when)),
                where=where,
                replaces=_replaced(line.replaces),
                id=f"{procedure.name}.{number}",
            )
        )
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
    for status, lines in (("forbidden", procedure.forbids), ("allowed", procedure.allows)):
        for number, option in enumerate(lines, 1):
            made.append(
                Limit(
                    OPTION,
                    _source(procedure, option.place(), option.note or ""),
                    status=status,
                    option=option.option,
                    when=_and(applies, _text(option.when)),
                    where=where,
                    id=f"{procedure.name}.{status}.{number}",
                )
            )
    return tuple(made)


def practice_row(written: str) -> str | None:
    """The row `local-heating.zones` names, as `book/row`; None where there is no such row.

    Only a book without editions, which gathers practice, has rows that a procedure can replace:
    what a code requires is not the owner's to set aside.
    """
    name, _, row = written.rpartition(".")
    try:
        rows = book(name).limits
    except (UnknownBook, UnknownEdition):
        return None
    return f"{name}/{row}" if any(limit.id == row for limit in rows) else None


def _replaced(written: Iterable[str]) -> tuple[str, ...]:
    return tuple(row for row in map(practice_row, written) if row is not None)


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
    said = [condition for condition in conditions if condition]
    return " and ".join(f"({each})" for each in said) if len(said) > 1 else "".join(said) or None


def conditions(procedure: Procedure) -> tuple[dict[str, tuple[str, ...]], str | None]:
    """What a procedure is for: facts that are words with the words it is for, and a condition."""
    return _where(procedure), _applies(procedure)


def _applies(procedure: Procedure) -> str | None:
    """The conditions of the procedure that are no plain choice of words."""
    parts: list[str | None] = [_text(when.condition) for when in procedure.conditions]
    for name, size in (
        ("thicker_wall", procedure.walls),
        ("outside_diameter", procedure.diameters),
    ):
        if size is not None and size.at_least is not None:
            parts.append(f"{name} >= {size.at_least.written}")
        if size is not None and size.at_most is not None:
            parts.append(f"{name} <= {size.at_most.written}")
    return _and(*parts)


def _where(procedure: Procedure) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for fact, entry in (
        ("p_number", procedure.p_numbers),
        ("weld_kind", procedure.kinds),
        ("heating_method", procedure.methods),
        ("service", procedure.services),
    ):
        if entry is not None and entry.each:
            found[fact] = tuple(_hyphened(entry.each) if fact != "p_number" else entry.each)
    return found


def _hyphened(words: Iterable[str]) -> list[str]:
    return [word.replace(" ", "-") for word in words]
