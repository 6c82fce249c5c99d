"""Every cell of the workbooks of texts that say nearly everything, word for word; their look as a
digest for each sheet."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from hts.checking.govern.case import Case
from hts.job.outputs.weld_table import weld_tables
from hts.paper.sheet import A4, LETTER
from hts.paper.workbook import NAME, files
from hts.paper.workbook.welds import workbook
from tests import told
from tests.paper.workbook.book_told import book_told
from tests.rich import texts

KEPT = Path(__file__).with_name("told")


@cache
def _book(name: str) -> str:
    return book_told(files(texts.job(name), LETTER if name == "pipe-b" else A4)[NAME])


@pytest.mark.parametrize("name", texts.NAMES)
def test_a_workbook(name: str) -> None:
    """Of all but the first the digests: what is in their cells stands on their sheets as well."""
    lines = _book(name).splitlines()
    kept = lines if name == texts.FIRST else [line for line in lines if line.startswith("# ")]
    told.same(KEPT / "workbooks.txt", name, "\n".join(kept))


def test_the_workbook_of_a_list() -> None:
    name = "welds-with-commas"
    made = workbook(texts.job(name), weld_tables(Case(texts.spec(name))))
    told.same(KEPT / "lists.txt", name, book_told(made))
