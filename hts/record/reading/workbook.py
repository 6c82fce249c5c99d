"""A workbook as delimited text: one line for each row of its first sheet that holds a table."""

from __future__ import annotations

import io
import zipfile
from datetime import date, datetime, time, timedelta
from typing import TYPE_CHECKING

from hts.record.errors import RecordError, missing_extra

if TYPE_CHECKING:
    from openpyxl.workbook import Workbook

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
    for sheet in book.worksheets:
        # Programs state wrong sizes; without one, all rows there are come.
        if hasattr(sheet, "reset_dimensions"):
            sheet.reset_dimensions()
        lines = ["\t".join(map(_cell, row)) for row in sheet.iter_rows(values_only=True)]
        if sum(1 for line in lines if line.count("\t") and line.strip()) > 2:
            return ("\n".join(lines) + "\n").encode("utf-8", "replace"), str(sheet.title)
    raise RecordError(name, "no sheet holds rows of readings", _REMEDY)


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
