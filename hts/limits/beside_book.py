"""Where the rows of a procedure are looser than a book, over typical welds the procedure is for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from hts.base.quantities import LENGTH, Quantity
from hts.limits.cells import Domain
from hts.limits.demand import size
from hts.limits.engine import demands
from hts.limits.limit import Limit
from hts.limits.looser import Looser, looser
from hts.limits.quantities import DIRECTIONS, GIVES, LIMITED
from hts.limits.strictest import Strictest
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
    welds = welds_of([*needed, *theirs], domain)
    all_facts = [_facts(weld, domain, inches) for weld in welds]
    for weld, facts, rows_of_it in zip(welds, all_facts, _of_each(needed, all_facts), strict=True):
        mine = demands(rows_of_it, {"": facts})
        for item in looser(mine, demands(theirs, {"": facts})):
            # 705 degC is 1301 degF, and the page prints 1300: one of its figures kept is enough.
            if _name(item.book.limit) not in replaced and not _keeps_the_other_figure(item):
                yield weld, item


#: So few rows are sooner asked one by one.
_FEW = 40


def _of_each(
    rows: Sequence[Limit], welds: Sequence[Mapping[str, Fact]]
) -> Iterator[Sequence[Limit]]:
    """For each weld the rows that can govern it: of those that ask for one figure of the same
    quantity the strictest that hold, of the others all."""
    own = tuple({f"{row.source.name}/" for row in rows})
    names = [name for row in rows for name in row.replaces]
    replaced = any(name.startswith(own) or "/" not in name for name in names)
    if len(rows) <= _FEW or not welds or replaced:
        yield from [rows] * len(welds)
        return
    given = set.intersection(*map(set, welds))
    groups: dict[tuple[object, ...], list[Limit]] = {}
    rest: list[Limit] = []
    for row in rows:
        key = _alike(row, given)
        if key is None:
            rest.append(row)
        else:
            groups.setdefault(key, []).append(row)
    chosen = [
        # Of rows that ask for the same that counts whose name comes first.
        list(Strictest(sorted(group, key=lambda row: row.id), way, welds))  # type: ignore[arg-type]
        for (way, *_), group in groups.items()
    ]
    for number in range(len(welds)):
        governing = [each[number] for each in chosen]
        yield [*rest, *(found[0] for found in governing if found is not None)]


def _alike(row: Limit, given: set[str]) -> tuple[object, ...] | None:
    """The direction of the one figure a row asks for, and what else tells it from others; None
    where there is more to it, or it hangs on a fact that other limits give."""
    ways = [part for part in row.parts() if part in DIRECTIONS]
    if len(ways) != 1 or ways[0] == "exactly" or row.replaces or row.silent or row.pair is not None:
        return None
    steps = [formula for formula in (row.above, row.within) if formula is not None]
    names = {*row.names((ways[0], "when")), *row.where}
    if row.status or row.option or any(step.names for step in steps):
        return None
    if names & (GIVES.keys() - given):
        return None
    fixed = not getattr(row, ways[0]).names
    return ways[0], row.quantity, row.source.name, fixed, *(step.text for step in steps)


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
