"""The limits of size in the language reference, each from the one place that declares it."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base import fonts
from hts.base.quantities import number
from hts.base.text import reading
from hts.checking.configuration import find
from hts.checking.rules.helpers import rows
from hts.checking.rules.procedures import rows_not_compared
from hts.job.compiler import schedule
from hts.language.model import resolve
from hts.limits import book_file
from hts.paper.sheet import letterhead
from hts.record.reading import events, sniff, source, yaml_text
from hts.syntax import braces, syntax_errors, table
from hts.syntax.formula import formula

_HEAD = """\
## Limits of size

No text of the trade comes near them. They keep a damaged or hostile file from costing more than
seconds: below them a megabyte takes 2 s of the processor and no more than 500 MB of memory. Past
one there is one finding, or one line that says which.

| of | at most | past it |
|---|---|---|"""

#: What is limited, the limit, its unit, and what is told past it.
_LIMITS: tuple[tuple[str, int, str, str], ...] = (
    ("a specification, library, table, book or file of settings", reading.LARGEST, "bytes",
     "cannot be read, exit 2"),
    ("blocks within blocks", braces.DEEPEST, "", f"`{syntax_errors.TOO_DEEP.name}`"),
    ("words and values of an entry", syntax_errors.MOST_ITEMS, "",
     f"`{syntax_errors.TOO_LONG.name}`"),
    ("places of a text that cannot be read, told one by one", syntax_errors.MOST_TOLD, "",
     f"`{syntax_errors.TOO_MUCH.name}`"),
    ("a number", number.LONGEST, "characters", "`unreadable-number`"),
    ("a formula or condition", formula.LONGEST, "characters", "`unreadable-formula`"),
    ("joints one after the other, each `like` the next", resolve.MOST_LIKE, "", "`unknown-name`"),
    ("limits of a procedure that are held against each other", rows.MOST, "",
     f"`{rows_not_compared.RULE.kind.name}`"),
    ("a table of welds", table.MOST_ROWS, "rows", "a finding at the row"),
    ("a table of welds", table.MOST_COLUMNS, "columns", "a finding at the head"),
    ("a cell of it", table.MOST_LETTERS, "letters", "a finding at the cell"),
    ("dots in a line of settings", find.MOST_DOTS, "", "cannot be read, exit 2"),
    ("a book of one's own", book_file.LONGEST, "letters", "a fault of the book"),
    ("values of a book, aliases followed", book_file.MOST_NODES, "", "a fault of the book"),
    ("lines of a schedule", schedule.MOST_LINES, "", "is not compiled, exit 1"),
    ("a log of a recorder, unpacked", source.LARGEST, "bytes", "cannot be judged, exit 2"),
    ("a log of a recorder", sniff.MOST_COLUMNS, "columns", "cannot be judged, exit 2"),
    ("a map or list of events beside a log", yaml_text.LARGEST, "bytes",
     "cannot be judged, exit 2"),
    ("events of a list", events.MOST, "", "cannot be judged, exit 2"),
    ("a report of a shard", reading.LARGEST_REPORT, "bytes", "cannot be merged, exit 2"),
    ("a font", fonts.LARGEST, "bytes", "cannot be used, exit 2"),
    ("a logo", letterhead.LARGEST, "bytes", "cannot be used, exit 2"),
)  # fmt: skip


def limits() -> Iterator[str]:
    """The chapter, line by line."""
    yield _HEAD
    for what, most, unit, told in _LIMITS:
        yield f"| {what} | {_sized(most, unit)} | {told} |"


def _sized(most: int, unit: str) -> str:
    if unit != "bytes":
        return f"{most:,} {unit}".rstrip()
    return f"{most // 1_000_000:,} MB" if most >= 1_000_000 else f"{most // 1_000:,} kB"
