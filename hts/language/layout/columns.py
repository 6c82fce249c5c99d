"""Sets lines that are read as a table in columns.

Entries of one block that follow each other without a blank line or a comment between them make one
table. Its first column holds the words an entry begins with. Entries that people read as a list -
thermocouples, zones, steps, revisions - have a further column for each clause.
"""

from __future__ import annotations

from collections.abc import Iterable

from hts.language.layout.lines import Line
from hts.language.layout.spelling import joined
from hts.language.vocabulary.declare import Entry, Field
from hts.language.vocabulary.heating import Zone
from hts.language.vocabulary.job import HistoryLine
from hts.language.vocabulary.segments import Cool, Heat, Hold
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.thermocouples import Thermocouple
from hts.syntax import Token

_BETWEEN = "  "
#: A longer first cell sticks out of its column, so that a rare long one moves no other line.
_WIDEST = 22

Openers = tuple[frozenset[str], ...]


def _openers(*columns: str) -> Openers:
    return tuple(frozenset(column.split()) for column in columns)


_STEPS = _openers("at for")
#: The words that begin each column after the first; `,` stands for what follows a comma, `TEXT`
#: for free text.
LISTS: dict[type[Entry], Openers] = {
    Thermocouple: _openers(
        "controls monitors spare",
        "at arc along",
        "on surface ,",
        "channel",
        "control",
        "recorder controller lead not",
    ),
    Zone: _openers("from all along", "side", "power", "heaters", "circuit"),
    Heat: _STEPS,
    Hold: _STEPS,
    Cool: _STEPS,
    HistoryLine: _openers("on", "TEXT"),
}


class _Row:
    """A line of a table and its cells by column."""

    __slots__ = ("cells", "line", "list", "named")

    def __init__(self, line: Line, field: Field) -> None:
        self.line = line
        #: Whether it begins with a name of its own instead of the words of an entry.
        self.named = not field.words
        self.list = LISTS.get(field.entry, ()) if field.entry else ()
        if self.list:
            self.cells = _cells(line.tokens, self.list)
        else:
            words = len(field.words)
            self.cells = {0: joined(line.tokens[:words]), 1: joined(line.tokens[words:])}


def align(lines: list[Line]) -> None:
    """Sets `text` of the lines that stand in tables."""
    blocks: list[type[Entry] | None] = [File]
    entry: type[Entry] | None = None
    table: list[_Row] = []
    for line in lines:
        if line.closes:
            blocks.pop()
        if line.blank or line.closes or not (line.tokens or line.continued):
            _set(table)
            table = []
        if line.closes or not line.tokens:
            continue
        if not line.continued:
            field = _field_of(blocks[-1], line.tokens)
            entry = field.entry if field else None
            if field and len(blocks) > 1 and not (line.opens or line.fixed):
                table.append(_Row(line, field))
        if line.opens:
            _set(table)
            table = []
            blocks.append(entry)


def _field_of(block: type[Entry] | None, tokens: list[Token]) -> Field | None:
    """Which entry of a block begins with these tokens."""
    if block is None:
        return None
    for field in block.children.get(tokens[0].text, ()):
        if [token.text for token in tokens[: len(field.words)]] == list(field.words):
            return field
    return block.named


def _cells(tokens: list[Token], openers: Openers) -> dict[int, str]:
    column = 0
    begun = 0
    cells: dict[int, str] = {}
    for index in range(1, len(tokens)):
        opened = _opened(tokens[index - 1], tokens[index], openers)
        if opened > column:
            cells[column] = joined(tokens[begun:index])
            column, begun = opened, index
    cells[column] = joined(tokens[begun:])
    return cells


def _opened(before: Token, token: Token, openers: Openers) -> int:
    """The column a token opens, 0 for none."""
    word = token.text if token.kind == "WORD" else token.kind
    for column, begins in enumerate(openers, 1):
        if word in begins or (before.kind == "COMMA" and "," in begins):
            return column
    return 0


def _set(table: list[_Row]) -> None:
    """Writes the lines of one table; a single line is none."""
    for rows in ([r for r in table if r.named], [r for r in table if not r.named]):
        if len(rows) < 2:
            continue
        first = _width(row.cells.get(0, "") for row in rows)
        lists: dict[Openers, list[_Row]] = {}
        for row in rows:
            lists.setdefault(row.list, []).append(row)
        for alike in lists.values():
            _write(alike, first)


def _write(rows: list[_Row], first: int) -> None:
    columns = sorted({column for row in rows for column in row.cells} - {0})
    widths = {c: max(len(row.cells.get(c, "")) for row in rows) for c in columns}
    for row in rows:
        cells = [row.cells[0].ljust(first)]
        cells += [row.cells.get(c, "").ljust(widths[c]) for c in columns]
        row.line.text = _BETWEEN.join(cells).rstrip(" ")


def _width(cells: Iterable[str]) -> int:
    return max((len(cell) for cell in cells if len(cell) <= _WIDEST), default=0)
