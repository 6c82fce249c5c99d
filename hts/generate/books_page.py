"""The page of the rule books: each in its newest edition, and what the others have otherwise."""

from __future__ import annotations

from hts.job.explain import books
from hts.job.explain.editions import differences, told
from hts.limits import LIMITED, Book, book
from hts.limits.books import BASES
from hts.limits.books import books as ids

_NOTE = "<!-- Written by `python -m hts.generate`; change the rules or books instead. -->"
_LEAD = (
    "Values are those printed in SI units. Each row carries its paragraph, its basis "
    "(published, derived, memory or practice), how sure it is, and in brackets the page it was "
    "seen on, which the list above its table tells; what is from memory or practice was seen "
    "nowhere. Check against your own copy of the standard: it governs, not this table. Of a "
    "book with several editions the newest is here whole, and of the others what differs; `hts "
    "books BOOK --edition YEAR` prints any of them, `hts books BOOK-YEAR BOOK-YEAR` what "
    "differs between two, and `hts books BOOK BOOK --for SPEC JOINT` what several ask of one "
    "joint. [ADD-A-BOOK.md](ADD-A-BOOK.md) tells how to write one of your own."
)


def page() -> str:
    """`grammar/BOOKS.md`."""
    made = [[book(id, edition) for edition in books.editions(id)] for id in ids()]
    parts = ["# Rule books", "", _NOTE, "", _LEAD, "", *_summary(made)]
    for editions in made:
        *older, newest = editions
        parts += _whole(newest)
        for each in reversed(older):
            parts += _differing(each, newest)
    return "\n".join(parts) + "\n"


def _summary(made: list[list[Book]]) -> list[str]:
    """Books by rows and basis: that of the edition in which a row is best known."""
    rows = [
        "| book | editions | rows | published | derived | memory | practice | seen on |",
        "|---|---|---|---|---|---|---|---|",
    ]
    for editions in made:
        newest = editions[-1]
        best: dict[str, int] = {}
        for limit in (limit for each in editions for limit in each.limits):
            rank = BASES.index(limit.source.basis)
            best[limit.id] = min(rank, best.get(limit.id, rank))
        counts = [str(list(best.values()).count(rank)) for rank in range(len(BASES))]
        years = ", ".join(each.edition for each in editions) or "–"
        cells = [newest.title, years, str(len(best)), *counts, ", ".join(newest.seen) or "–"]
        rows.append(f"| `{newest.id}`: " + " | ".join(cells) + " |")
    return rows


def _whole(made: Book) -> list[str]:
    bases = ", ".join(f"{count} {basis}" for basis, count in books.bases(made).items())
    parts = ["", f"## {books.called(made)}", "", f"{made.title}. {made.about}", ""]
    parts.append(f"{len(made.limits)} rows: {bases}.")
    parts += [f"\n> Caution: {caution}" for caution in made.cautions]
    if made.seen:
        parts += ["", "Seen:", ""]
        parts += [f"- `{name}`: {text}" for name, text in made.seen.items()]
    parts += ["", "| quantity | demand | source | basis |", "|---|---|---|---|"]
    order = list(LIMITED)
    for limit in sorted(made.limits, key=lambda row: (order.index(row.quantity), row.id)):
        data = books.row(limit)
        basis = f"{data['basis']}, {data['confidence']}"
        seen = f" [{', '.join(data['seen'])}]" if "seen" in data else ""
        cited = f"{data['citation']}{seen}"
        parts.append(_row([data["quantity"], books.demand(data), cited, basis]))
    return parts


def _differing(made: Book, newest: Book) -> list[str]:
    """What an older edition has otherwise; rows that are only known otherwise are counted."""
    found = differences(made, newest)
    parts = ["", f"## {books.called(made)}", ""]
    known = sum(each.known for each in found)
    bases = ", ".join(f"{count} {basis}" for basis, count in books.bases(made).items())
    parts.append(f"{len(made.limits)} rows: {bases}.")
    rest = [each for each in found if not each.known]
    if known:
        words = "1 row is" if known == 1 else f"{known} rows are"
        parts += ["", f"{words} the same as in {newest.edition}, with another source or basis."]
    if not rest:
        parts += ["", f"Otherwise as {newest.edition}."]
        return parts
    parts += ["", f"| quantity | {made.edition} | {newest.edition} |", "|---|---|---|"]
    order = list(LIMITED)
    for each in sorted(rest, key=lambda d: (order.index(d.quantity), d.id)):
        parts.append(_row([each.quantity, told(each.first), told(each.second)]))
    return parts


def _row(cells: list[str]) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"
