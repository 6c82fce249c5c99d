"""The part of the language reference that lists names a text can take: books, grades, processes."""

from __future__ import annotations

from itertools import groupby

from hts.job.explain.books import editions
from hts.limits.books import book, books
from hts.science.tables.fillers import FAMILIES
from hts.science.tables.grades import grade, names
from hts.science.tables.welding_processes import POSITIONS, PROCESSES


def section() -> list[str]:
    """Lines of the section."""
    return [
        "## Books, grades and other names",
        "",
        "What a list of `governed by` can name. Where a book has editions, one has to be stated; "
        "what each row says stands in [BOOKS.md](BOOKS.md), and a book of your own can be added.",
        "",
        "| book | title | editions |",
        "|---|---|---|",
        *_books(),
        "",
        "Grades whose P-number, group, strength and lower critical temperature are known; another "
        "grade can be named, and then states them itself. Letters, blanks and hyphens may be "
        "written in every usual way.",
        "",
        "| P-number | grades |",
        "|---|---|",
        *_grades(),
        "",
        "Welding processes, by their letters, or by their numbers in ISO 4063:",
        "",
        "| letters | also | ISO 4063 |",
        "|---|---|---|",
        *_processes(),
        "",
        f"Welding positions: {', '.join(f'`{position}`' for position in POSITIONS)}.",
        "",
        f"Families of fillers, in conditions: {', '.join(f'`{one}`' for one in FAMILIES)}.",
    ]


def _books() -> list[str]:
    lines = []
    for name in books():
        known = [edition for edition in editions(name) if edition is not None]
        title = book(name, known[-1] if known else None).title
        years = ", ".join(f"`{edition}`" for edition in known) or "none to state"
        lines.append(f"| `{name}` | {title} | {years} |")
    return lines


def _grades() -> list[str]:
    known = [(grade(name).p_number, name) for name in names()]
    numbered = sorted(
        (
            (str(number.value) if number is not None else "to be stated", name)
            for number, name in known
        ),
        key=lambda pair: (pair[0].startswith("to"), len(pair[0].rstrip("ABCDEF")), pair[0]),
    )
    return [
        f"| {number} | {', '.join(name for _, name in found)} |"
        for number, found in groupby(numbered, key=lambda pair: pair[0])
    ]


def _processes() -> list[str]:
    lines = []
    for letters, others in PROCESSES.items():
        words = ", ".join(f"`{name}`" for name in others if not name.isdigit())
        numbers = ", ".join(f"`{name}`" for name in others if name.isdigit())
        lines.append(f"| `{letters}` | {words} | {numbers} |")
    return lines
