"""A weld list read: the rows of its table as joints."""

from __future__ import annotations

from collections.abc import Iterable

from hts.base.findings import Finding, Kind, Label, Report
from hts.base.fonts import Font
from hts.base.text import Source, Span
from hts.language.rows.cells import Read, Unclear, changed_by_spreadsheet, read_cell, shifted
from hts.language.rows.columns import Columns, Layout, ReadColumn
from hts.language.rows.row_source import RowSource
from hts.language.rows.table_source import TableSource
from hts.language.rows.whole_table import wrong_count, wrong_first_line
from hts.language.vocabulary.declare import BLOCK, Entry
from hts.language.vocabulary.joint import Joint
from hts.language.vocabulary.letters import missing_letters
from hts.language.vocabulary.mistakes import REPEATED_NAME, WRONG_VALUE
from hts.language.vocabulary.reader import Reader
from hts.language.vocabulary.table_mistakes import (
    BLANK_CELL,
    BROKEN_TABLE,
    UNCLEAR_CELL,
    UNMATCHED_COLUMN,
)
from hts.language.vocabulary.weld_list import SEPARATORS, WeldList
from hts.syntax.lalr import Token
from hts.syntax.parser import tables
from hts.syntax.table import Cell, read_table
from hts.syntax.tree import Block, Item, Tree
from hts.syntax.tree import Entry as Node


def read_weld_list(
    listed: WeldList, text: Source, root: type[Entry], report: Report, font: Font | None = None
) -> None:
    """Puts the joints of a list into it; what is wrong goes to the report.

    ``root``: the class of a whole file; ``font``: one of the team's own.
    """
    source = TableSource(text)
    listed.table = source
    sign = listed.separator.sign if listed.separator is not None else None
    separator = SEPARATORS.get(sign or "comma", ",")
    wrong_line = wrong_first_line(listed, source, separator)
    if wrong_line is not None:
        listed.sound = False
        report.add(wrong_line)
        return
    table = read_table(source, separator)
    for wrong in table.misforms:
        _say(listed, report, BROKEN_TABLE, wrong.message, source.span(*wrong[1:3]), wrong.help)
    if not table.heads:
        return
    layout = Columns(listed, table, source, report).layout()
    source.put(table, layout.key if layout is not None else None)
    if layout is None:
        return
    count = wrong_count(listed, table, source) if not table.misforms else None
    if count is not None:
        listed.sound = False
        report.add(count)
    rows = _Rows(listed, layout, source, root, report, font)
    listed.joints = rows.joints(table.rows)


