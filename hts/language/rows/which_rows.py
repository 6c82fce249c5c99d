"""Which rows of a table are welds of the list: no heads said again, no totals, no notes, and
those that `only` chooses."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.language.rows.columns import Layout
from hts.language.rows.telling import Telling
from hts.language.vocabulary.table_mistakes import BLANK_CELL, NO_WELD, UNCLEAR_CELL
from hts.language.vocabulary.weld_list import Only
from hts.syntax.table import Cell, Table

Row = list[Cell]
#: A row with its number below the heads, from 1.
Numbered = tuple[int, Row]

_TOTAL = re.compile(
    r"(?i)(?:(?:grand|sub)[\s-]*)?totals?|sums?|averages?|mean|count|"
    r"(?:number|no\.?|total|count) of (?:welds|joints|rows)"
)
#: Words of a column that answers yes or no. Whoever fills it in takes one for the other.
_YES = frozenset(["yes", "y", "x", "true", "1", "ok", "req", "reqd", "required", "✓", "✔", "☑"])
_WORD = re.compile(r"[^\W_]+|[✓✔☑]")
#: As many places are shown with one finding.
_SHOWN = 5


class WhichRows:
    """Parts the rows of a table; what is no weld and what is not clear is told."""

    def __init__(self, table: Table, layout: Layout, telling: Telling) -> None:
        self.layout = layout
        self.telling = telling
        self.only: Only | None = telling.listed.only if layout.only is not None else None
        self.blanks = frozenset((*telling.listed.blanks, ""))
        self.heads = [_plain(head.text) for head in table.heads]
        #: What stands in the place of a weld: heads said again, totals and notes.
        self.no_welds: list[Row] = []
        self.rows: list[Numbered] = []
        #: Those that `only` leaves out without a doubt.
        self.left_out: list[Row] = []
        again: list[Row] = []
        for number, row in enumerate(table.rows, 1):
            if self._heads_again(row):
                again.append(row)
            elif self._left_out(row):
                self.left_out.append(row)
            else:
                self._sort(number, row)
        self._tell_again(again)
        self.no_welds += again

    def counted(self) -> list[Numbered]:
        """The rows that are welds, and that `only` chooses."""
        return [numbered for numbered in self.rows if self._chosen(numbered[1])]

    def _sort(self, number: int, row: Row) -> None:
        total = self._total(row)
        if total is not None:
            self.no_welds.append(row)
            self.telling.at_cell(
                NO_WELD,
                f"this row is a total ({total.text}), not a weld",
                total,
                "take it out of the table",
            )
        elif self._is_note(row):
            self.no_welds.append(row)
            self.telling.at_cell(
                NO_WELD,
                "this row has a text where the weld number stands, and nothing else: a note, "
                "not a weld",
                row[self.layout.key],
                "take it out of the table",
            )
        else:
            self.rows.append((number, row))

    # What is no weld -----------------------------------------------------------------------------

    def _heads_again(self, row: Row) -> bool:
        filled = [(_plain(cell.text), n) for n, cell in enumerate(row) if cell.text]
        same = sum(text == self.heads[n] for text, n in filled)
        return same == len(filled) == len(self.heads) or (same > 1 and 2 * same > len(filled))

    def _tell_again(self, rows: list[Row]) -> None:
        if rows:
            first, *others = [row[self.layout.key] for row in rows]
            more = (
                f", and {len(others)} time{'s' if len(others) > 1 else ''} more" if others else ""
            )
            self.telling.at_cell(
                NO_WELD,
                f"the heads stand here once more{more}",
                first,
                "take the heads out from among the welds",
                others=[Label(self.telling.span(cell)) for cell in others[: _SHOWN - 1]],
            )

    def _total(self, row: Row) -> Cell | None:
        """The cell that makes a total of a row: in the place of the weld number, or anywhere where
        there is none."""
        key = row[self.layout.key]
        looked = [key] if key.text not in self.blanks else row
        return next((cell for cell in looked if _TOTAL.fullmatch(cell.text.rstrip(" :"))), None)

    def _is_note(self, row: Row) -> bool:
        key = row[self.layout.key].text
        if len(row) == 1 or key in self.blanks or any(c.text for c in row if c.text != key):
            return False
        return not any(letter.isdigit() for letter in key) or len(key.split()) > 1

    # What `only` chooses -------------------------------------------------------------------------

    def _left_out(self, row: Row) -> bool:
        """Whether `only` leaves a row out without a doubt."""
        if self.only is None or self.layout.only is None:
            return False
        text = row[self.layout.only].text
        if text in self.blanks:
            return self.only.blank_out
        return text not in self.only.texts and _near(text, self.only.texts) is None

    def _chosen(self, row: Row) -> bool:
        if self.only is None or self.layout.only is None:
            return True
        cell = row[self.layout.only]
        if cell.text in self.only.texts:
            return True
        name = row[self.layout.key].text
        if cell.text in self.blanks:
            self.telling.at_cell(
                BLANK_CELL,
                f'the cell that tells whether the row counts is blank ("{self.only.column}")',
                cell,
                "fill it in, or say `blank left out` after `only`",
                name,
            )
            return False
        near = _near(cell.text, self.only.texts)
        self.telling.at_cell(
            UNCLEAR_CELL,
            f"{cell.text!r} may mean the same as {near!r}, and the row would not count",
            cell,
            f'write it like that, or name both: is "{near}", "{cell.text}"',
            name,
        )
        return False


def _near(text: str, wanted: list[str]) -> str | None:
    """The text among those wanted that a cell may have been meant to be."""
    words = _words(text)
    for each in wanted:
        asked = _words(each)
        if words == asked or "".join(words) == "".join(asked):
            return each
        if _says_yes(asked) and len(asked) == 1 and _says_yes(words):
            return each
    return None


def _says_yes(words: list[str]) -> bool:
    return bool(words) and words[0] in _YES


def _words(text: str) -> list[str]:
    return [word.casefold() for word in _WORD.findall(text.replace("'", ""))]


def _plain(head: str) -> str:
    return " ".join(head.split()).casefold()
