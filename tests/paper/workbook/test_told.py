"""Every cell of the workbooks of texts that say nearly everything, word for word; their look as a
digest for each sheet."""

from __future__ import annotations

import io
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from hts.checking.govern.case import Case
from hts.job.outputs.weld_table import weld_tables
from hts.paper.sheet import A4, LETTER
from hts.paper.workbook import NAME, files
from hts.paper.workbook.welds import workbook
from tests import told
from tests.rich import texts

KEPT = Path(__file__).with_name("told")


def _look(sheet: Worksheet) -> Iterator[str]:
    for row in sheet.iter_rows():
        for cell in row:
            yield f"{cell.coordinate} {cell.value} {cell.number_format} {cell.font.b} " \
                  f"{cell.fill.fgColor.rgb} {cell.alignment.wrap_text} " \
                  f"{cell.protection.locked}"  # fmt: skip
    yield from (f"{key} {one.width} {one.hidden}" for key, one in sheet.column_dimensions.items())
    yield from (f"{key} {one.height}" for key, one in sheet.row_dimensions.items())
    yield f"{sheet.freeze_panes} {sheet.page_setup.orientation} {sheet.page_setup.paperSize}"
    yield f"{sheet.print_title_rows} {sheet.print_area} {sheet.oddHeader.left.text}"
    for one in sheet.data_validations.dataValidation:
        yield f"{one.sqref} {one.type} {one.operator} {one.formula1} {one.formula2} {one.error}"
    for area in sheet.conditional_formatting:
        yield f"{area.sqref} {[(rule.operator, rule.formula) for rule in area.rules]}"


def _told(data: bytes) -> str:
    lines = []
    for sheet in openpyxl.load_workbook(io.BytesIO(data)):
        look = list(_look(sheet))
        lines.append(f"# {sheet.title}, looks {told.digest(look)}")
        for row in sheet.iter_rows(values_only=True):
            cells = [str(c) for c in row if c is not None]
            if cells:
                lines.append(" | ".join(cells))
    return "\n".join(lines)


@cache
def _book(name: str) -> str:
    return _told(files(texts.job(name), LETTER if name == "pipe-b" else A4)[NAME])


@pytest.mark.parametrize("name", texts.NAMES)
def test_a_workbook(name: str) -> None:
    """Of all but the first the digests: what is in their cells stands on their sheets as well."""
    lines = _book(name).splitlines()
    kept = lines if name == texts.FIRST else [line for line in lines if line.startswith("# ")]
    told.same(KEPT / "workbooks.txt", name, "\n".join(kept))


def test_the_workbook_of_a_list() -> None:
    name = "welds-with-commas"
    made = workbook(texts.job(name), weld_tables(Case(texts.spec(name))))
    told.same(KEPT / "lists.txt", name, _told(made))
