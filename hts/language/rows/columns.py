"""The columns of a weld list put to the heads of its table."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.findings import Finding, Label, Report
from hts.base.quantities import find_unit
from hts.base.text import Source, Span
from hts.language.rows import heads
from hts.language.rows.cells import UNIT_OF_SIZE, parted, unit_of
from hts.language.vocabulary.column import Lead
from hts.language.vocabulary.mistakes import (
    MISSING_VALUE,
    REPEATED_ENTRY,
    UNKNOWN_UNIT,
    WRONG_DIMENSION,
)
from hts.language.vocabulary.table_mistakes import (
    BROKEN_TABLE,
    LEADS_ELSEWHERE,
    UNCLEAR_CELL,
    UNMATCHED_COLUMN,
)
from hts.language.vocabulary.weld_list import Column, WeldList
from hts.syntax.table import Cell, Table


class ReadColumn(NamedTuple):
    """A column that is read: where it stands in a row, where it leads, and its unit or ""."""

    place: int
    lead: Lead
    unit: str
    entry: Column


class Layout(NamedTuple):
    """Where the cells of a row are that mean something. None for what is not there."""

    key: int
    typical: int | None
    only: int | None
    columns: list[ReadColumn]


class Columns:
    """Puts columns to heads; what does not fit goes to the report."""

    def __init__(self, listed: WeldList, table: Table, source: Source, report: Report) -> None:
        self.listed = listed
        self.table = table
        self.source = source
        self.report = report
        self.indexes: dict[str, int] = {}
        self.used: set[int] = set()

    def layout(self) -> Layout | None:
        """None where the column of the names is not there."""
        self._index()
        listed = self.listed
        key = self._find(listed.weld, listed.weld.column if listed.weld else None)
        typical = self._find(listed.typical, listed.typical.column if listed.typical else None)
        only = self._find(listed.only, listed.only.column if listed.only else None)
        columns = self._columns()
        self._unread()
        self._elsewhere([column.entry for column in columns])
        return None if key is None else Layout(key, typical, only, columns)

    def _index(self) -> None:
        """Where each head stands; blank and double ones are findings."""
        for index, head in enumerate(self.table.heads):
            if not head.text:
                if any(row[index].text for row in self.table.rows):
                    self._say_at(head, "a column has cells and no head", "give it a head")
                self.used.add(index)
            elif head.text in self.indexes:
                first = self.table.heads[self.indexes[head.text]]
                self._say_at(
                    head,
                    f"two columns have the head {head.text!r}",
                    "give each a head of its own",
                    [Label(self._span(first), "the first one")],
                )
                self.used.add(index)
            else:
                self.indexes[head.text] = index

    def _find(self, owner: object, head: str | None, field: str = "column") -> int | None:
        if owner is None or head is None:
            return None
        index = self.indexes.get(head)
        if index is not None:
            self.used.add(index)
            return index
        from hts.language.vocabulary.suggest import nearest

        same = [known for known in self.indexes if _plain(known) == _plain(head)]
        guess = same[0] if same else nearest(head, self.indexes)
        if guess is not None:
            # Misspelled is one cause, not a head too many as well.
            self.used.add(self.indexes[guess])
        heads = ", ".join(f'"{known}"' for known in list(self.indexes)[:12])
        self._tell(
            Finding(
                UNMATCHED_COLUMN,
                f"the table has no column {head!r}",
                Label(owner.place(field)),  # type: ignore[attr-defined]
                address=self.listed.name,
                help=f'did you mean "{guess}"?' if guess else f"its heads are {heads}",
            )
        )
        return None

    def _columns(self) -> list[ReadColumn]:
        found: list[ReadColumn] = []
        by_field: dict[tuple[object, ...], Column] = {}
        for entry in self.listed.columns:
            if not isinstance(entry.head, str) or not entry.sound:
                if isinstance(entry.head, str) and entry.head in self.indexes:
                    self.used.add(self.indexes[entry.head])
                continue
            lead = entry.leads_to
            if self._in_another_unit(entry, lead):
                continue
            index = self._find(entry, entry.head, "head")
            if (lead is None) != entry.unused:
                both = lead is not None
                self._say(
                    entry,
                    f'column "{entry.head}" says both where it leads and `not used`'
                    if both
                    else f'column "{entry.head}" says neither where it leads nor `not used`',
                    "keep one of them" if both else f"write, for example, {Column.example}",
                )
                continue
            if index is None or lead is None:
                continue
            key = (*lead.group, lead.field.name)
            first = by_field.setdefault(key, entry)
            if first is not entry:
                self._tell(
                    Finding(
                        REPEATED_ENTRY,
                        f"two columns lead to `{lead.words}`",
                        Label(entry.place("leads_to")),
                        address=self.listed.name,
                        others=[Label(first.place("leads_to"), "the first one")],
                        help="keep one of them, and say `not used` for the other",
                    )
                )
                continue
            unit = self._unit(entry, lead, self.table.heads[index])
            if unit is not None:
                found.append(ReadColumn(index, lead, unit, entry))
        return found

    def _in_another_unit(self, entry: Column, lead: Lead | None) -> bool:
        """Whether the head of a column is there with another unit in its brackets: told so, since
        taking over the spelling alone would read every cell in another unit."""
        if entry.head in self.indexes or lead is None:
            return False
        named = {column.head for column in self.listed.columns}
        stem, ours = parted(entry.head)
        for head, index in self.indexes.items():
            other, theirs = parted(head)
            if head in named or _plain(other) != _plain(stem) or _plain(theirs) == _plain(ours):
                continue
            self.used.add(index)
            has = f"is in [{theirs}]" if theirs else "has no unit"
            self._tell(
                Finding(
                    UNCLEAR_CELL,
                    f'"{other}" {has} in the table, the list has '
                    + (f"it in [{ours}]" if ours else "it without a unit"),
                    Label(self._span(self.table.heads[index])),
                    address=self.listed.name,
                    others=[Label(entry.place("head"), "the head as the list has it")],
                    help="find out in which unit the cells are, and correct the head of the table "
                    "or the list",
                )
            )
            return True
        return False

    def _unit(self, entry: Column, lead: Lead, head: Cell) -> str | None:
        """The unit of a column, "" where cells have to say it; None where it is not clear."""
        dimension = lead.dimension
        if dimension is None:
            return self._unit_of_none(entry, lead, head)
        stated = entry.unit or ""
        if stated and find_unit(stated, dimension) is None:
            self._tell(
                Finding(
                    WRONG_DIMENSION,
                    f"`{lead.words}` is {dimension.with_article}, and {stated} is not a unit of it",
                    Label(entry.place("unit")),
                    address=self.listed.name,
                    help=f"write a unit of {dimension.name}",
                )
            )
            return None
        written, _ = unit_of(head.text, dimension)
        if not written:
            return stated
        theirs = find_unit(written, dimension)
        if theirs is None:
            self._tell(
                Finding(
                    UNKNOWN_UNIT,
                    f"the head says [{written}], which is not a unit of {dimension.name}",
                    Label(self._span(head)),
                    address=self.listed.name,
                    help=f'say the unit in the list: column "{head.text}" {lead.words} in '
                    f"{dimension.canonical}; square brackets of a head hold a unit",
                )
            )
            return None
        if stated and find_unit(stated, dimension) is not theirs:
            self._tell(
                Finding(
                    UNCLEAR_CELL,
                    f"the head says {written} and the list {stated}",
                    Label(self._span(head)),
                    address=self.listed.name,
                    others=[Label(entry.place("unit"), "the unit of the list")],
                    help="find out in which unit the column is, and keep that",
                )
            )
            return None
        return theirs.symbol

    def _unit_of_none(self, entry: Column, lead: Lead, head: Cell) -> str | None:
        size = UNIT_OF_SIZE.get(lead.field.name)
        units = [entry.unit] if entry.unit else []
        if size is not None:
            from hts.base.quantities import LENGTH

            units += [unit for unit in [unit_of(head.text, LENGTH)[0]] if unit]
        wrong = next((unit for unit in units if unit != size), None)
        if wrong is None:
            return ""
        self._say(
            entry,
            f"`{lead.words}` takes no unit, and this column is in {wrong}",
            "check where the column leads",
        )
        return None

    def _unread(self) -> None:
        """Columns of the table that the list does not name: one cause, one finding."""
        left = [h for index, h in enumerate(self.table.heads) if index not in self.used]
        if not left:
            return
        first, *others = left
        named = ", ".join(f'"{head.text}"' for head in left[:5])
        more = f" and {len(left) - 5} more" if len(left) > 5 else ""
        plural = "s" if len(left) > 1 else ""
        self._tell(
            Finding(
                UNMATCHED_COLUMN,
                f"the list does not name the column{plural} {named}{more}",
                Label(self._span(first)),
                address=self.listed.name,
                others=[
                    Label(self.listed.place("name"), "the list"),
                    *(Label(self._span(head)) for head in others[:4]),
                ],
                help=f'add column "{first.text}" with the entry it leads to, or with `not used`',
            )
        )

    def _elsewhere(self, read: list[Column]) -> None:
        """Columns that lead to something else than their heads say, and walls not read."""
        if not self.listed.sound:
            return
        for entry in read:
            meant = heads.meaning(entry.head)
            if meant is None or entry.leads_to is None or heads.leads_there(entry.leads_to, meant):
                continue
            self._warn(
                entry,
                "leads_to",
                f'column "{entry.head}" leads to `{entry.leads_to.words}`; its head says that its '
                f"cells are {meant.name}",
            )
        for entry in self.listed.columns:
            meant = heads.meaning(entry.head) if entry.sound and entry.unused else None
            known = meant is None or any(
                heads.leads_there(each.leads_to, meant) or each.leads_to.field.name == "schedule"
                for each in read
                if each.leads_to is not None
            )
            if meant is not None and meant.name == heads.WALL and not known:
                self._warn(
                    entry,
                    "unused",
                    f'column "{entry.head}" is not used; the welds have the wall of their typical '
                    "joint, whatever the table says",
                )

    def _warn(self, entry: Column, field: str, message: str) -> None:
        at = Label(entry.place(field))
        self.report.add(Finding(LEADS_ELSEWHERE, message, at, address=self.listed.name))

    def _span(self, cell: Cell) -> Span:
        return self.source.span(cell.start, cell.end)

    def _say(self, entry: Column, message: str, help: str) -> None:
        at = Label(entry.place())
        self._tell(Finding(MISSING_VALUE, message, at, address=self.listed.name, help=help))

    def _say_at(
        self, cell: Cell, message: str, help: str, others: list[Label] | None = None
    ) -> None:
        self._tell(
            Finding(
                BROKEN_TABLE,
                message,
                Label(self._span(cell)),
                address=self.listed.name,
                others=others or (),
                help=help,
            )
        )

    def _tell(self, finding: Finding) -> None:
        self.listed.sound = False
        self.report.add(finding)


def _plain(head: str) -> str:
    return " ".join(head.split()).casefold()