class _Rows:
    def __init__(
        self,
        listed: WeldList,
        layout: Layout,
        source: Source,
        root: type[Entry],
        report: Report,
        font: Font | None,
    ) -> None:
        self.font = font
        self.listed = listed
        self.layout = layout
        self.source = source
        self.root = root
        self.report = report
        self.blanks = frozenset((*listed.blanks, ""))
        separator = listed.separator
        self.comma = separator is not None and separator.decimal == "comma"
        #: Columns that say one entry together, in the order of the list.
        self.groups: dict[tuple[object, ...], list[ReadColumn]] = {}
        for column in layout.columns:
            self.groups.setdefault(column.lead.group, []).append(column)
        #: Cells of one text in one column are the same items.
        self.known: dict[tuple[int, str], Read | Unclear] = {}

    def joints(self, rows: list[list[Cell]]) -> list[Joint]:
        found: dict[str, Joint] = {}
        alike: dict[str, Joint] = {}
        for number, row in enumerate(rows, 1):
            if not self._counts(row):
                continue
            name = self._name(row[self.layout.key])
            if name is None:
                continue
            made = self._joint(number, row, name)
            if made is None:
                continue
            found.setdefault(name.text, made)
            first = alike.setdefault(name.text.casefold(), made)
            if first is not made:
                other = first.names[0]
                self._say(
                    REPEATED_NAME,
                    f"two rows are weld {name.text}"
                    if other == name.text
                    else f"welds {other} and {name.text} differ in capital letters alone",
                    row[self.layout.key],
                    "give each weld a number of its own, or remove one of the rows",
                    name.text,
                    [Label(first.place("names"), "the first one")],
                )
        if not found and rows and self.listed.sound:
            at = self.listed.only if self.listed.only is not None else self.listed
            _say(
                self.listed,
                self.report,
                UNMATCHED_COLUMN,
                "no row of the table counts",
                at.place(),
                "correct the texts of `only`",
            )
        return list(found.values())

    # Which rows, and what they are called --------------------------------------------------------

    def _counts(self, row: list[Cell]) -> bool:
        only = self.listed.only
        if only is None or self.layout.only is None:
            return True
        cell = row[self.layout.only]
        if cell.text in only.texts:
            return True
        name = row[self.layout.key].text
        if cell.text in self.blanks:
            if not only.blank_out:
                self._say(
                    BLANK_CELL,
                    f'the cell that tells whether the row counts is blank ("{only.column}")',
                    cell,
                    "fill it in, or say `blank left out` after `only`",
                    name,
                )
            return False
        near = next((t for t in only.texts if t.casefold() == cell.text.casefold()), None)
        if near is not None:
            self._say(
                UNCLEAR_CELL,
                f"{cell.text!r} is spelled unlike {near!r}, so that the row would not count",
                cell,
                f'write it like that, or name both: is "{near}", "{cell.text}"',
                name,
            )
        return False

    def _name(self, cell: Cell) -> Token | None:
        """The name of a row as a token of its own cell."""
        if cell.text in self.blanks:
            self._say(BLANK_CELL, "a row has no weld number", cell, "give the weld its number", "")
            return None
        tokens = list(tables().tokens(cell.text))
        if len(tokens) == 1 and tokens[0].kind in ("WORD", "NUMBER"):
            return tokens[0]
        changed = changed_by_spreadsheet(cell.text)
        if changed is not None:
            self._say(changed.kind, changed.message, cell, changed.help, "")
            return None
        self._say(
            WRONG_VALUE,
            f"{cell.text!r} is not a name of a joint",
            cell,
            "a name has letters and digits, with hyphens and dots between them, as W12 or FW-12.1",
            "",
        )
        return None

    # One row -------------------------------------------------------------------------------------

    def _joint(self, number: int, row: list[Cell], name: Token) -> Joint | None:
        key = row[self.layout.key]
        at = self.source.span(key.start, key.end)
        made = RowSource(self.source, number, at)
        items: list[Item] = [self._word(made, "joint", at, cell=True)]
        items.append(self._token(made, name.kind, name.text, at))
        sound = self._typical(made, row, items, name.text)
        entries: list[Node] = []
        inner: dict[tuple[int, ...], list[Node]] = {}
        for group in self.groups.values():
            node, whole = self._entry(made, row, group, name.text)
            sound = sound and whole
            if node is not None:
                self._place(made, group[0], node, entries, inner)
        last = items[-1]
        closed = Token("RBRACE", "}", len(made.text), len(made.text))
        joint = Node(items, False, items[0].start, last.end)
        joint.block = Block(Token("LBRACE", "{", last.end, last.end), entries, closed)
        if not made.text.isascii():
            tokens = [t for node in entries for t in node.items if isinstance(t, Token)]
            missing_letters(Tree(made, lambda: tokens, [joint]), self.report, self.font)
        read = Reader(made, self.report, self.root).one(Joint, joint, 1)
        assert isinstance(read, Joint)
        read.sound = read.sound and sound
        return read

    def _typical(self, made: RowSource, row: list[Cell], items: list[Item], name: str) -> bool:
        typical = self.listed.typical
        if typical is None:
            return True
        if self.layout.typical is not None:
            cell = row[self.layout.typical]
            at = self.source.span(cell.start, cell.end)
            tokens = list(tables().tokens(cell.text))
            if cell.text in self.blanks:
                self._say(
                    BLANK_CELL,
                    f"the row does not say which joint {name} is like",
                    cell,
                    "name the typical joint",
                    name,
                )
                return False
            if len(tokens) != 1 or tokens[0].kind not in ("WORD", "NUMBER"):
                self._say(
                    WRONG_VALUE,
                    f"{cell.text!r} is not the name of a joint",
                    cell,
                    "write the name of the typical joint as it is declared",
                    name,
                )
                return False
            kind, text, cell_at = tokens[0].kind, tokens[0].text, at
        elif typical.joint is not None:
            reference = typical.joint
            kind, text = "WORD", reference.name
            cell_at = typical.source.span(reference.start, reference.end)
        else:
            # The head is not there, which has been told.
            return False
        items.append(self._word(made, "like", cell_at, cell=False))
        in_table = self.layout.typical is not None
        items.append(self._token(made, kind, text, cell_at, cell=in_table))
        return True

    def _entry(
        self, made: RowSource, row: list[Cell], group: list[ReadColumn], name: str
    ) -> tuple[Node | None, bool]:
        """What the cells of one entry say; None where all are blank. False where one is unclear."""
        sound = True
        said: list[tuple[ReadColumn, Cell, Read]] = []
        for column in group:
            cell = row[column.place]
            if cell.text in self.blanks:
                if column.entry.needed:
                    sound = False
                    self._say(
                        BLANK_CELL,
                        f'weld {name} has a blank cell in "{column.entry.head}"',
                        cell,
                        "fill it in",
                        name,
                        [Label(column.entry.place("needed"), "needed")],
                    )
                continue
            read = self._read(column, cell)
            if isinstance(read, Unclear):
                sound = False
                self._say(read.kind, read.message, cell, read.help, name)
                continue
            said.append((column, cell, read))
        if not said or not sound:
            # What one cell leaves open is not told of the others as well.
            return None, sound
        at = said[0][0].entry.place("leads_to")
        entry = said[0][0].lead.entry
        items: list[Item] = [self._word(made, word, at, cell=False) for word in entry.words]
        cls = entry.entry
        if cls is None:
            column, cell, read = said[0]
            self._cell(made, items, column, cell, read)
        else:
            for field in cls.fields.values():
                for column, cell, read in said:
                    if column.lead.field is field:
                        if field.words:
                            here = column.entry.place("leads_to")
                            items += [self._word(made, w, here, cell=False) for w in field.words]
                        self._cell(made, items, column, cell, read)
                        break
                    if field.name in column.lead.given:
                        here = column.entry.place("leads_to")
                        words = column.lead.given[field.name]
                        items += [self._word(made, w, here, cell=False) for w in words]
                        break
        return Node(items, False, items[0].start, items[-1].end), sound

    def _read(self, column: ReadColumn, cell: Cell) -> Read | Unclear:
        key = (id(column.entry), cell.text)
        found = self.known.get(key)
        if found is None:
            found = read_cell(cell.text, column.lead, column.unit, self.comma)
            self.known[key] = found
        return found

    def _cell(
        self, made: RowSource, items: list[Item], column: ReadColumn, cell: Cell, read: Read
    ) -> None:
        at = self.source.span(cell.start, cell.end)
        start, _ = made.add(read.text, at, cell=True)
        items += [shifted(item, start) for item in read.items]
        text = isinstance(read.items[0], Token) and read.items[0].kind == "TEXT"
        made.said[column.entry.head] = cell.text if text else read.text
        here = column.entry.place("leads_to")
        items += [self._word(made, word, here, cell=False) for word in column.lead.after]

    def _place(
        self,
        made: RowSource,
        column: ReadColumn,
        node: Node,
        entries: list[Node],
        inner: dict[tuple[int, ...], list[Node]],
    ) -> None:
        """Puts an entry into the block it belongs to, which is made where it is not there yet."""
        into = entries
        at = column.entry.place("leads_to")
        for depth, field in enumerate(column.lead.path[:-1], 1):
            assert field.form == BLOCK
            key = tuple(id(each) for each in column.lead.path[:depth])
            if key not in inner:
                words: list[Item] = [self._word(made, w, at, cell=False) for w in field.words]
                block = Node(words, False, words[0].start, words[-1].end)
                inner[key] = []
                ends = len(made.text)
                block.block = Block(
                    Token("LBRACE", "{", ends, ends), inner[key], Token("RBRACE", "}", ends, ends)
                )
                into.append(block)
            into = inner[key]
        into.append(node)

    def _word(self, made: RowSource, word: str, at: Span, *, cell: bool) -> Token:
        return self._token(made, "WORD", word, at, cell=cell)

    def _token(
        self, made: RowSource, kind: str, text: str, at: Span, *, cell: bool = True
    ) -> Token:
        start, end = made.add(text, at, cell)
        return Token(kind, text, start, end)

    def _say(
        self,
        kind: Kind,
        message: str,
        cell: Cell,
        help: str,
        address: str,
        others: Iterable[Label] = (),
    ) -> None:
        at = self.source.span(cell.start, cell.end)
        _say(self.listed, self.report, kind, message, at, help, others, address)


def _say(
    listed: WeldList,
    report: Report,
    kind: Kind,
    message: str,
    at: Span,
    help: str,
    others: Iterable[Label] = (),
    address: str = "",
) -> None:
    listed.sound = False
    report.add(
        Finding(
            kind,
            message,
            Label(at),
            address=address or listed.name,
            others=others,
            help=help,
        )
    )
