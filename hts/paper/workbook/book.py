"""A workbook of tables that print well, all in one manner."""

from __future__ import annotations

import datetime
import io
from collections.abc import Sequence
from typing import Any, NamedTuple

import xlsxwriter
from xlsxwriter.utility import xl_rowcol_to_cell

from hts.job.compiler import Job
from hts.job.outputs.text import visible
from hts.paper.sheet import Size
from hts.paper.workbook.cells import (
    DATED,
    FIGURE,
    MOMENT,
    TEXT,
    Cell,
    Duration,
    Figure,
    Fill,
    Formula,
)

#: Instead of a clock's time, so that the same job gives the same bytes.
_MADE = datetime.datetime(2000, 1, 1)
#: ECMA-376 lets a cell hold 32,767 characters, and a header or footer 255.
_LONGEST = 32_000
_FOOTER = 40
_PAPER = {"Letter": 1, "A4": 9}
_HEAD_ROW = 3
_WIDEST = 60
_NARROWEST = 7
#: Characters across a sheet in print that can still be read: upright, and per landscape page.
_UPRIGHT = 95
_LANDSCAPE = 190
#: A table that is wider by no more than this part is printed smaller, so that a cell to sign and
#: what is signed for stand on one sheet.
_SMALLER = 1.35
#: No reading of a heat treatment is larger.
_LARGEST = 10_000
_LINE_HEIGHT = 13.5
_TALLEST = 409  # points, the most a row may have

_FORMS = {
    TEXT: "@",
    FIGURE: "0.0##",
    MOMENT: "yyyy-mm-dd hh:mm",
    "duration": "[h]:mm",
}


class Column(NamedTuple):
    """A heading and, where the cells do not tell it, how wide the column is in characters."""

    title: str
    width: int = 0


