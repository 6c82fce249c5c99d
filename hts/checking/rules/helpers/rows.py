"""The rows of the procedures a file holds, as rules about procedures look at them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import lru_cache, partial
from itertools import product
from typing import TYPE_CHECKING, NamedTuple

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain, rows
from hts.language.model.load import LoadedBook
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.procedure import Procedure
from hts.limits import Book, Limit, Source
from hts.limits.quantities import TAKEN, Direction

if TYPE_CHECKING:
    from hts.limits.worked import Column

DIRECTIONS: tuple[Direction, ...] = ("minimum", "maximum", "exactly")
#: The soak band is often demanded as so much beside the weld.
_BANDS = ("heated_band", "gradient_band")
#: Marks the id of a row that a line `requires` makes.
_DEMANDED = "requires"
ASKS: dict[Direction, str] = {"minimum": "at least", "maximum": "at most", "exactly": "is"}


def own_procedures(case: Case) -> Iterator[Procedure]:
    """The procedures written in this file; a line that cannot be read leaves too much open."""
    return (procedure for procedure in case.spec.file.procedures if procedure.sound)


#: Limits of a procedure, beyond which they are not held against each other.
MOST = 600


def is_compared(procedure: Procedure) -> bool:
    """Whether its rows are so few that they are held against each other; R118 tells where not."""
    return len(rows(procedure)) <= MOST


def by_quantity(procedure: Procedure) -> dict[str, list[Limit]]:
    """The rows by what they limit, in the order written; none where they are too many."""
    found: dict[str, list[Limit]] = {}
    if not is_compared(procedure):
        return found
    for row in rows(procedure):
        found.setdefault(row.quantity, []).append(row)
    return found


def grouped(procedure: Procedure) -> Iterator[tuple[str, Direction, list[Limit]]]:
    """Two or more rows that limit the same quantity in the same direction."""
    for quantity, all_rows in by_quantity(procedure).items():
        for direction, option in product(DIRECTIONS, (None, *TAKEN)):
            group = [
                row
                for row in all_rows
                if getattr(row, direction) is not None and row.option == option
            ]
            if len(group) > 1:
                yield quantity, direction, group


class WorkedOut(NamedTuple):
    """The rows of one procedure or book, worked out for typical welds they are for.

    ``place`` tells where a row, or a part of it such as ``when`` or ``minimum``, is written.
    """

    name: str
    columns: tuple[Column, ...]
    place: Callable[[Limit, str], Span]


def worked_out(case: Case) -> Iterator[WorkedOut]:
    """The procedures written in this file, and each edition of the rule books of one's own."""
    for procedure in filter(is_compared, own_procedures(case)):
        yield WorkedOut(procedure.name, worked_out_of(procedure), partial(place, procedure))
    for book in case.spec.books:
        for found in _of_book(book):
            yield WorkedOut(book.file.id, found, partial(place_in_book, book))


@lru_cache(maxsize=16)
def worked_out_of(procedure: Procedure) -> tuple[Column, ...]:
    """Each quantity that a procedure limits by metal, wall or size."""
    # Imported here, for most files hold no procedure.
    from hts.limits.worked import columns

    found = (*rows(procedure), *demanded_widths(procedure))
    return tuple(columns(found, domain(procedure)))


def demanded_widths(procedure: Procedure) -> Iterator[Limit]:
    """What lines of a procedure demand of the bands of a heating, as rows on these."""
    for number, line in enumerate(procedure.requires, 1):
        for what in (line.what, line.otherwise):
            for test in what.tests if what is not None else ():
                if test.field.name in _BANDS and isinstance(test.least, FormulaText):
                    yield Limit(
                        test.field.name.replace("_", " "),
                        Source(procedure.name, "", "stated", at=line.place()),
                        minimum=test.least.text,
                        when=line.when.text if line.when is not None else None,
                        id=f"{procedure.name}.{_DEMANDED}.{number}",
                    )


@lru_cache(maxsize=16)
def _of_book(book: LoadedBook) -> tuple[tuple[Column, ...], ...]:
    from hts.limits.cells import Domain
    from hts.limits.worked import columns

    return tuple(tuple(columns(found.limits, Domain())) for found in editions_of(book))


def editions_of(book: LoadedBook) -> Iterator[Book]:
    """A rule book of one's own in each of its editions; none where it cannot be read."""
    if book.file.data is not None:
        for edition in book.file.data.get("editions") or (None,):
            yield book.file.book(edition)


def place_in_book(book: LoadedBook, row: Limit, part: str = "") -> Span:
    """Where a row of a book is written: its name."""
    return book.source.span(*book.file.rows[row.id])


def place(procedure: Procedure, row: Limit, part: str = "") -> Span:
    """Where a row, or a part of it such as ``when`` or ``minimum``, is written."""
    *_, lines, number = row.id.rsplit(".", 2)
    if lines == _DEMANDED:
        return procedure.requires[int(number) - 1].place("what")
    return procedure.limits[int(number) - 1].place(part)


def asked_for(row: Limit, direction: Direction) -> str:
    """`at most 110 degC/h`, as the row writes it."""
    return f"{ASKS[direction]} {getattr(row, direction).text}"
