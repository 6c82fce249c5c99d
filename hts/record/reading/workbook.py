"""A workbook as delimited text: one line for each row of its first sheet that holds a table."""

from __future__ import annotations

import io
import zipfile
from datetime import date, datetime, time, timedelta
from typing import TYPE_CHECKING, NamedTuple

from hts.record.errors import RecordError, missing_extra
from hts.record.reading.cells import is_number_of_any_kind, is_stamp

if TYPE_CHECKING:
    from openpyxl.workbook import Workbook

#: Rows of readings that make a sheet a record of its own. Basis: practice, ours.
_AS_MANY = 20

_REMEDY = "save it anew, or export the sheet as delimited text"


def as_text(data: bytes, name: str, largest: int) -> tuple[bytes, str]:
    """Lines of cells with tabs between them, and the name of the sheet. Line n is row n.

    Raises RecordError for another archive, a damaged or too large one, or one without rows.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            inside = {one.filename: one.file_size for one in archive.infolist()}
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError):
        raise RecordError(name, "it begins as an archive and is none", _REMEDY) from None
    if "xl/workbook.xml" not in inside:
        raise RecordError(
            name, "it is an archive, and no workbook", "unpack it and give the log inside"
        )
    if sum(inside.values()) > largest:
        raise RecordError(name, f"it holds more than {largest // 1_000_000} MB", _REMEDY)
    try:
        import openpyxl
    except ImportError:  # pragma: no cover - the extra is installed for the tests
        raise missing_extra("openpyxl") from None
    try:
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
        return _first_table(book, name)
    except RecordError:
        raise
    except Exception as error:  # whatever a damaged or hostile workbook makes its reader raise
        raise RecordError(
            name, f"the workbook cannot be read ({type(error).__name__})", _REMEDY
        ) from None


def _first_table(book: Workbook, name: str) -> tuple[bytes, str]:
    found: list[_Sheet] = []
    for sheet in book.worksheets:
        # Programs state wrong sizes; without one, all rows there are come.
        if hasattr(sheet, "reset_dimensions"):
            sheet.reset_dimensions()
        rows = [list(map(_cell, row)) for row in sheet.iter_rows(values_only=True)]
        if sum(1 for row in rows if len(row) > 1 and any(row)) > 2:
            lines = "".join("\t".join(row) + "\n" for row in rows)
            widths = [sum(map(bool, row)) for row in rows if _is_reading(row)]
            found.append(_Sheet(str(sheet.title), lines, len(widths), max(widths, default=0)))
    if not found:
        raise RecordError(name, "no sheet holds rows of readings", _REMEDY)
    # A sheet with figures of the run, as a summary, may stand before that of the readings.
    best = max(found, key=lambda one: one.readings)
    more = [one.title for one in found if one.width == best.width and one.readings >= _AS_MANY]
    if len(more) > 1:
        raise RecordError(
            name,
            f"several of its sheets hold rows of readings: {', '.join(more)}",
            "export the sheets of this run as delimited text, each in a file of its own",
        )
    return best.lines.encode("utf-8", "replace"), best.title


class _Sheet(NamedTuple):
    """A sheet as lines; how many are readings, and how many cells of the longest of these are
    filled."""

    title: str
    lines: str
    readings: int
    width: int


def _is_reading(row: list[str]) -> bool:
    """Whether a row begins with a time, or a number that may be one, and goes on with numbers."""
    filled = [cell for cell in row if cell]
    return (
        len(filled) > 1
        and (is_stamp(filled[0]) or is_number_of_any_kind(filled[0]))
        and any(map(is_number_of_any_kind, filled[1:]))
    )


def _cell(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, datetime):
        # Days are counted in binary fractions; a clock has whole milliseconds.
        near = value + timedelta(microseconds=500)
        return near.isoformat(" ", "milliseconds" if near.microsecond >= 1000 else "seconds")
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, timedelta):
        whole = round(value.total_seconds())
        return f"{whole // 3600:02d}:{whole // 60 % 60:02d}:{whole % 60:02d}"
    return " ".join(str(value).split())
