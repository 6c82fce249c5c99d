"""The books and procedures a job stands under, as limits for the engine."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from hts.base.findings import ERROR, Finding, Kind, Label, Report
from hts.checking.govern.procedures import procedure_limits
from hts.language.model import Spec
from hts.language.model.load import LoadedBook
from hts.language.vocabulary.procedure import Procedure
from hts.language.vocabulary.types import Edition
from hts.limits import Book, Limit, UnknownBook, UnknownEdition, book

UNKNOWN_BOOK = Kind(
    "L101",
    "unknown-book",
    ERROR,
    "A rule book this program does not have.",
    "A job governed by a book that nobody checks is governed by nothing.",
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

UNSOUND_BOOK = Kind(
    "L104",
    "unsound-book",
    ERROR,
    "A rule book of the repository's own that cannot be read or used.",
    "A row that is not understood limits nothing, and nobody would see it missing.",
    "Correct the row; `hts books FILE.yaml` shows what is left.",
    ERROR,
)

KINDS = (UNKNOWN_BOOK, UNKNOWN_EDITION, MISSING_EDITION, UNSOUND_BOOK)


class Authority(NamedTuple):
    """One book in its edition, or one procedure, with its limits.

    ``configured`` is where a configuration names a book that the text does not. ``file`` is the
    rule book of the repository's own, None for one that ships with the program. ``hold_by_mean``:
    the temperature of a hold is the mean of the highest and the lowest reading.
    """

    name: str
    title: str
    edition: str
    is_book: bool
    limits: tuple[Limit, ...]
    cautions: tuple[str, ...]
    procedure: Procedure | None = None
    configured: str = ""
    file: LoadedBook | None = None
    hold_by_mean: bool = False


def authorities(spec: Spec, report: Report) -> list[Authority]:
    """All that governs a specification, books first; unknown books and editions are findings."""
    found: list[Authority] = []
    job = spec.file.job
    by_default = job is not None and "governed_by" in job.configured
    places = {named.book: named.origin for named in spec.defaults.books} if by_default else {}
    own = _own_books(spec, report)
    for named in job.governed_by if job is not None else ():
        made = _book(named, own, spec, report, job.name if job is not None else "")
        if made is not None:
            found.append(made._replace(configured=places.get(made.name, "")))
    for procedure in spec.procedures:
        found.append(of_procedure(procedure))
    return found


def _own_books(spec: Spec, report: Report) -> dict[str, LoadedBook]:
    """The books of the repository by their ids; what is wrong with one is told in its own text."""
    found: dict[str, LoadedBook] = {}
    for loaded in spec.books:
        file = loaded.file
        first = found.get(file.id) if file.id else None
        if first is not None:
            report.add(
                Finding(
                    UNSOUND_BOOK,
                    f"{file.id} is the name of two books",
                    Label(loaded.entry.place("path")),
                    others=[Label(first.entry.place("path"), "the first is here")],
                    help="give each a name of its own",
                )
            )
        found.setdefault(file.id, loaded)
    for finding in book_faults(spec.books):
        report.add(finding)
    return found


def book_faults(books: Iterable[LoadedBook]) -> Iterator[Finding]:
    """What is wrong in the texts of a repository's own books."""
    for loaded in books:
        for fault in loaded.file.faults:
            yield Finding(
                UNSOUND_BOOK,
                fault.message,
                Label(loaded.source.span(fault.start, fault.end)),
                others=[Label(loaded.entry.place("path"), "the book is brought in here")],
                help=fault.help,
            )


def written_to(procedure: Procedure, spec: Spec, report: Report) -> list[Authority]:
    """The books a procedure of this file was written to; unknown ones are findings."""
    if not procedure.governed_by:
        return []
    own = {loaded.file.id: loaded for loaded in spec.books}
    made = (_book(named, own, spec, report, procedure.name) for named in procedure.governed_by)
    return [each for each in made if each is not None]


def _book(
    named: Edition, own: dict[str, LoadedBook], spec: Spec, report: Report, whose: str
) -> Authority | None:
    loaded = own.get(named.book)
    if loaded is not None and loaded.file.data is None:
        return None
    try:
        made = loaded.file.book(named.edition) if loaded else book(named.book, named.edition)
    except UnknownBook as error:
        if any(each.file.data is None for each in own.values()):
            return None  # it may be the one that cannot be read
        help = f"did you mean {error.suggestion}? " if error.suggestion else ""
        _say(
            report,
            spec,
            whose,
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
            help = (
                f"the editions here are {', '.join(error.editions)}: name the one whose text yours "
                "agrees with, and say in a procedure what yours asks for besides"
            )
        _say(report, spec, whose, kind, named, str(error), help)
        return None
    return authority_of(made, loaded)


def authority_of(made: Book, file: LoadedBook | None = None) -> Authority:
    """A book in its edition; `file` where it is of the repository's own."""
    return Authority(
        made.id,
        made.title,
        made.edition,
        True,
        made.limits,
        made.cautions,
        file=file,
        hold_by_mean=made.hold_by_mean,
    )


def _say(
    report: Report, spec: Spec, whose: str, kind: Kind, named: Edition, message: str, help: str
) -> None:
    report.add(
        Finding(
            kind,
            message,
            Label(spec.source.span(named.start, named.end)),
            address=f"{whose}/governed-by/{named.book}",
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
        procedure_limits(procedure),
        tuple(procedure.cautions),
        procedure,
    )
