"""A weld list read: the rows of its table as joints."""

from __future__ import annotations

from collections.abc import Iterable

from hts.base.findings import Kind, Label, Report
from hts.base.fonts import Font
from hts.base.text import Source, Span
from hts.language.rows.cells import Read, hidden_in, read_cell, shifted, unclear_anywhere
from hts.language.rows.columns import Columns, Layout, ReadColumn
from hts.language.rows.left_out import left_out_alike
from hts.language.rows.row_source import RowSource
from hts.language.rows.spreadsheet import (
    DASHES,
    Unclear,
    broken_line,
    changed_by_spreadsheet,
    whole_number_with_decimals,
)
from hts.language.rows.table_source import TableSource
from hts.language.rows.telling import Telling
from hts.language.rows.which_rows import Numbered, WhichRows
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
    telling = Telling(listed, source, report)
    for wrong in table.misforms:
        telling.at(BROKEN_TABLE, wrong.message, source.span(*wrong[1:3]), wrong.help)
    if not table.heads:
        return
    layout = Columns(listed, table, source, report).layout()
    source.put(table, layout.key if layout is not None else None)
    if layout is None:
        return
    which = WhichRows(table, layout, telling)
    count = wrong_count(listed, table, source, len(which.no_welds)) if not table.misforms else None
    if count is not None:
        listed.sound = False
        report.add(count)
    rows = _Rows(layout, telling, root, font)
    counted = which.counted()
    for found in left_out_alike(layout, counted, which.left_out, telling):
        report.add(found)
    listed.joints = rows.joints(counted, bool(table.rows))
    listed.left_out = [row[layout.key].text for row in which.left_out]


class _Rows:
    def __init__(
        self, layout: Layout, telling: Telling, root: type[Entry], font: Font | None
    ) -> None:
        self.font = font
        self.listed = listed = telling.listed
        self.layout = layout
        self.telling = telling
        self.source = telling.source
        self.root = root
        self.report = telling.report
        self.blanks = frozenset((*listed.blanks, ""))
        separator = listed.separator
        self.comma = separator is not None and separator.decimal == "comma"
        #: Columns that say one entry together, in the order of the list.
        self.groups: dict[tuple[object, ...], list[ReadColumn]] = {}
        for column in layout.columns:
            self.groups.setdefault(column.lead.group, []).append(column)
        #: Whether welds are numbered with decimals, as 12.1.
        self.decimals = False
        #: Cells of one text in one column are the same items.
        self.known: dict[tuple[int, str], Read | Unclear] = {}

    def joints(self, rows: list[Numbered], there: bool) -> list[Joint]:
        """``there``: whether the table has any row, welds or not."""
        found: dict[str, Joint] = {}
        alike: dict[str, Joint] = {}
        self.decimals = any(_has_decimals(row[self.layout.key].text) for _, row in rows)
        for number, row in rows:
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
        if not found and there and self.listed.sound:
            at = self.listed.only if self.listed.only is not None else self.listed
            self.telling.at(
                UNMATCHED_COLUMN,
                "no row of the table counts",
                at.place(),
                "correct the texts of `only`",
            )
        return list(found.values())

    def _name(self, cell: Cell) -> Token | None:
        """The name of a row as a token of its own cell."""
        text = cell.text
        if text in self.blanks:
            self._say(BLANK_CELL, "a row has no weld number", cell, "give the weld its number", "")
            return None
        tokens = list(tables().tokens(text))
        spoiled = whole_number_with_decimals(text) and not self.decimals
        if len(tokens) == 1 and tokens[0].kind in ("WORD", "NUMBER") and not spoiled:
            return tokens[0]
        self._say(*_no_name(text, cell), "")
        return None

    # One row -------------------------------------------------------------------------------------

    def _joint(self, number: int, row: list[Cell], name: Token) -> Joint | None:
        key = row[self.layout.key]
        at = self.source.span(key.start, key.end)
        made = RowSource(self.source, number, at)
        items: list[Item] = [self._word(made, "joint", at, cell=True)]
        items.append(self._token(made, name.kind, name.text, at))
        if not self._typical(made, row, items, name.text):
            # All that it does not say itself would be told as missing.
            return None
        sound = True
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
            unclear = unclear_anywhere(cell.text)
            if unclear is not None:
                self._say(unclear.kind, unclear.message, cell, unclear.help, name)
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
        self.telling.at_cell(kind, message, cell, help, address, others)


def _no_name(text: str, cell: Cell) -> tuple[Kind, str, Cell, str]:
    """What is wrong with a cell that is not a name of a joint."""
    wrong = changed_by_spreadsheet(text) or broken_line(text) or hidden_in(text)
    if wrong is not None:
        return wrong.kind, wrong.message, cell, wrong.help
    if whole_number_with_decimals(text):
        return (
            UNCLEAR_CELL,
            f"{text!r} is a whole number with decimals, as spreadsheets write it among others",
            cell,
            "format the column as text, and write the number as it stands on the drawing",
        )
    dash = next((sign for sign in text if sign in DASHES), None)
    help = "a name has letters and digits, with hyphens and dots between them, as W12 or FW-12.1"
    if dash is not None:
        help = f"the dash is U+{ord(dash):04X}: write the hyphen of the keyboard"
    return WRONG_VALUE, f"{text!r} is not a name of a joint", cell, help


def _has_decimals(text: str) -> bool:
    """Whether welds are numbered with decimals, as 12.1."""
    return "." in text and text.replace(".", "", 1).isdecimal() and text.rstrip("0")[-1:] != "."
