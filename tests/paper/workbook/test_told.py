"""Every cell of the workbooks of texts that say nearly everything, word for word; their look as a
digest for each sheet."""

from __future__ import annotations

from pathlib import Path

from hts.checking.govern.case import Case
from hts.job.outputs.weld_table import weld_tables
from hts.paper.sheet import A4, LETTER
from hts.paper.workbook import NAME, files
from hts.paper.workbook.welds import workbook
from tests import told
from tests.paper.workbook.book_told import book_told
from tests.rich import texts

KEPT = Path(__file__).with_name("told")


def _book(name: str) -> str:
    return book_told(files(texts.job(name), LETTER if name == "pipe-b" else A4)[NAME])


def test_the_workbooks() -> None:
    """Of all but the first digests alone: what is in their cells stands on their sheets as well."""
    books = {name: _book(name) for name in texts.NAMES}
    others = "\n".join(f"{name} {told.digest([book])}" for name, book in books.items())
    told.each_once(KEPT / "workbooks.txt", {texts.FIRST: books[texts.FIRST], "others": others})


def test_the_workbook_of_a_list() -> None:
    name = "welds-with-commas"
    made = workbook(texts.job(name), weld_tables(Case(texts.spec(name))))
    told.same(KEPT / "lists.txt", name, book_told(made))
