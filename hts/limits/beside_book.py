"""Where the rows of a procedure are looser than a book, over typical welds the procedure is for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from hts.base.quantities import LENGTH, Quantity
from hts.limits.cells import Domain
from hts.limits.demand import size
from hts.limits.engine import demands
from hts.limits.limit import Limit
from hts.limits.looser import Looser, looser
from hts.limits.quantities import LIMITED
from hts.limits.worked import Weld, welds_of
from hts.syntax.formula import Fact


def looser_anywhere(
    rows: Sequence[Limit], book: Iterable[Limit], domain: Domain, inches: bool = False
) -> Iterator[tuple[Weld, Looser]]:
    """Each typical weld with each bound of the procedure that the book is stricter about there.

    ``inches``: walls and sizes are tried in inches, so that a book that prints two systems is read
    in that of the procedure. Rows that a row of the procedure replaces are left out, and so is all
    that hangs on facts a typical weld does not have.
    """
    ours = {row.quantity for row in rows if row.option is None and not row.silent}
    theirs = [limit for limit in book if _compared(limit, ours)]
    shared = {limit.quantity for limit in theirs}
    if not shared:
        return
    needed = [row for row in rows if row.quantity in shared]
    replaced = {name for row in needed for name in row.replaces}
    for weld in welds_of([*needed, *theirs], domain):
        facts = _facts(weld, domain, inches)
        mine = demands(needed, {"": facts})
        for item in looser(mine, demands(theirs, {"": facts})):
            # 705 degC is 1301 degF, and the page prints 1300: one of its figures kept is enough.
            if _name(item.book.limit) not in replaced and not _keeps_the_other_figure(item):
                yield weld, item


def _keeps_the_other_figure(item: Looser) -> bool:
    """Whether the bound keeps what the book prints in one of its systems of units."""
    if item.procedure is None or item.direction not in ("minimum", "maximum"):
        return False
    mine = size(item.procedure.bounds[item.direction])  # type: ignore[index]
    printed = [size(item.book.bound_in(item.direction, system)) for system in ("SI", "US")]  # type: ignore[arg-type]
    return mine <= max(printed) if item.direction == "maximum" else mine >= min(printed)


def _compared(limit: Limit, quantities: set[str]) -> bool:
    if limit.option is not None or limit.silent or limit.quantity not in LIMITED:
        return False
    return limit.quantity in quantities


def _name(limit: Limit) -> str:
    return f"{limit.source.name}/{limit.id}"


def _facts(weld: Weld, domain: Domain, inches: bool) -> dict[str, Fact]:
    facts: dict[str, Fact] = {name: words[0] for name, words in domain.words.items()}
    for name, fact in weld.facts.items():
        if inches and isinstance(fact, Quantity) and fact.dimension is LENGTH:
            fact = fact.in_unit("in")
        facts[name] = fact
    return facts