class Book:
    """Collects sheets; `data` is the finished file. All text is cleaned here."""

    def __init__(self, job: Job, size: Size) -> None:
        self._job = job
        self._size = size
        self._file = io.BytesIO()
        self._book = xlsxwriter.Workbook(
            self._file,
            {
                "in_memory": True,
                "strings_to_formulas": False,
                "strings_to_numbers": False,
                "strings_to_urls": False,
            },
        )
        named = job.document
        self._book.set_properties(
            {
                "title": _cut(f"{named.number} revision {named.revision}"),
                "subject": _cut(named.title),
                "comments": f"Fingerprint {named.fingerprint}, {named.tool}",
                "created": _MADE,
            }
        )
        self._formats: dict[tuple[tuple[str, Any], ...], Any] = {}

    def data(self) -> bytes:
        """The file. Nothing can be added afterwards."""
        self._book.close()
        return self._file.getvalue()

    def table(
        self,
        name: str,
        title: str,
        columns: Sequence[Column],
        rows: Sequence[Sequence[Cell]],
        notes: Sequence[str] = (),
        keys: int = 1,
    ) -> None:
        """A sheet with one table. `name` is ours and at most 31 characters long; the first `keys`
        columns stay in view and are printed on every page."""
        sheet = self._book.add_worksheet(name)
        named = self._job.document
        widths = [_width(column, index, rows) for index, column in enumerate(columns)]
        sheet.write_string(
            0, 0, f"{title}: {_clean(named.number)}", self._format(bold=True, size=14)
        )
        sheet.write_string(
            1,
            0,
            _clean(
                f"{named.title}; revision {named.revision} of {named.dated}; {named.status}; "
                f"fingerprint {named.fingerprint}; {named.tool}"
            ),
            self._format(color="#444444"),
        )
        head = self._format(bold=True, wrap=True, bottom=2, top=1, valign="bottom")
        for index, column in enumerate(columns):
            sheet.write_string(_HEAD_ROW, index, _clean(column.title), head)
            sheet.set_column(index, index, widths[index])
        titles = zip((column.title for column in columns), widths, strict=True)
        sheet.set_row(_HEAD_ROW, _height(max(_lines(t, w) for t, w in titles)))
        for number, row in enumerate(rows, _HEAD_ROW + 1):
            if len(row) != len(columns):
                raise ValueError(f"{len(row)} cells in a table of {len(columns)} columns")
            for index, cell in enumerate(row):
                self._write(sheet, number, index, cell)
            # Said here, for not every program finds the height of wrapped text by itself.
            texts = zip(row, widths, strict=True)
            sheet.set_row(
                number, _height(max(_lines(c, w) if isinstance(c, str) else 1 for c, w in texts))
            )
        end = _HEAD_ROW + len(rows)
        wide = sum(widths)
        for number, note in enumerate(notes, end + 2):
            text = _clean(note)
            sheet.merge_range(
                number, 0, number, len(columns) - 1, text, self._format(wrap=True, color="#444444")
            )
            sheet.set_row(number, _height(_lines(text, min(wide, _UPRIGHT))))
        sheet.freeze_panes(_HEAD_ROW + 1, keys)
        if rows:
            sheet.autofilter(_HEAD_ROW, 0, end, len(columns) - 1)
        bottom = end + (1 + len(notes) if notes else 0)
        self._page(sheet, bottom, len(columns) - 1, wide, keys)

    def _page(self, sheet: Any, bottom: int, last: int, wide: int, keys: int) -> None:
        sheet.set_paper(_PAPER[self._size.name])
        across = 1
        if wide > _UPRIGHT:
            sheet.set_landscape()
            across = 1 if wide <= _SMALLER * _LANDSCAPE else -(-wide // _LANDSCAPE)
        sheet.set_margins(left=0.8, right=0.4, top=0.6, bottom=0.7)
        sheet.fit_to_pages(across, 0)
        sheet.repeat_rows(0, _HEAD_ROW)
        if across > 1:
            sheet.repeat_columns(0, keys - 1)
        sheet.print_area(0, 0, bottom, last)
        named = self._job.document
        left, right = (
            _cut(text).replace("&", "&&")
            for text in (
                f"{named.number} revision {named.revision}, {named.status}",
                named.fingerprint,
            )
        )
        sheet.set_footer(f"&L{left}&C&A, page &P of &N&R{right}")
        # Without a password: against a slip of the hand, not against a decision.
        sheet.protect(
            "",
            {
                "autofilter": True,
                "sort": True,
                "format_columns": True,
                "format_rows": True,
            },
        )

    def _write(self, sheet: Any, row: int, column: int, cell: Cell) -> None:
        if isinstance(cell, Figure):
            places = "0." + "0" * cell.places if cell.places else "0"
            sheet.write_number(row, column, cell.value, self._format(num=places))
        elif isinstance(cell, Duration):
            sheet.write_number(row, column, cell.days, self._format(num=_FORMS["duration"]))
        elif isinstance(cell, Formula):
            form = self._format(num=_FORMS[cell.form], bold=True)
            sheet.write_formula(row, column, cell.text, form, cell.shown)
        elif isinstance(cell, Fill):
            form = self._format(num=_FORMS[cell.form], fill=True)
            sheet.write_blank(row, column, None, form)
            if cell.form in (MOMENT, FIGURE):
                sheet.data_validation(row, column, row, column, _accepted(cell, row, column))
        else:
            sheet.write_string(row, column, _clean(cell), self._format(wrap=True))

    def _format(self, **wanted: Any) -> Any:
        key = tuple(sorted(wanted.items()))
        if key not in self._formats:
            self._formats[key] = self._book.add_format(_properties(wanted))
        return self._formats[key]


def _accepted(cell: Fill, row: int, column: int) -> dict[str, Any]:
    """What may be typed into a cell, as xlsxwriter has it."""
    if cell.form == FIGURE:
        return {
            "validate": "decimal",
            "criteria": "between",
            "minimum": -_LARGEST,
            "maximum": _LARGEST,
            "error_title": "A number is needed",
            "error_message": "Write the figure alone, without its unit.",
        }
    here = xl_rowcol_to_cell(row, column)
    later = f",ISNUMBER({cell.after}),{here}>{cell.after}" if cell.after else ""
    also = " It is later than the beginning in the cell before." if cell.after else ""
    return {
        "validate": "custom",
        "value": f"=AND(ISNUMBER({here}),{here}>={DATED}{later})",
        "error_title": "Date and time are needed",
        "error_message": "Write both, as 2026-11-20 23:50, so that a span past midnight counts "
        f"right.{also}",
    }


def _properties(wanted: dict[str, Any]) -> dict[str, Any]:
    found: dict[str, Any] = {"valign": wanted.get("valign", "top"), "font_size": 10}
    if "size" in wanted:
        found["font_size"] = wanted["size"]
    if "bold" in wanted:
        found["bold"] = True
    if "color" in wanted:
        found["font_color"] = wanted["color"]
    if "num" in wanted:
        found["num_format"] = wanted["num"]
    if "wrap" in wanted:
        found |= {"text_wrap": True, "align": "left", "indent": 1}
    for edge in ("top", "bottom"):
        if edge in wanted:
            found[edge] = wanted[edge]
    if "fill" in wanted:
        # Told by the dotted edge as well as by the shade, for black and white.
        found |= {"bg_color": "#F2F2F2", "border": 4, "locked": False}
    return found


def _width(column: Column, index: int, rows: Sequence[Sequence[Cell]]) -> int:
    if column.width:
        return column.width
    longest = max((len(_text(row[index])) for row in rows), default=0)
    word = max((len(part) for part in column.title.split()), default=0)
    return max(_NARROWEST, min(_WIDEST, longest + 3), min(_WIDEST, word + 2))


def _lines(text: str, width: int) -> int:
    """Lines a text takes in a column; words are not broken, so a line is seldom full."""
    room = max(width - 2, 1)
    return 1 if len(text) <= room else -(-len(text) * 10 // (room * 9))


def _height(lines: int) -> float:
    return min(_TALLEST, lines * _LINE_HEIGHT + 1.5)


def _text(cell: Cell) -> str:
    if isinstance(cell, str):
        return cell
    return "2026-11-20 00:00" if isinstance(cell, Fill) and cell.form == MOMENT else "0000"


def _clean(text: str) -> str:
    shown = visible(text)
    return shown if len(shown) <= _LONGEST else f"{shown[:_LONGEST]}… (whole in job.json)"


def _cut(text: str) -> str:
    shown = visible(text)
    return shown if len(shown) <= _FOOTER * 2 else f"{shown[: _FOOTER * 2]}…"
