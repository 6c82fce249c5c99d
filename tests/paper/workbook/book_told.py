"""A workbook line by line."""

from __future__ import annotations

import io
from collections.abc import Iterator

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet

from tests import told


def _look(sheet: Worksheet) -> Iterator[str]:
    for row in sheet.iter_rows():
        for cell in row:
            yield f"{cell.coordinate} {cell.value} {cell.number_format} {cell.font.b} " \
                  f"{cell.fill.fgColor.rgb} {cell.alignment.wrap_text} " \
                  f"{cell.protection.locked} {cell.border.bottom.style} {cell.border.top.style} " \
                  f"{cell.font.sz} {cell.font.color and cell.font.color.rgb}"  # fmt: skip
    yield from (f"{key} {one.width} {one.hidden}" for key, one in sheet.column_dimensions.items())
    yield from (f"{key} {one.height}" for key, one in sheet.row_dimensions.items())
    yield f"{sheet.freeze_panes} {sheet.page_setup.orientation} {sheet.page_setup.paperSize}"
    yield f"{sheet.print_title_rows} {sheet.print_title_cols} {sheet.print_area}"
    yield f"{sheet.page_setup.fitToWidth} {sheet.page_setup.fitToHeight} {sheet.auto_filter.ref}"
    margins, foot = sheet.page_margins, sheet.oddFooter
    yield f"{margins.left} {margins.right} {margins.top} {margins.bottom}"
    yield f"{foot.left.text} {foot.center.text} {foot.right.text}"
    yield f"{sorted(map(str, sheet.merged_cells.ranges))}"
    lock = sheet.protection
    yield f"{lock.sheet} {lock.autoFilter} {lock.sort} {lock.formatColumns} {lock.formatRows}"
    for one in sheet.data_validations.dataValidation:
        yield f"{one.sqref} {one.type} {one.operator} {one.formula1} {one.formula2} {one.error}"
    for area in sheet.conditional_formatting:
        yield f"{area.sqref} {[(rule.operator, rule.formula) for rule in area.rules]}"


def book_told(data: bytes) -> str:
    """Cells row by row, below the digest of how each sheet looks."""
    lines = []
    for sheet in openpyxl.load_workbook(io.BytesIO(data)):
        look = list(_look(sheet))
        lines.append(f"# {sheet.title}, looks {told.digest(look)}")
        for row in sheet.iter_rows(values_only=True):
            cells = [str(c) for c in row if c is not None]
            if cells:
                lines.append(" | ".join(cells))
    return "\n".join(lines)
