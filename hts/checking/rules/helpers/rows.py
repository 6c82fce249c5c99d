"""The rows of the procedures a file holds, as rules about procedures look at them."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import product
from typing import TYPE_CHECKING

from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.govern.procedures import domain, rows
from hts.language.vocabulary.limit_lines import TAKEN
from hts.language.vocabulary.procedure import Procedure
from hts.limits import Limit
from hts.limits.quantities import Direction

if TYPE_CHECKING:
    from hts.limits.worked import Column

DIRECTIONS: tuple[Direction, ...] = ("minimum", "maximum", "exactly")
ASKS: dict[Direction, str] = {"minimum": "at least", "maximum": "at most", "exactly": "is"}


def own_procedures(case: Case) -> Iterator[Procedure]:
    """The procedures written in this file; a line that cannot be read leaves too much open."""
    return (procedure for procedure in case.spec.file.procedures if procedure.sound)


def by_quantity(procedure: Procedure) -> dict[str, list[Limit]]:
    """The rows by what they limit, in the order written."""
    found: dict[str, list[Limit]] = {}
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


@lru_cache(maxsize=16)
def worked_out(procedure: Procedure) -> tuple[Column, ...]:
    """Its rows worked out for typical welds it is for."""
    # Imported here, for most files hold no procedure.
    from hts.limits.worked import columns

    return tuple(columns(rows(procedure), domain(procedure)))


def place(procedure: Procedure, row: Limit, part: str = "") -> Span:
    """Where a row, or a part of it such as ``when`` or ``minimum``, is written."""
    return procedure.limits[int(row.id.rsplit(".", 1)[1]) - 1].place(part)


def asked_for(row: Limit, direction: Direction) -> str:
    """`at most 110 degC/h`, as the row writes it."""
    return f"{ASKS[direction]} {getattr(row, direction).text}"
